// The phone's own small database: which stations are on it, and its settings. Holds nothing of any station's record.
import { Dexie, type Table } from 'dexie';
import { type IdbFactory, type IdbSource, pageFactory } from './factory.ts';
import { errorToFailure, type StoreResult } from './failures.ts';
import { stationToDatabase } from './schema.ts';

export type StationEntry = { id: string; name: string; openedAt: number };

type SettingRow = { key: string; value: unknown };

class DirectoryDb extends Dexie {
  declare stations: Table<StationEntry, string>;
  declare settings: Table<SettingRow, string>;

  constructor(source?: IdbSource) {
    super('asfound', { ...source, chromeTransactionDurability: 'strict', cache: 'disabled' });
    this.version(1).stores({ stations: 'id', settings: 'key' });
  }
}

export type Directory = {
  /** Last opened first. */
  stations: () => Promise<StoreResult<StationEntry[]>>;
  /** Adds a station or renames it, and marks it as opened. */
  openedStation: (entry: StationEntry) => Promise<StoreResult<void>>;
  /** Settings of the phone, not of a station, as they were kept: whoever asks reads them by their form. */
  settings: () => Promise<StoreResult<Record<string, unknown>>>;
  saveSetting: (key: string, value: unknown) => Promise<StoreResult<void>>;
  close: () => void;
};

export function createDirectory(factory: IdbFactory = pageFactory): Directory {
  let source = factory.current();
  let db = new DirectoryDb(source);

  /** Runs again on a new connection when the old one was lost, and where that is dead too, through another factory. */
  async function run<T>(operation: (live: DirectoryDb) => PromiseLike<T>): Promise<StoreResult<T>> {
    for (let round = 0; ; round++) {
      const [used, from] = [db, source];
      const ran = await attempt(operation, used);
      if (ran.type !== 'store-lost' || round === 2) return ran;
      if (round === 1 && !factory.renew(from)) return ran;
      if (db !== used) continue;
      used.close();
      source = factory.current();
      db = new DirectoryDb(source);
    }
  }

  return {
    stations: () =>
      run(async (live) =>
        (await live.stations.toArray()).sort((a, b) => b.openedAt - a.openedAt || (a.id < b.id ? -1 : 1)),
      ),
    openedStation: (entry) =>
      run((live) => live.transaction('rw', live.stations, async () => void (await live.stations.put(entry)))),
    settings: () =>
      run(async (live) => Object.fromEntries((await live.settings.toArray()).map(({ key, value }) => [key, value]))),
    saveSetting: (key, value) =>
      run((live) => live.transaction('rw', live.settings, async () => void (await live.settings.put({ key, value })))),
    close: () => db.close(),
  };
}

/** Stations that have a database here, listed or not; none where the browser does not tell. */
export async function stationsOnDisk(factory: IdbFactory = pageFactory): Promise<string[]> {
  const { indexedDB: from } = factory.current() ?? globalThis;
  const found = await Promise.resolve(from.databases?.()).catch(() => undefined);
  const head = stationToDatabase('');
  return (found ?? []).flatMap(({ name }) => (name?.startsWith(head) ? [name.slice(head.length)] : []));
}

async function attempt<T>(operation: (db: DirectoryDb) => PromiseLike<T>, db: DirectoryDb): Promise<StoreResult<T>> {
  try {
    return { type: 'done', value: await operation(db) };
  } catch (error) {
    const failure = errorToFailure(error);
    if (!failure) throw error;
    return failure;
  }
}
