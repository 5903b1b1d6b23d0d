// Opens a station's database and keeps it usable: phones kill the connection of a page in the background, and another
// tab may bring a newer schema. Holds no record itself and decides nothing about events.
import { type IdbFactory, type IdbSource, pageFactory } from './factory.ts';
import { errorToFailure, type StoreFailure, type StoreResult } from './failures.ts';
import { type SchemaVersion, StationDb, VERSIONS } from './schema.ts';

export type StoreTrouble =
  | { type: 'newer-version' }
  /** An older tab holds the database; opening goes on when that tab is closed. */
  | { type: 'blocked' }
  | { type: 'store-lost'; message: string }
  /** The connection had died and was opened anew; nothing is lost, readers should look again. */
  | { type: 'reopened' };

export type StationStore = {
  readonly station: string;
  /**
   * Runs a database operation. When the connection turns out dead it is opened anew and the operation is run once
   * more, so it must be repeatable. Expected failures are data; bugs throw.
   */
  run: <T>(operation: (db: StationDb) => PromiseLike<T>) => Promise<StoreResult<T>>;
  onTrouble: (call: (trouble: StoreTrouble) => void) => () => void;
  /** Called before the database is let go of for a newer tab: the last chance to write. */
  beforeClose: (flush: () => Promise<void>) => () => void;
  /** Highest arrival number that a reader of this page has been given. */
  seen: { arrival: number };
  close: () => void;
};

export type OpenOptions = {
  station: string;
  versions?: readonly SchemaVersion[];
  /** For tests that make the database fail; the app leaves it out. */
  create?: (station: string, versions: readonly SchemaVersion[], source?: IdbSource) => StationDb;
  factory?: IdbFactory;
};

/** Milliseconds that a tab with the newer schema is kept waiting for our last writes. */
const FLUSH_LIMIT = 1500;

/** Milliseconds; a database that was open a moment ago opens at once, or its factory is dead. */
const REOPEN_LIMIT = 8000;

export async function openStation(options: OpenOptions): Promise<StoreResult<StationStore>> {
  const { station, versions = VERSIONS, factory = pageFactory } = options;
  const create: NonNullable<OpenOptions['create']> = options.create ?? ((...given) => new StationDb(...given));
  const troubles = new Set<(trouble: StoreTrouble) => void>();
  const flushes = new Set<() => Promise<void>>();
  const newest = Math.max(...versions.map((step) => step.version));
  let end: 'open' | 'closed' | 'newer-version' = 'open';
  let reopening: Promise<StationDb> | null = null;
  /** What the present connection was opened with. */
  let source = factory.current();

  const tell = (trouble: StoreTrouble): void => {
    for (const call of troubles) call(trouble);
  };

  function connect(): StationDb {
    source = factory.current();
    const db = create(station, versions, source);
    // A database from a newer build opens without complaint; writing to it by old rules could harm it. Sticky, since
    // Dexie may open again by itself.
    db.on('ready', () => refuseNewer(db, newest), true);
    db.on('blocked', () => tell({ type: 'blocked' }));
    db.on('versionchange', () => {
      void letGo(db);
      // Stops the default handler, which would close at once and silently.
      return false;
    });
    return db;
  }

  async function letGo(db: StationDb): Promise<void> {
    tell({ type: 'newer-version' });
    const limit = new Promise<void>((resolve) => setTimeout(resolve, FLUSH_LIMIT));
    await Promise.race([Promise.allSettled([...flushes].map((flush) => flush())), limit]);
    if (end === 'open') end = 'newer-version';
    db.close();
  }

  let current = connect();

  /** Many operations may find the same connection dead; one new connection serves them all. */
  function reopen(dead: StationDb): Promise<StationDb> {
    if (current !== dead) return Promise.resolve(current);
    reopening ??= (async () => {
      dead.close();
      current = await openAgain();
      tell({ type: 'reopened' });
      return current;
    })().finally(() => {
      reopening = null;
    });
    return reopening;
  }

  /** Where the page's own way to its databases is dead too, through another one. */
  async function openAgain(): Promise<StationDb> {
    const again = connect();
    try {
      await openInTime(again);
      return again;
    } catch (error) {
      // One that opens late would otherwise stay open beside the next.
      again.close();
      if (errorToFailure(error)?.type !== 'store-lost' || !factory.renew(source)) throw error;
    }
    const fresh = connect();
    await openInTime(fresh);
    return fresh;
  }

  const ended = (): StoreFailure | null => {
    if (end === 'open') return null;
    return end === 'newer-version' ? { type: 'newer-version' } : { type: 'store-lost', message: 'closed' };
  };

  async function attempt<T>(
    operation: (db: StationDb) => PromiseLike<T>,
    db: () => Promise<StationDb>,
  ): Promise<StoreResult<T>> {
    const over = ended();
    if (over) return over;
    try {
      return { type: 'done', value: await operation(await db()) };
    } catch (error) {
      const failure = errorToFailure(error);
      if (!failure) throw error;
      if (failure.type === 'newer-version' && end === 'open') end = 'newer-version';
      return ended() ?? failure;
    }
  }

  async function run<T>(operation: (db: StationDb) => PromiseLike<T>): Promise<StoreResult<T>> {
    const used = current;
    const first = await attempt(operation, async () => used);
    if (first.type !== 'store-lost') return first;
    let again = await attempt(operation, () => reopen(used));
    // It opened, and was dead all the same.
    const opened = current;
    if (again.type === 'store-lost' && opened !== used && factory.renew(source)) {
      again = await attempt(operation, () => reopen(opened));
    }
    if (again.type === 'store-lost') tell(again);
    return again;
  }

  const opened = await run(async (db) => void (await db.open()));
  if (opened.type !== 'done') return opened;

  return {
    type: 'done',
    value: {
      station,
      run,
      onTrouble: (call) => {
        troubles.add(call);
        return () => troubles.delete(call);
      },
      beforeClose: (flush) => {
        flushes.add(flush);
        return () => flushes.delete(flush);
      },
      seen: { arrival: 0 },
      close: () => {
        if (end === 'open') end = 'closed';
        current.close();
      },
    },
  };
}

/** A dead factory may never answer at all. */
async function openInTime(db: Pick<StationDb, 'open'>): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    const error = Object.assign(new Error('the database does not open'), { name: 'TimeoutError' });
    timer = setTimeout(() => reject(error), REOPEN_LIMIT);
  });
  await Promise.race([db.open(), late]).finally(() => clearTimeout(timer));
}

function refuseNewer(db: StationDb, newest: number): void {
  // Dexie multiplies by ten, and adds less than ten when it has to patch an index.
  const version = Math.floor(db.backendDB().version / 10);
  if (version > newest) throw Object.assign(new Error(`database version ${version}`), { name: 'VersionError' });
}
