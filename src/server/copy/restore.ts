// Puts a backup into an empty database, checked before anybody is served from it, and with a new history for every
// station: phones then compare what they hold and give back what came after. Never adds to a database in use.
import {
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import type { Insertable, Kysely } from 'kysely';
import { type DatabaseAddress, openDatabase } from '../database/database.ts';
import { migrations } from '../database/migrations.ts';
import type { Tables } from '../database/tables.ts';
import { makeHistory, type Random } from '../phones/pairing.ts';
import { type CopyCheck, checkCopy } from './copyCheck.ts';

type RestoreOutcome = { type: 'restored'; into: string; check: CopyCheck } | { type: 'not-restored'; sentence: string };

type RestoreOptions = { file: string; random: Random; now: () => number };

export async function restoreBackup(address: DatabaseAddress, options: RestoreOptions): Promise<RestoreOutcome> {
  const { file } = options;
  const wrong = looksWrong(file) ?? (address.type === 'sqlite' ? holdsSomething(address.file) : null);
  if (wrong !== null) return { type: 'not-restored', sentence: wrong };
  try {
    return address.type === 'sqlite' ? await intoSqlite(address.file, options) : await intoPostgresql(address, options);
  } catch (error) {
    return { type: 'not-restored', sentence: toSentence(error, file) };
  }
}

class RestoreFailed extends Error {
  override readonly name = 'RestoreFailed';
}

async function intoSqlite(to: string, options: RestoreOptions): Promise<RestoreOutcome> {
  const folder = dirname(to);
  const made = mkdirSync(folder, { recursive: true, mode: 0o700 });
  const part = `${to}.part`;
  try {
    const check = await prepare(part, options);
    const handle = openSync(part, 'r');
    fsyncSync(handle);
    closeSync(handle);
    renameSync(part, to);
    return { type: 'restored', into: to, check };
  } catch (error) {
    removeDatabase(part);
    if (made !== undefined) rmSync(made, { recursive: true });
    throw error;
  }
}

async function intoPostgresql(address: DatabaseAddress, options: RestoreOptions): Promise<RestoreOutcome> {
  const folder = mkdtempSync(join(tmpdir(), 'asfound-restore-'));
  try {
    const part = join(folder, 'part.db');
    const check = await prepare(part, options);
    const to = await openDatabase(address);
    const from = new SqliteConnection(part, { readonly: true });
    try {
      // All or nothing: a restore that breaks off leaves the database as empty as it was.
      await to.query.transaction().execute(async (tx) => {
        const there = await tx.selectFrom('stations').select('name').orderBy('made_at').execute();
        if (there.length > 0)
          throw new RestoreFailed(
            inUse(
              'The PostgreSQL database',
              there.map((one) => one.name),
            ),
          );
        for (const table of TABLES) await copyRows(from, tx, table);
      });
    } finally {
      from.close();
      await to.close();
    }
    return { type: 'restored', into: 'the PostgreSQL database', check };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function removeDatabase(file: string): void {
  for (const end of ['', '-journal', '-wal', '-shm']) rmSync(file + end, { force: true });
}

/** A copy of the backup beside the place it goes to: checked, up to date, and made into the beginning of a history. */
async function prepare(part: string, { file, random, now }: RestoreOptions): Promise<CopyCheck> {
  removeDatabase(part);
  copyFileSync(file, part, constants.COPYFILE_EXCL | constants.COPYFILE_FICLONE);
  chmodSync(part, 0o600);
  const copy = new SqliteConnection(part, { fileMustExist: true });
  let check: CopyCheck;
  try {
    judgeTables(copy, file);
    check = checkCopy(copy);
  } finally {
    copy.close();
  }
  if (check.broken.length > 0) {
    throw new RestoreFailed(`${file} cannot be used. ${check.broken.join(' ')} Take another backup.`);
  }
  const db = await openDatabase({ type: 'sqlite', file: part });
  try {
    await db.query.transaction().execute((tx) => beginHistory(tx, check, random, now()));
  } finally {
    await db.close();
  }
  toSingleFile(part);
  return check;
}

/** What stands in the log beside it would be left behind when the file gets its name. */
function toSingleFile(file: string): void {
  const connection = new SqliteConnection(file, { fileMustExist: true });
  connection.pragma('journal_mode = DELETE');
  connection.close();
}

/** What belonged to the server that made the backup and would mislead this one. */
const OF_THAT_SERVER = ['codes', 'presence', 'rates', 'facts'] as const;

async function beginHistory(tx: Kysely<Tables>, check: CopyCheck, random: Random, now: number): Promise<void> {
  for (const table of OF_THAT_SERVER) await tx.deleteFrom(table).execute();
  for (const { id } of check.stations) {
    await tx
      .updateTable('stations')
      .set({ history: makeHistory(random) })
      .where('id', '=', id)
      .execute();
  }
  // Phones that still hold what is damaged here are asked for it.
  for (const { station, kind, id } of check.damaged) {
    await tx
      .insertInto('damaged')
      .values({ station, kind, id, found_at: now })
      .onConflict((oc) => oc.columns(['station', 'kind', 'id']).doNothing())
      .execute();
  }
}

/** In an order in which nothing names what is not there yet. */
const TABLES = [
  'stations',
  'phones',
  'events',
  'set_aside',
  'documents',
  'chunks',
  'parts',
  'damaged',
  'renumbered',
] as const;
type Copied = (typeof TABLES)[number];
/** Rows of one statement; of pieces of documents, at most a MiB each, fewer. */
const ROWS = 400;
const ROWS_OF_BYTES = 4;

async function copyRows(from: SqliteConnection.Database, to: Kysely<Tables>, table: Copied): Promise<void> {
  const size = table === 'chunks' || table === 'parts' ? ROWS_OF_BYTES : ROWS;
  type Row = Insertable<Tables[Copied]>;
  let rows: Row[] = [];
  const flush = async () => {
    if (rows.length > 0) await to.insertInto(table).values(rows).execute();
    rows = [];
  };
  for (const row of from.prepare<[], Row>(`select * from ${table}`).iterate()) {
    rows.push(row);
    if (rows.length >= size) await flush();
  }
  await flush();
}

const MAGIC = 'SQLite format 3\0';

/** Why the file can be no backup, as far as its first bytes tell; null when it may be one. */
function looksWrong(file: string): string | null {
  if (!existsSync(file)) return `There is no file ${file}. Check the name.`;
  const { size } = statSync(file);
  const head = Buffer.alloc(100);
  const handle = openSync(file, 'r');
  try {
    readSync(handle, head, 0, 100, 0);
  } finally {
    closeSync(handle);
  }
  if (head.toString('latin1', 0, MAGIC.length) !== MAGIC) {
    return `${file} is not a backup of this server. Name a file that npm run backup wrote.`;
  }
  // SQLite's file format, section 1.3: page size at 16 (1 stands for 65,536), pages at 28.
  const page = head.readUInt16BE(16);
  const whole = (page === 1 ? 65_536 : page) * head.readUInt32BE(28);
  if (size < whole)
    return `${file} is cut off: it has ${size} of ${whole} bytes. Copy it again, or take another backup.`;
  return null;
}

function judgeTables(copy: SqliteConnection.Database, file: string): void {
  const named = copy.prepare<[], { name: string }>("select name from sqlite_master where type = 'table'").all();
  const names = new Set(named.map((one) => one.name));
  if (!['stations', 'phones', 'events', 'documents', 'chunks', 'kysely_migration'].every((name) => names.has(name))) {
    throw new RestoreFailed(`${file} is a database, but not a backup of this server.`);
  }
  const known = migrations('sqlite');
  for (const { name } of copy.prepare<[], { name: string }>('select name from kysely_migration').all()) {
    if (!Object.hasOwn(known, name)) {
      throw new RestoreFailed(
        `${file} was made by a newer version of the server (${name}). Use that version here too.`,
      );
    }
  }
}

/** Null when nothing is there. */
function holdsSomething(file: string): string | null {
  if (!['', '-wal', '-shm'].some((end) => existsSync(file + end))) return null;
  const names = stationsIn(file);
  return names.length > 0
    ? inUse(file, names)
    : `${file} is there already, with no station in it. Stop the server, move the file away and restore again.`;
}

function stationsIn(file: string): string[] {
  try {
    const there = new SqliteConnection(file, { fileMustExist: true });
    try {
      return there
        .prepare<[], { name: string }>('select name from stations order by made_at')
        .all()
        .map((one) => one.name);
    } finally {
      there.close();
    }
  } catch {
    // Whatever it is, it is not empty.
    return [];
  }
}

function inUse(where: string, names: string[]): string {
  const more = names.length > 3 ? ` and ${names.length - 3} more` : '';
  return `${where} holds ${names.slice(0, 3).join(', ')}${more} already. A backup goes into an empty database only: name an empty folder in ASFOUND_DATA, or an empty database in DATABASE_URL.`;
}

function toSentence(error: unknown, file: string): string {
  if (error instanceof RestoreFailed) return error.message;
  const at = error instanceof Error && error.cause instanceof Error ? error.cause : error;
  const code = at instanceof Error && 'code' in at ? String(at.code) : '';
  const said = at instanceof Error ? at.message : '';
  if (/^(?:ENOSPC|EDQUOT|EFBIG|EIO|SQLITE_FULL|SQLITE_IOERR|53100)/.test(code)) {
    return `There is no room for what ${file} holds (${said}). Nothing was restored. Make room and restore again.`;
  }
  if (/^(?:EACCES|EPERM|EROFS|EISDIR|ENOTDIR|SQLITE_CANTOPEN|SQLITE_READONLY)/.test(code)) {
    return `Nothing was restored: ${said}. Check that this user may read the backup and write the database's folder.`;
  }
  if (/^SQLITE_(?:CORRUPT|NOTADB)/.test(code)) return `${file} is damaged (${said}). Take another backup.`;
  if (/^(?:E[A-Z_]+|[0-9A-Z]{5})$/.test(code) || /timeout|terminated/i.test(said)) {
    return `The database could not be written (${said}). Nothing was restored. Check DATABASE_URL and restore again.`;
  }
  throw error;
}
