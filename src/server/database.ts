// The tables and how to open them, the same on SQLite and PostgreSQL. Only this file knows which of the two it is;
// everything else asks through Kysely and may not use words that one of them lacks.
import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import { Kysely, Migrator, PostgresDialect, SqliteDialect } from 'kysely';
import pg from 'pg';
import { migrations } from './migrations.ts';

export type Tables = {
  stations: { id: string; name: string; next_number: number; history: string; made_at: number };
  phones: {
    id: string;
    station: string;
    name: string;
    token_hash: string;
    paired_at: number;
    seen_at: number | null;
    revoked_at: number | null;
    /** 1: may remove every other phone of the station. */
    keeper: number;
    /** The phone whose code let it in; null for a code of the terminal. */
    invited_by: string | null;
  };
  codes: { hash: string; station: string | null; expires_at: number; used_at: number | null; made_by: string | null };
  events: {
    station: string;
    id: string;
    number: number;
    hash: string;
    log: string;
    seq: number;
    text: string;
    received_at: number;
  };
  set_aside: { station: string; id: string; hash: string; text: string; why: string; received_at: number };
  documents: {
    station: string;
    sha: string;
    bytes: number;
    mime: string;
    complete: number;
    /** Of the same row as the events' numbers; null for those of before. */
    number: number | null;
    received_at: number | null;
  };
  chunks: { station: string; sha: string; n: number; bytes: Uint8Array };
  /** Of documents that are still on their way. */
  parts: { station: string; sha: string; n: number; bytes: Uint8Array; received_at: number };
  /** What was found not to be what its hash says, until it is whole again. `id`: event id or document hash. */
  damaged: { station: string; kind: 'event' | 'document'; id: string; found_at: number };
  /** Where people are; `said` is JSON of the wire's form. */
  presence: { station: string; phone: string; said: string; at: number };
  /** Buckets that all processes share. */
  rates: { key: string; level: number; at: number };
  /** Facts of this server by name: last scrub, last backup, the probe of health. JSON. */
  facts: { key: string; value: string; at: number };
};

export type Dialect = 'sqlite' | 'postgresql';
export type Database = { query: Kysely<Tables>; dialect: Dialect; close: () => Promise<void> };
export type DatabaseAddress = { type: 'sqlite'; file: string } | { type: 'postgresql'; url: string };

/** Opens and brings the tables up to date. Throws when that fails: a half-migrated database serves nobody. */
export async function openDatabase(address: DatabaseAddress): Promise<Database> {
  const query = address.type === 'sqlite' ? openSqlite(address.file) : openPostgresql(address.url);
  try {
    await migrate(query, address.type);
  } catch (error) {
    await query.destroy();
    throw error;
  }
  return { query, dialect: address.type, close: () => query.destroy() };
}

function openSqlite(file: string): Kysely<Tables> {
  if (file !== ':memory:') mkdirSync(dirname(file), { recursive: true });
  const connection = new SqliteConnection(file);
  // WAL lets `npm run pair` write while the server runs; FULL because an acknowledged event must outlive the power.
  connection.pragma('journal_mode = WAL');
  connection.pragma('synchronous = FULL');
  connection.pragma('busy_timeout = 5000');
  connection.pragma('foreign_keys = ON');
  return new Kysely<Tables>({ dialect: new SqliteDialect({ database: connection }) });
}

const INT8 = 20;

function openPostgresql(url: string): Kysely<Tables> {
  const pool = new pg.Pool({
    connectionString: url,
    max: 10,
    connectionTimeoutMillis: 10_000,
    types: {
      // All our whole numbers are below 2^53; the driver would hand them over as strings.
      getTypeParser: (oid, format) =>
        oid === INT8 && format !== 'binary' ? (text: string) => Number(text) : pg.types.getTypeParser(oid, format),
    },
  });
  // A connection that dies while idle must not take the process with it; the next query gets a fresh one.
  pool.on('error', () => undefined);
  return new Kysely<Tables>({ dialect: new PostgresDialect({ pool }) });
}

async function migrate(query: Kysely<Tables>, dialect: Dialect): Promise<void> {
  const migrator = new Migrator({ db: query, provider: { getMigrations: async () => migrations(dialect) } });
  // The migrator reports failure in its answer and throws nothing.
  const { error } = await migrator.migrateToLatest();
  if (error) throw new Error('The database could not be brought up to date.', { cause: error });
}
