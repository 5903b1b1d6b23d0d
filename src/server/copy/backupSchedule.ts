// When the next backup is due, and what is said when one fails. The work itself is done by a process of its own, so
// that phones never wait for it.
import { spawn } from 'node:child_process';
import { setPriority } from 'node:os';
import { resolve } from 'node:path';
import type { Database } from '../database/database.ts';
import type { BackupFact } from './backup.ts';
import { readGoodAt } from './backup.ts';
import { scheduledArguments } from './backupCommand.ts';

export type BackupSettings = { folder: string; everyMs: number; keep: number };

const HOUR_MS = 3_600_000;

/** Null when no folder is named. Throws a sentence when a setting makes no sense. */
export function readBackupSettings(env: Record<string, string | undefined>): BackupSettings | null {
  const folder = env.ASFOUND_BACKUP;
  if (!folder) return null;
  const hours = Number(env.ASFOUND_BACKUP_HOURS || 24);
  const keep = Number(env.ASFOUND_BACKUP_KEEP || 14);
  // The longest that a timer can wait is some 24 days.
  if (!(hours > 0 && hours <= 24 * 366)) throw new Error('ASFOUND_BACKUP_HOURS has to be a number of hours above 0.');
  if (!(Number.isInteger(keep) && keep >= 1)) throw new Error('ASFOUND_BACKUP_KEEP has to be a whole number from 1.');
  return { folder: resolve(folder), everyMs: hours * HOUR_MS, keep };
}

export type ChildEnd = { status: number | null; said: string };

export type ScheduleParts = {
  db: Database;
  settings: BackupSettings;
  now: () => number;
  /** Calls back once; the answer undoes it. */
  after: (ms: number, call: () => void) => () => void;
  run: (settings: BackupSettings) => { ended: Promise<ChildEnd>; stop: () => void };
  say: (text: string) => void;
  complain: (text: string) => void;
};

/** After a failure it is tried again so soon; a disk may have been made room on. */
const RETRY_MS = HOUR_MS;
const LOOK_MS = 600_000;

/** @returns What ends it, with a backup that is under way. */
export function scheduleBackups(parts: ScheduleParts): () => void {
  const { settings, now, after, complain } = parts;
  let stopped = false;
  let cancel: () => void = () => undefined;
  let notBefore = 0;

  const later = (ms: number) => {
    if (!stopped) cancel = after(ms, () => void look());
  };

  async function look(): Promise<void> {
    try {
      const good = readGoodAt(await readFact(parts.db));
      const due = Math.max((good ?? Number.NEGATIVE_INFINITY) + settings.everyMs, notBefore);
      if (now() < due) return later(Math.min(due - now(), LOOK_MS));
      const whole = await backUp();
      notBefore = whole ? 0 : now() + Math.min(RETRY_MS, settings.everyMs);
    } catch (error) {
      // The database is away: said elsewhere, and the next look tries again.
      complain(`The schedule of backups: ${error instanceof Error ? error.message : String(error)}`);
    }
    later(Math.min(settings.everyMs, LOOK_MS));
  }

  async function backUp(): Promise<boolean> {
    const child = parts.run(settings);
    cancel = child.stop;
    const { status, said } = await child.ended;
    if (stopped) return false;
    if (status === 0) {
      parts.say(said);
      return true;
    }
    complain(`The backup of this hour failed or is not whole.\n${said}`);
    // One that was ended from outside could not note it itself.
    if (status !== 1 && status !== 2) await noteFailure(parts, `It ended with ${status ?? 'a signal'}.`);
    return false;
  }

  later(0);
  return () => {
    stopped = true;
    cancel();
  };
}

async function readFact(db: Database): Promise<string | null> {
  const row = await db.query.selectFrom('facts').select('value').where('key', '=', 'backup').executeTakeFirst();
  return row?.value ?? null;
}

async function noteFailure({ db, settings, now }: ScheduleParts, why: string): Promise<void> {
  const goodAt = readGoodAt(await readFact(db));
  const at = now();
  const fact: BackupFact = { at, file: settings.folder, ok: false, why, ...(goodAt === null ? {} : { goodAt }) };
  const value = JSON.stringify(fact);
  await db.query
    .insertInto('facts')
    .values({ key: 'backup', value, at })
    .onConflict((oc) => oc.column('key').doUpdateSet({ value, at }))
    .execute();
}

/** Behind everything else that the machine has to do (from 0, usual, to 19). */
const NICE = 10;

/** The same program as this one, with the same settings. */
export function runBackup({ folder, keep }: BackupSettings): ReturnType<ScheduleParts['run']> {
  const [, program = ''] = process.argv;
  const child = spawn(process.execPath, [program, ...scheduledArguments(folder, keep)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8').on('data', (part: string) => {
      said += part;
    });
  }
  try {
    if (child.pid !== undefined) setPriority(child.pid, NICE);
  } catch {
    // Ended already, or not allowed: it runs as it is.
  }
  const ended = new Promise<ChildEnd>((done) => {
    child.once('error', (error) => done({ status: null, said: error.message }));
    child.once('close', (status) => done({ status, said: said.trim() }));
  });
  return { ended, stop: () => void child.kill('SIGTERM') };
}
