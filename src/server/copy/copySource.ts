// A consistent copy of a database in use, as one SQLite file with the same tables, whichever of the two databases it
// comes from. Changes nothing there but one line of `facts`, and never brings its tables up to date.
import { existsSync } from 'node:fs';
import SqliteConnection from 'better-sqlite3';
import { Kysely, Migrator, SqliteDialect } from 'kysely';
import pg from 'pg';
import type { DatabaseAddress } from '../database/database.ts';
import { migrations } from '../database/migrations.ts';
import { findPrimary, urlToHosts } from '../database/postgresHosts.ts';

export type CopySource = {
  /** Into an empty file. What is written meanwhile is in the copy as a whole or not at all. */
  copyTo: (file: string) => Promise<void>;
  /** Null when there is none yet. */
  readFact: (key: string) => Promise<string | null>;
  /** @param at In ms. */
  writeFact: (key: string, value: string, at: number) => Promise<void>;
  close: () => Promise<void>;
};

/** An expected failure with its sentence; whoever copies turns it into an answer. */
export class CopyFailed extends Error {
  override readonly name = 'CopyFailed';
}

export async function openCopySource(address: DatabaseAddress): Promise<CopySource> {
  return address.type === 'sqlite' ? openSqlite(address.file) : await openPostgresql(address.url);
}

const FACT = [
  'insert into facts (key, value, at) values (',
  ') on conflict (key) do update set value = excluded.value, at = excluded.at',
];

function openSqlite(file: string): CopySource {
  if (!existsSync(file))
    throw new CopyFailed(`There is no database at ${file}. ASFOUND_DATA names the folder it is in.`);
  const connection = new SqliteConnection(file, { fileMustExist: true });
  connection.pragma('busy_timeout = 10000');
  const hasFacts = () => connection.prepare("select 1 from sqlite_master where name = 'facts'").get() !== undefined;
  return {
    copyTo: async (to) => {
      if (!connection.prepare("select 1 from sqlite_master where name = 'stations'").get()) {
        throw new CopyFailed(`${file} is not a database of this server.`);
      }
      // All pages in one step: between two steps a writer could come, and the copy would begin anew each time. The log
      // lets phones write meanwhile.
      await connection.backup(to, { progress: () => 0x7fffffff });
    },
    readFact: async (key) =>
      hasFacts()
        ? (connection.prepare<[string], { value: string }>('select value from facts where key = ?').get(key)?.value ??
          null)
        : null,
    writeFact: async (key, value, at) => {
      if (hasFacts()) connection.prepare(FACT.join('?, ?, ?')).run(key, value, at);
    },
    close: async () => void connection.close(),
  };
}

const INT8 = 20;
const CONNECT_MS = 10_000;
/** A fetch that takes longer comes from a server that is gone. */
const PATIENCE_MS = 120_000;

async function openPostgresql(url: string): Promise<CopySource> {
  // A standby may lack what was acknowledged a moment ago.
  const found = await findPrimary(urlToHosts(url), 0, CONNECT_MS);
  if (found.type === 'none')
    throw new CopyFailed(`The database could not be read (${found.why}). Check DATABASE_URL and try again.`);
  const client = new pg.Client({
    connectionString: found.host.url,
    connectionTimeoutMillis: CONNECT_MS,
    query_timeout: PATIENCE_MS,
    keepAlive: true,
    types: {
      getTypeParser: (oid, format) =>
        oid === INT8 && format !== 'binary' ? (text: string) => Number(text) : pg.types.getTypeParser(oid, format),
    },
  });
  // The same news comes as the rejection of what is asked; unheard, it would end the process.
  client.on('error', () => undefined);
  await client.connect();
  return {
    copyTo: async (to) => {
      await client.query('begin isolation level repeatable read read only');
      try {
        await copyTables(client, to);
      } finally {
        // Where the way is lost, what led to it is what should be told.
        await client.query('rollback').catch(() => undefined);
      }
    },
    readFact: async (key) => {
      if (!(await hasTable(client, 'facts'))) return null;
      return (
        (await client.query<{ value: string }>('select value from facts where key = $1', [key])).rows[0]?.value ?? null
      );
    },
    writeFact: async (key, value, at) => {
      if (await hasTable(client, 'facts')) await client.query(FACT.join('$1, $2, $3'), [key, value, at]);
    },
    close: async () => await client.end(),
  };
}

async function hasTable(client: pg.Client, table: string): Promise<boolean> {
  const { rows } = await client.query<{ there: boolean }>('select to_regclass($1) is not null as there', [table]);
  return rows[0]?.there === true;
}

/** How many rows travel at once; of those with pieces of documents, at most a MiB each, fewer. */
const ROWS = 1000;
const ROWS_OF_BYTES = 8;

async function copyTables(client: pg.Client, to: string): Promise<void> {
  if (!(await hasTable(client, 'kysely_migration')))
    throw new CopyFailed('The PostgreSQL database holds no tables of this server.');
  const { rows: steps } = await client.query<{ name: string }>('select name from kysely_migration order by name');
  await makeTables(to, steps.at(-1)?.name ?? '');
  const copy = new SqliteConnection(to);
  try {
    copy.pragma('journal_mode = OFF');
    copy.pragma('synchronous = OFF');
    copy.pragma('foreign_keys = OFF');
    const tables = copy
      .prepare<[], { name: string }>(
        "select name from sqlite_master where type = 'table' and name not like 'kysely%' and name not like 'sqlite%'",
      )
      .all();
    for (const { name } of tables) await copyTable(client, copy, name);
  } finally {
    copy.close();
  }
}

async function copyTable(client: pg.Client, copy: SqliteConnection.Database, table: string): Promise<void> {
  const columns = copy
    .prepare<[], { name: string }>(`pragma table_info(${table})`)
    .all()
    .map((one) => one.name);
  const insert = copy.prepare(
    `insert into ${table} (${columns.join(', ')}) values (${columns.map(() => '?').join(', ')})`,
  );
  const add = copy.transaction((rows: Record<string, unknown>[]) => {
    for (const row of rows) insert.run(columns.map((column) => row[column]));
  });
  await client.query(`declare copied no scroll cursor for select ${columns.join(', ')} from ${table}`);
  const size = columns.includes('bytes') ? ROWS_OF_BYTES : ROWS;
  for (;;) {
    const { rows } = await client.query<Record<string, unknown>>(`fetch ${size} from copied`);
    if (rows.length === 0) break;
    add(rows);
  }
  await client.query('close copied');
}

/** The tables as they were after that step: the copy is of the version that the database has now. */
async function makeTables(file: string, step: string): Promise<void> {
  const steps = migrations('sqlite');
  if (!Object.hasOwn(steps, step)) {
    throw new CopyFailed(`The database is of a newer version of the server (${step}). Use that version here too.`);
  }
  const query = new Kysely<unknown>({ dialect: new SqliteDialect({ database: new SqliteConnection(file) }) });
  try {
    const migrator = new Migrator({ db: query, provider: { getMigrations: async () => steps } });
    const { error } = await migrator.migrateTo(step);
    if (error) throw error;
  } finally {
    await query.destroy();
  }
}
