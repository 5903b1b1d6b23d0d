// When the scrub goes on and when the pages are checked. Waits between its steps and stops when told; decides nothing
// about what is found.
//
// Limits: A file whose pages are damaged takes nothing new until it is restored or a later check finds nothing. On
// PostgreSQL nothing checks pages but its own checksums; what was found damaged stands until another primary or a new
// start.
import type { Database, Reader } from '../database/database.ts';
import { readFact, writeFact } from '../database/facts.ts';
import { dropOld, finishScrub, openPosition, SCRUB_AT, SCRUB_DONE, scrubStep, startPosition } from './scrub.ts';

export type UpkeepParts = {
  db: Database;
  clock: { now: () => number };
  /** Whether few people work at that time, in ms. */
  isQuiet: (now: number) => boolean;
  /** What is wrong with the pages of the file; null when this server cannot tell. */
  checkPages: () => Promise<string[] | null>;
  onFailure: (error: unknown) => void;
  /** Told of damaged pages, and of a pass that found something. */
  onFound: (sentence: string) => void;
  /** Resolves after so many ms, or at once when everything is to stop. */
  pause: (ms: number) => Promise<void>;
  stopping: () => boolean;
};

const DAY_MS = 86_400_000;
/** In quiet hours once a night; where no hour is quiet or the machine is off by night, at the latest after that. */
const OVERDUE_MS = 3 * DAY_MS;
const NIGHTLY_MS = 20 * 3_600_000;
const BETWEEN_STEPS_MS = 20;
const BETWEEN_LOOKS_MS = 60_000;
/** Written so seldom; a restart does the last few steps again. */
const SAVE_EVERY_MS = 5000;
/** Nobody wrote for so long: the process that was at it is gone. */
const LEFT_ALONE_MS = 60_000;
/** The check of the pages may take this part of the time, and comes at most every ten minutes. */
const PAGES_SHARE = 200;
const PAGES_LEAST_MS = 600_000;

/** Runs until it is told to stop; fails never. */
export async function keepUp(parts: UpkeepParts): Promise<void> {
  let pagesDue = parts.clock.now();
  while (!parts.stopping()) {
    try {
      if (parts.clock.now() >= pagesDue) {
        const began = parts.clock.now();
        pagesDue = began + PAGES_LEAST_MS;
        await lookAtPages(parts);
        pagesDue = Math.max(pagesDue, began + (parts.clock.now() - began) * PAGES_SHARE);
      }
      if (await isDue(parts)) await scrubAll(parts);
    } catch (error) {
      parts.onFailure(error);
    }
    await parts.pause(BETWEEN_LOOKS_MS);
  }
}

async function lookAtPages({ db, checkPages, onFound }: UpkeepParts): Promise<void> {
  const wrong = await checkPages();
  if (wrong === null) return;
  const [first] = wrong;
  if (first === undefined) {
    db.condition.broken = null;
    return;
  }
  if (db.condition.broken === null) onFound(`The database file is damaged: ${first}. Nothing new is taken.`);
  db.condition.broken ??= first;
}

async function isDue({ db, clock, isQuiet }: UpkeepParts): Promise<boolean> {
  const now = clock.now();
  const age = now - ((await readFact(db, SCRUB_DONE))?.at ?? Number.NEGATIVE_INFINITY);
  return age > OVERDUE_MS || (age > NIGHTLY_MS && isQuiet(now));
}

/** One pass, from where the last one stopped. Of several processes on one database only one does it. */
export async function scrubAll(parts: UpkeepParts): Promise<void> {
  const { db, clock } = parts;
  const open = await openPosition(db);
  if (open && clock.now() - open.at < LEFT_ALONE_MS) return;
  let at = open?.position ?? startPosition(clock.now());
  let saved = clock.now();
  if (!(await claim(db, open?.at ?? null, at, saved))) return;
  await dropOld(db, clock.now());
  const reader: Reader = db.reader();
  try {
    while (!parts.stopping()) {
      const next = await scrubStep(db, reader, at, clock.now());
      if (next === null) {
        await finishScrub(db, at, clock.now());
        if (at.damaged > 0) parts.onFound(`The check of everything held found ${at.damaged} damaged. See /api/health.`);
        return;
      }
      at = next;
      if (clock.now() - saved >= SAVE_EVERY_MS) {
        const now = clock.now();
        if (!(await claim(db, saved, at, now))) return;
        saved = now;
      }
      await parts.pause(BETWEEN_STEPS_MS);
    }
    // Another start goes on from here at once.
    await writeFact(db, SCRUB_AT, at, saved - LEFT_ALONE_MS);
  } finally {
    await reader.close();
  }
}

/** Writes the position, unless another process wrote one since `before`. */
async function claim(db: Database, before: number | null, at: unknown, now: number): Promise<boolean> {
  const value = JSON.stringify(at);
  if (before === null) {
    const added = await db.query
      .insertInto('facts')
      .values({ key: SCRUB_AT, value, at: now })
      .onConflict((oc) => oc.column('key').doNothing())
      .executeTakeFirst();
    return Number(added.numInsertedOrUpdatedRows ?? 0n) > 0;
  }
  const changed = await db.query
    .updateTable('facts')
    .set({ value, at: now })
    .where('key', '=', SCRUB_AT)
    .where('at', '=', before)
    .executeTakeFirst();
  return changed.numUpdatedRows > 0n;
}
