// One file with all that the server holds, made while it runs, checked, and only then given its name. Never writes over
// an earlier file unasked, and never touches the record.
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import type { DatabaseAddress } from '../database/database.ts';
import { type CopyCheck, checkCopy, isWhole } from './copyCheck.ts';
import { CopyFailed, type CopySource, openCopySource } from './copySource.ts';

type BackupOutcome =
  | { type: 'written'; file: string; bytes: number; check: CopyCheck }
  | { type: 'not-written'; sentence: string };

/** Kept under `backup` in `facts`, as JSON. */
export type BackupFact = {
  at: number;
  file: string;
  /** False when it could not be made, or holds something damaged. */
  ok: boolean;
  why?: string;
  /** Of the last one that was made and whole. */
  goodAt?: number;
};

type BackupOptions = {
  /** The name it gets when it is whole. Another one is given with `damagedFile`, so that good ones are not pushed out. */
  file: string;
  damagedFile?: string;
  replace: boolean;
  now: () => number;
};

export async function makeBackup(address: DatabaseAddress, options: BackupOptions): Promise<BackupOutcome> {
  const { file, replace } = options;
  const folder = dirname(file);
  if (!existsSync(folder)) return refuse(`The folder ${folder} is not there. Make it, or name another file.`);
  if (existsSync(file) && !replace) {
    return refuse(`${file} is there already. Name another file, or add --replace to write over it.`);
  }
  let source: CopySource | null = null;
  let outcome: BackupOutcome;
  try {
    source = await openCopySource(address);
    outcome = await writeCopy(source, options);
  } catch (error) {
    outcome = refuse(toSentence(error, file));
  }
  await noteFact(source, outcome, options);
  await source?.close();
  return outcome;
}

async function writeCopy(source: CopySource, options: BackupOptions): Promise<BackupOutcome> {
  const part = `${options.file}.part`;
  removePart(part);
  try {
    // Nobody else may read it, from its first byte on: it holds all that the phones saw.
    closeSync(openSync(part, 'wx', 0o600));
    await source.copyTo(part);
    const check = checkPart(part);
    const file = isWhole(check) ? options.file : (options.damagedFile ?? options.file);
    chmodSync(part, 0o600);
    syncFile(part);
    renameSync(part, file);
    syncFile(dirname(file));
    return { type: 'written', file, bytes: statSync(file).size, check };
  } catch (error) {
    removePart(part);
    throw error;
  }
}

function removePart(part: string): void {
  for (const end of ['', '-journal', '-wal', '-shm']) rmSync(part + end, { force: true });
}

function checkPart(part: string): CopyCheck {
  const copy = new SqliteConnection(part, { fileMustExist: true });
  try {
    // A copy of a database with a log asks for one itself; this one is to be a single file.
    copy.pragma('journal_mode = DELETE');
    return checkCopy(copy);
  } finally {
    copy.close();
  }
}

function syncFile(path: string): void {
  const handle = openSync(path, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

async function noteFact(source: CopySource | null, outcome: BackupOutcome, options: BackupOptions): Promise<void> {
  const at = options.now();
  const ok = outcome.type === 'written' && isWhole(outcome.check);
  const file = outcome.type === 'written' ? outcome.file : options.file;
  const why = outcome.type === 'not-written' ? outcome.sentence : 'Something in it is damaged.';
  const before = await source?.readFact('backup').catch(() => null);
  const goodAt = ok ? at : readGoodAt(before ?? null);
  const fact: BackupFact = { at, file, ok, ...(ok ? {} : { why }), ...(goodAt === null ? {} : { goodAt }) };
  // A backup that is there is worth more than the note about it.
  await source?.writeFact('backup', JSON.stringify(fact), at).catch(() => undefined);
}

export function readGoodAt(fact: string | null): number | null {
  if (fact === null) return null;
  const said: unknown = JSON.parse(fact);
  return typeof said === 'object' && said && 'goodAt' in said && typeof said.goodAt === 'number' ? said.goodAt : null;
}

function refuse(sentence: string): BackupOutcome {
  return { type: 'not-written', sentence };
}

/** What the system or the database said when it refused; anything else is a bug and goes on. */
function toSentence(error: unknown, file: string): string {
  if (error instanceof CopyFailed) return error.message;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const said = error instanceof Error ? error.message : '';
  if (/^(?:ENOSPC|EDQUOT|EFBIG|EIO|SQLITE_FULL|SQLITE_IOERR)/.test(code)) {
    return `${file} could not be written to the end (${said}). Nothing of it was kept. Make room on its disk, or name a file on another one.`;
  }
  if (/^(?:EACCES|EPERM|EROFS|ENOTDIR|EISDIR|SQLITE_CANTOPEN|SQLITE_READONLY)/.test(code)) {
    return `${file} may not be written there (${said}). Name a folder that this user may write to.`;
  }
  if (/^SQLITE_(?:NOTADB|CORRUPT)/.test(code))
    return `The database cannot be read at all (${said}). Restore an earlier backup.`;
  if (/^SQLITE_BUSY/.test(code)) return `The database was locked the whole time (${said}). Try again.`;
  if (/^(?:E[A-Z]+|[0-9A-Z]{5})$/.test(code) || /timeout|terminated/i.test(said)) {
    return `The database could not be read (${said}). Check DATABASE_URL and try again.`;
  }
  throw error;
}

const NAME = /^asfound-\d{8}-\d{6}(?<damaged>-damaged)?\.db$/;

/** `asfound-20260131-231500`, in UTC, so that names sort by age. */
export function folderToFiles(folder: string, now: number): { file: string; damagedFile: string } {
  const stamp = new Date(now).toISOString().replace(/[-:]/g, '').replace('T', '-').slice(0, 15);
  return { file: join(folder, `asfound-${stamp}.db`), damagedFile: join(folder, `asfound-${stamp}-damaged.db`) };
}

/**
 * Removes the oldest of its own files. Of damaged ones only the newest stays, and they never push out a whole one.
 * @returns The names removed.
 */
export function pruneFolder(folder: string, keep: number): string[] {
  const named = readdirSync(folder)
    .map((name) => ({ name, damaged: NAME.exec(name)?.groups?.damaged, ours: NAME.test(name) }))
    .filter((one) => one.ours)
    .sort((a, b) => (a.name < b.name ? 1 : -1));
  const whole = named.filter((one) => one.damaged === undefined).slice(Math.max(1, keep));
  const damaged = named.filter((one) => one.damaged !== undefined).slice(1);
  const gone = [...whole, ...damaged].map((one) => one.name);
  for (const name of gone) rmSync(join(folder, basename(name)));
  return gone;
}
