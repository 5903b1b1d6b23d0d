// The texts that rows of the outbox stand for, wherever they are by now, and which of them are still what was made.
// Writes nothing.
import { textToHash } from '../hash.ts';
import type { OutboxRow, StationDb } from '../schema.ts';

export type QueuedText = { id: string; hash: string; text: string };

/**
 * One for each row of an event, in their order; undefined where the text is not here. Inside a transaction that holds
 * `events`, `aside` and `forks`.
 */
export async function queuedTexts(db: StationDb, rows: readonly OutboxRow[]): Promise<(QueuedText | undefined)[]> {
  const plain = rows.filter((row) => row.aside === undefined);
  const events = await db.events.bulkGet(plain.map((row) => row.order));
  const found = new Map<OutboxRow, QueuedText | undefined>(plain.map((row, i) => [row, events[i]]));
  for (const row of rows) if (row.aside !== undefined) found.set(row, await keptAside(db, row.id, row.aside));
  return rows.map((row) => found.get(row));
}

/** It may have been taken since, as an event or as a contradiction to one. */
async function keptAside(db: StationDb, id: string, hash: string): Promise<QueuedText | undefined> {
  const aside = await db.aside.get(hash);
  if (aside) return aside;
  const event = await db.events.where('id').equals(id).first();
  return event?.hash === hash ? event : await db.forks.get(hash);
}

/** Outside of any transaction, which would not wait for the sums. */
export async function sortByHash(
  texts: readonly QueuedText[],
): Promise<{ whole: QueuedText[]; damaged: QueuedText[] }> {
  const sums = await Promise.all(texts.map(({ text }) => textToHash(text)));
  const isWhole = ({ hash }: QueuedText, i: number): boolean => sums[i] === hash;
  return { whole: texts.filter(isWhole), damaged: texts.filter((one, i) => !isWhole(one, i)) };
}
