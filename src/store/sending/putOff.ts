// What did not get through while other things do: refused, set aside or put off, each with the time of its next try.
// Functions that write are called inside a transaction that holds `outbox` and `meta`.

import { getMeta, type OutboxRow, type StationDb } from '../schema.ts';
import { EMPTY_SUM, replace } from './outbox.ts';

/** What the server would not take is tried again this often. */
const REFUSED_AGAIN_MS = 86_400_000;
const FIRST_AGAIN_MS = 10_000;

/** Doubling from ten seconds up to a day. */
export function growing(tries: number): number {
  return Math.min(REFUSED_AGAIN_MS, FIRST_AGAIN_MS * 2 ** Math.min(Math.max(0, tries - 1), 20));
}

/** Whether something that was put off is due; also when the clock was put back since, or it might never be. */
export function isDue(row: { dueAt?: number; triedAt?: number }, now: number): boolean {
  return (row.dueAt ?? 0) <= now || (row.triedAt ?? 0) > now;
}

/**
 * Stays on the phone and in view. `refused` and `set-aside` are tried again after a day; `queued` is merely put off,
 * for longer each time.
 */
export async function hold(
  db: StationDb,
  key: string,
  state: OutboxRow['state'],
  why: string,
  sentence: string | null,
  now: number,
): Promise<void> {
  await replace(db, [key], (row) => {
    if (!row) return null;
    const { sentence: _, ...rest } = row;
    const tries = (row.tries ?? 0) + 1;
    const dueAt = now + (state === 'queued' ? growing(tries) : REFUSED_AGAIN_MS);
    return { ...rest, state, why, triedAt: now, tries, dueAt, ...(sentence === null ? {} : { sentence }) };
  });
}

/** Back into the queue, keeping in mind how often it was tried. */
export async function release(db: StationDb, keys: readonly string[]): Promise<void> {
  await replace(db, keys, (row) => {
    if (!row) return null;
    const { dueAt: _, ...rest } = row;
    return { ...rest, state: 'queued' };
  });
}

/** Refused and set-aside ones. */
export async function heldRows(db: StationDb): Promise<OutboxRow[]> {
  const rows: OutboxRow[] = [];
  for (const kind of ['event', 'document'] as const)
    for (const state of ['refused', 'set-aside'] as const)
      rows.push(
        ...(await db.outbox
          .where('[kind+state+order]')
          .between(...ofKind(kind, state))
          .toArray()),
      );
  return rows;
}

export function ofKind(kind: OutboxRow['kind'], state: OutboxRow['state']): [unknown[], unknown[]] {
  return [
    [kind, state, 0],
    [kind, state, Number.POSITIVE_INFINITY],
  ];
}

/** Newest first; what was refused, set aside or put off, with its reason. */
export async function putOffRows(db: StationDb): Promise<OutboxRow[]> {
  const sum = (await getMeta(db, 'outboxSum')) ?? EMPTY_SUM;
  if (sum.refused + (sum.putOff ?? 0) === 0) return [];
  const rows = await db.outbox.filter((row) => row.state !== 'queued' || row.dueAt !== undefined).toArray();
  return rows.sort((a, b) => b.at - a.at);
}

/** When the oldest of what is queued was made; null when nothing is. */
export async function waitsSince(db: StationDb, kind: OutboxRow['kind']): Promise<number | null> {
  const range = db.outbox.where('[kind+state+order]').between(...ofKind(kind, 'queued'));
  return (await range.first())?.at ?? null;
}
