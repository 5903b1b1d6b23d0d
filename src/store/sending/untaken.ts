// Texts from elsewhere that could not be taken in: kept as they came, named in view, tried again after a growing time.
// One of them never holds up another.

import { textToHash } from '../hash.ts';
import type { StationDb, Untaken } from '../schema.ts';
import { StoreFailed } from './failed.ts';
import { growing, isDue } from './putOff.ts';

type Run = <T>(operation: (db: StationDb) => PromiseLike<T>) => Promise<T>;

/** One row of `meta` each, so that one more does not write the others anew. */
const KEY = 'untaken:';

/** Throws what is of the database, so that the exchange waits. @param why Whatever the reader threw. */
export async function keepUntaken(run: Run, text: string, why: unknown, now: number): Promise<void> {
  if (why instanceof StoreFailed) throw why;
  const key = KEY + (await textToHash(text));
  await run((db) =>
    db.transaction('rw', db.meta, async () => {
      const before = (await db.meta.get(key))?.value as Untaken | undefined;
      const tries = (before?.tries ?? 0) + 1;
      const said = why instanceof Error ? why.message : String(why);
      const value: Untaken = { text, why: said.slice(0, 200), triedAt: now, tries, dueAt: now + growing(tries) };
      await db.meta.put({ key, value });
    }),
  );
}

export async function untakenTexts(db: StationDb): Promise<(Untaken & { hash: string })[]> {
  const rows = await db.meta.where('key').startsWith(KEY).toArray();
  return rows.map((row) => ({ ...(row.value as Untaken), hash: row.key.slice(KEY.length) }));
}

export async function retryUntaken(
  run: Run,
  takeIn: (text: string) => Promise<void>,
  now: () => number,
): Promise<void> {
  for (const one of await run(untakenTexts)) {
    if (!isDue(one, now())) continue;
    try {
      await takeIn(one.text);
      await run((db) => db.transaction('rw', db.meta, () => db.meta.delete(KEY + one.hash)));
    } catch (why) {
      await keepUntaken(run, one.text, why, now());
    }
  }
}
