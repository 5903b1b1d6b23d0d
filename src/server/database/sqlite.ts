// One file of SQLite, opened so that an acknowledged event outlives the power and no other user can read it.
import { chmodSync, closeSync, mkdirSync, openSync } from 'node:fs';
import { dirname } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import { type DatabaseConnection, SqliteDialect, type SqliteDialectConfig, SqliteDriver } from 'kysely';

export const IN_MEMORY = ':memory:';

/** Long enough for another process that brings the tables up to date. */
const PATIENCE_MS = 5000;

export function openSqliteFile(file: string): SqliteConnection.Database {
  if (file !== IN_MEMORY) makePrivate(file);
  const connection = new SqliteConnection(file, { timeout: PATIENCE_MS });
  try {
    // WAL lets `npm run pair` write while the server runs; FULL because an acknowledged event must outlive the power.
    connection.pragma('journal_mode = WAL');
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    // After a checkpoint the log is cut down to this again; a burst of photos would leave it large for good.
    connection.pragma('journal_size_limit = 67108864');
  } catch (error) {
    connection.close();
    throw error;
  }
  return connection;
}

/** Before SQLite makes it, and its log beside it, for everybody to read. */
function makePrivate(file: string): void {
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
  closeSync(openSync(file, 'a', 0o600));
  for (const one of [file, `${file}-wal`, `${file}-shm`]) {
    try {
      chmodSync(one, 0o600);
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? error.code : '';
      // No log yet; or the file is another user's, who then decides.
      if (code !== 'ENOENT' && code !== 'EPERM') throw error;
    }
  }
}

/** What is wrong with pages and indexes, the first few; empty when nothing is. Reads the whole file. */
export function checkPages(connection: SqliteConnection.Database): string[] {
  try {
    const rows = connection.pragma('quick_check(5)') as { quick_check: string }[];
    return rows.map((row) => row.quick_check).filter((text) => text !== 'ok');
  } catch (error) {
    // So damaged that not even the check can go through it.
    return [error instanceof Error ? error.message : String(error)];
  }
}

/** A second way to the same file, which has nothing of it in memory yet and can change nothing. */
export function openForReading(file: string): SqliteConnection.Database {
  const connection = new SqliteConnection(file, { readonly: true, timeout: PATIENCE_MS });
  connection.pragma('cache_size = -512');
  return connection;
}

class Driver extends SqliteDriver {
  readonly #connection: SqliteConnection.Database;
  #waiting = 0;
  constructor(config: SqliteDialectConfig, connection: SqliteConnection.Database) {
    super(config);
    this.#connection = connection;
  }
  override async acquireConnection(): Promise<DatabaseConnection> {
    this.#waiting += 1;
    try {
      return await super.acquireConnection();
    } finally {
      this.#waiting -= 1;
    }
  }
  /**
   * Whoever waited behind a transaction gets its answer at once; handed over without a round of the event loop between,
   * the answers of all who waited would keep the sockets waiting.
   */
  override async releaseConnection(): Promise<void> {
    if (this.#waiting === 0) return await super.releaseConnection();
    setImmediate(() => void super.releaseConnection());
  }
  /** SQLite ends a transaction itself on a full disk; rolling back once more would hide why. */
  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#connection.inTransaction) await super.rollbackTransaction(connection);
  }
}

export class OwnSqliteDialect extends SqliteDialect {
  readonly #connection: SqliteConnection.Database;
  constructor(connection: SqliteConnection.Database) {
    super({ database: connection });
    this.#connection = connection;
  }
  override createDriver(): Driver {
    return new Driver({ database: this.#connection }, this.#connection);
  }
}
