// Opening the database as a server starts: a folder that only its owner reads, patience with a database that is not up
// yet, and an end to the patience.
import { chmodSync, existsSync, readdirSync, statSync } from 'node:fs';
import type { Log } from '../log.ts';
import { type Database, type DatabaseAddress, type OpenOptions, openDatabase } from './database.ts';
import { failureText, judgeFailure } from './databaseErrors.ts';
import { CannotOpen } from './upToDate.ts';

/** What our data folder may hold and be shut for others without being asked; any other folder is left as it is. */
const OURS = /^asfound\.|^backups?$/;

/** Null, or a sentence when other users of the machine can read the folder and it could not be changed. */
export function shutFolder(folder: string): string | null {
  // Whoever makes it makes it for its owner alone.
  if (!existsSync(folder)) return null;
  const about = statSync(folder);
  if ((about.mode & 0o077) === 0) return null;
  const sentence = `Other users of this machine can read ${folder}. Close it to them: chmod 700 ${folder}`;
  if (about.uid !== process.getuid?.() || !readdirSync(folder).every((name) => OURS.test(name))) return sentence;
  chmodSync(folder, 0o700);
  return null;
}

const PAUSE_FIRST_MS = 500;
const PAUSE_MOST_MS = 5000;

/**
 * Opens, and tries again while the database is away, at most `waitMs` long. What a person has to change is thrown at
 * once.
 */
export async function openPatiently(
  address: DatabaseAddress,
  waitMs: number,
  log: Log,
  options: OpenOptions = {},
): Promise<Database> {
  const until = Date.now() + waitMs;
  for (let pause = PAUSE_FIRST_MS; ; pause = Math.min(pause * 2, PAUSE_MOST_MS)) {
    try {
      return await openDatabase(address, options);
    } catch (error) {
      if (judgeFailure(error) !== 'gone' || isSetting(error)) throw error;
      const left = until - Date.now();
      if (left <= 0) {
        const waited = `was not reached within ${Math.round(waitMs / 1000)} s`;
        throw new CannotOpen(
          `The database could not be brought up to date: it ${waited} (${failureText(error)}). Check DATABASE_URL and whether PostgreSQL runs.`,
        );
      }
      const next = Math.min(pause, left);
      log.say(
        'warning',
        'database-waiting',
        `The database cannot be reached yet (${failureText(error)}). Next try in ${(next / 1000).toFixed(1)} s, the last one in ${Math.ceil(left / 1000)} s.`,
      );
      await new Promise((again) => setTimeout(again, next));
    }
  }
}

/** A wrong password or a database that is not there comes from a server that is reached. */
function isSetting(error: unknown): boolean {
  const cause = error instanceof Error ? error.cause : null;
  return cause instanceof Error && 'code' in cause && /^(?:28...|3D000)$/.test(String(cause.code));
}
