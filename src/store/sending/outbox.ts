// What still has to reach the server, with a running sum so that a screen need not count 50,000 rows. Every function
// here is called inside a transaction that holds `outbox` and `meta`, and must never open one.
import type { EventKind } from '../../core/record/events.ts';
import { getMeta, type OutboxRow, type OutboxSum, type OutboxWhat, putMeta, type StationDb } from '../schema.ts';

export const EMPTY_SUM: OutboxSum = {
  events: { statement: 0, photo: 0, note: 0, other: 0 },
  documents: { statement: 0, photo: 0, note: 0, other: 0 },
  bytes: 0,
  refused: 0,
  putOff: 0,
};

const WHAT: Partial<Record<string, OutboxWhat>> = {
  sighting: 'statement',
  'setting-read': 'statement',
  'hazard-seen': 'statement',
  'jacket-read': 'statement',
  photo: 'photo',
  note: 'note',
  'voice-note': 'note',
} satisfies Partial<Record<EventKind, OutboxWhat>>;

export function kindToWhat(kind: string): OutboxWhat {
  return (Object.hasOwn(WHAT, kind) ? WHAT[kind] : undefined) ?? 'other';
}

export function outboxKey(kind: OutboxRow['kind'], id: string): string {
  return `${kind}:${id}`;
}

export type NewOutboxRow = Pick<OutboxRow, 'id' | 'kind' | 'what' | 'at' | 'bytes' | 'order' | 'aside'>;

/** Queues what is not queued yet; one that was refused or set aside waits anew. */
export async function enqueue(db: StationDb, rows: readonly NewOutboxRow[]): Promise<void> {
  const fresh = rows.map((row): OutboxRow => ({ ...row, key: outboxKey(row.kind, row.id), state: 'queued' }));
  await replace(
    db,
    fresh.map((row) => row.key),
    (_, index) => fresh[index] ?? null,
  );
}

/** Call only when the server has acknowledged them. */
export async function dequeue(db: StationDb, keys: readonly string[]): Promise<void> {
  await replace(db, keys, () => null);
}

/** One transaction for rows and sum. @param next Of the row there is, if any, the one to be; null removes it. */
export async function replace(
  db: StationDb,
  keys: readonly string[],
  next: (row: OutboxRow | undefined, index: number) => OutboxRow | null,
): Promise<void> {
  if (keys.length === 0) return;
  const sum = structuredClone((await getMeta(db, 'outboxSum')) ?? EMPTY_SUM);
  const before = await db.outbox.bulkGet([...keys]);
  const after = keys.map((_, index) => next(before[index], index));
  const gone: string[] = [];
  const kept = new Map<string, OutboxRow>();
  const met = new Set<string>();
  keys.forEach((key, index) => {
    if (met.has(key)) return;
    met.add(key);
    const old = before[index];
    const row = after[index] ?? null;
    if (old) count(sum, old, -1);
    if (row) {
      count(sum, row, 1);
      kept.set(key, row);
    } else if (old) gone.push(key);
  });
  if (gone.length > 0) await db.outbox.bulkDelete(gone);
  if (kept.size > 0) await db.outbox.bulkPut([...kept.values()]);
  await putMeta(db, 'outboxSum', sum);
}

function count(sum: OutboxSum, row: OutboxRow, by: 1 | -1): void {
  if (row.state !== 'queued') {
    sum.refused += by;
    return;
  }
  sum[row.kind === 'event' ? 'events' : 'documents'][row.what] += by;
  if (row.dueAt !== undefined) sum.putOff = (sum.putOff ?? 0) + by;
  sum.bytes += by * row.bytes;
}
