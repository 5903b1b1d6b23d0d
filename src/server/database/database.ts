// The tables and how to open them, the same on SQLite and PostgreSQL. Only this file and those it opens know which of
// the two it is; everything else asks through Kysely and may not use words that one of them lacks.
import { Kysely, type LogEvent, PostgresDialect, SqliteDialect } from 'kysely';
import { failureText, judgeFailure } from './databaseErrors.ts';
import { createHostedPool, type PoolNews, type PoolTimes, SERVING } from './postgresPool.ts';
import { IN_MEMORY, OwnSqliteDialect, openForReading, openSqliteFile } from './sqlite.ts';
import type { Tables } from './tables.ts';
import { bringUpToDate, CannotOpen } from './upToDate.ts';

type Dialect = 'sqlite' | 'postgresql';
export type DatabaseAddress = { type: 'sqlite'; file: string } | { type: 'postgresql'; url: string };

export type Condition = {
  /** Why nothing new is taken: pages are damaged, and an answer "stored" could not be relied on. Null: none known. */
  broken: string | null;
  /** Requests that wait for the database now. */
  waiting: () => number;
};
/** Another way to the same rows, with none of them in memory yet; for whoever checks what is on the disk. */
export type Reader = { query: Kysely<Tables>; close: () => Promise<void> };
export type Database = {
  query: Kysely<Tables>;
  dialect: Dialect;
  close: () => Promise<void>;
  condition: Condition;
  reader: () => Reader;
};

export type OpenOptions = {
  /** How long the pool of PostgreSQL waits for what. */
  times?: Partial<PoolTimes>;
  /** Told when PostgreSQL goes away or answers again. */
  onNews?: (news: PoolNews) => void;
};

/**
 * Opens and brings the tables up to date. Throws when that fails, with a sentence where a person has to do something:
 * a half-migrated database serves nobody.
 */
export async function openDatabase(address: DatabaseAddress, options: OpenOptions = {}): Promise<Database> {
  return address.type === 'sqlite' ? await openSqlite(address.file) : await openPostgresql(address.url, options);
}

/** Waits so long for another process that makes or changes the same file. */
const OPEN_TRIES = 20;

async function openSqlite(file: string): Promise<Database> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await openSqliteOnce(file);
    } catch (error) {
      // Each try waits by itself as long as SQLite is told to.
      if (judgeFailure(error) === 'busy' && tries < OPEN_TRIES) continue;
      if (judgeFailure(error) !== 'damaged') throw error;
      throw new CannotOpen(`The database file is damaged: ${failureText(error)}. Restore a backup: npm run restore.`, {
        cause: error,
      });
    }
  }
}

async function openSqliteOnce(file: string): Promise<Database> {
  const connection = openSqliteFile(file);
  const condition: Condition = { broken: null, waiting: () => 0 };
  const log = watch(condition);
  const query = new Kysely<Tables>({ dialect: new OwnSqliteDialect(connection), log });
  try {
    await bringUpToDate(query, 'sqlite', async (work) => {
      // SQLite has no lock of its own for this, and changes tables outside of transactions unless told.
      connection.exec('begin immediate');
      try {
        await work();
        connection.exec('commit');
      } finally {
        if (connection.inTransaction) connection.exec('rollback');
      }
    });
  } catch (error) {
    await query.destroy();
    throw error;
  }
  const reader = (): Reader => {
    if (file === IN_MEMORY) return { query, close: async () => undefined };
    const other = openForReading(file);
    const own = new Kysely<Tables>({ dialect: new SqliteDialect({ database: other }), log });
    return { query: own, close: () => own.destroy() };
  };
  return { query, dialect: 'sqlite', close: () => query.destroy(), condition, reader };
}

/** Bringing the tables up to date may take long; requests may not. */
const MIGRATING: Partial<PoolTimes> = {
  connections: 1,
  statementMs: 3_600_000,
  queryMs: 3_700_000,
  idleInTransactionMs: 600_000,
};

async function openPostgresql(url: string, { times, onNews }: OpenOptions): Promise<Database> {
  const now = () => Date.now();
  const patience = { ...SERVING, ...times };
  const first = new Kysely<Tables>({
    dialect: new PostgresDialect({ pool: createHostedPool(url, { ...patience, ...MIGRATING }, now) }),
  });
  try {
    // Kysely's migrator takes a lock of the whole database itself.
    await bringUpToDate(first, 'postgresql', (work) => work());
  } finally {
    await first.destroy();
  }
  const condition: Condition = { broken: null, waiting: () => pool.waiting() };
  const pool = createHostedPool(url, patience, now, (news) => {
    // Another host has pages of its own.
    if (news.type === 'back') condition.broken = null;
    onNews?.(news);
  });
  const query = new Kysely<Tables>({ dialect: new PostgresDialect({ pool }), log: watch(condition) });
  const reader = (): Reader => ({ query, close: async () => undefined });
  return { query, dialect: 'postgresql', close: () => query.destroy(), condition, reader };
}

/** Sees every statement that fails, whoever made it. */
function watch(condition: Condition): (event: LogEvent) => void {
  return (event) => {
    if (event.level === 'error' && judgeFailure(event.error) === 'damaged') {
      condition.broken ??= failureText(event.error);
    }
  };
}
