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
  /** For a caller that waited in vain: this connection counts as dead, and what is run next finds another one. */
  renew: () => void;
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

type Opened = {
  station: string;
  versions: readonly SchemaVersion[];
  factory: IdbFactory;
  create: NonNullable<OpenOptions['create']>;
  troubles: Set<(trouble: StoreTrouble) => void>;
  flushes: Set<() => Promise<void>>;
  newest: number;
  end: 'open' | 'closed' | 'newer-version';
  reopening: Promise<StationDb> | null;
  /** What the present connection was opened with. */
  source: IdbSource | undefined;
  current: StationDb;
};

export async function openStation(options: OpenOptions): Promise<StoreResult<StationStore>> {
  const { station, versions = VERSIONS, factory = pageFactory } = options;
  const unopened: Omit<Opened, 'current'> = {
    station,
    versions,
    factory,
    create: options.create ?? ((...given) => new StationDb(...given)),
    troubles: new Set<(trouble: StoreTrouble) => void>(),
    flushes: new Set<() => Promise<void>>(),
    newest: Math.max(...versions.map((step) => step.version)),
    end: 'open',
    reopening: null,
    source: factory.current(),
  };
  const st: Opened = Object.assign(unopened, { current: connect(unopened) });

  const opened = await run(st, async (db) => void (await db.open()));
  if (opened.type !== 'done') return opened;

  return {
    type: 'done',
    value: {
      station,
      run: (operation) => run(st, operation),
      renew: () => {
        st.factory.renew(st.source);
        st.current.close();
      },
      onTrouble: (call) => {
        st.troubles.add(call);
        return () => st.troubles.delete(call);
      },
      beforeClose: (flush) => {
        st.flushes.add(flush);
        return () => st.flushes.delete(flush);
      },
      seen: { arrival: 0 },
      close: () => {
        if (st.end === 'open') st.end = 'closed';
        st.current.close();
      },
    },
  };
}

function tell(st: Omit<Opened, 'current'>, trouble: StoreTrouble): void {
  for (const call of st.troubles) call(trouble);
}

function connect(st: Omit<Opened, 'current'>): StationDb {
  st.source = st.factory.current();
  const db = st.create(st.station, st.versions, st.source);
  // A database from a newer build opens without complaint; writing to it by old rules could harm it. Sticky, since
  // Dexie may open again by itself.
  db.on('ready', () => refuseNewer(db, st.newest), true);
  db.on('blocked', () => tell(st, { type: 'blocked' }));
  db.on('versionchange', () => {
    void letGo(st, db);
    // Stops the default handler, which would close at once and silently.
    return false;
  });
  return db;
}

async function letGo(st: Omit<Opened, 'current'>, db: StationDb): Promise<void> {
  tell(st, { type: 'newer-version' });
  const limit = new Promise<void>((resolve) => setTimeout(resolve, FLUSH_LIMIT));
  await Promise.race([Promise.allSettled([...st.flushes].map((flush) => flush())), limit]);
  if (st.end === 'open') st.end = 'newer-version';
  db.close();
}

/** Many operations may find the same connection dead; one new connection serves them all. */
function reopen(st: Opened, dead: StationDb): Promise<StationDb> {
  if (st.current !== dead) return Promise.resolve(st.current);
  st.reopening ??= (async () => {
    dead.close();
    st.current = await openAgain(st);
    tell(st, { type: 'reopened' });
    return st.current;
  })().finally(() => {
    st.reopening = null;
  });
  return st.reopening;
}

/** Where the page's own way to its databases is dead too, through another one. */
async function openAgain(st: Opened): Promise<StationDb> {
  const again = connect(st);
  try {
    await openInTime(again);
    return again;
  } catch (error) {
    // One that opens late would otherwise stay open beside the next.
    again.close();
    if (errorToFailure(error)?.type !== 'store-lost' || !st.factory.renew(st.source)) throw error;
  }
  const fresh = connect(st);
  await openInTime(fresh);
  return fresh;
}

function ended(st: Opened): StoreFailure | null {
  if (st.end === 'open') return null;
  return st.end === 'newer-version' ? { type: 'newer-version' } : { type: 'store-lost', message: 'closed' };
}

async function attempt<T>(
  st: Opened,
  operation: (db: StationDb) => PromiseLike<T>,
  db: () => Promise<StationDb>,
): Promise<StoreResult<T>> {
  const over = ended(st);
  if (over) return over;
  try {
    return { type: 'done', value: await operation(await db()) };
  } catch (error) {
    const failure = errorToFailure(error);
    if (!failure) throw error;
    if (failure.type === 'newer-version' && st.end === 'open') st.end = 'newer-version';
    return ended(st) ?? failure;
  }
}

async function run<T>(st: Opened, operation: (db: StationDb) => PromiseLike<T>): Promise<StoreResult<T>> {
  const used = st.current;
  const first = await attempt(st, operation, async () => used);
  if (first.type !== 'store-lost') return first;
  let again = await attempt(st, operation, () => reopen(st, used));
  // It opened, and was dead all the same.
  const opened = st.current;
  if (again.type === 'store-lost' && opened !== used && st.factory.renew(st.source)) {
    again = await attempt(st, operation, () => reopen(st, opened));
  }
  if (again.type === 'store-lost') tell(st, again);
  return again;
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
