// Text and rows of this phone's own entries: made for a place in the chain, and written only while that is its end.
import { EVENT_VERSION } from '../../core/record/eventLimits.ts';
import type { Envelope } from '../../core/record/events.ts';
import { utf8Bytes } from '../../wire/limits.ts';
import type { StoreFailure } from '../failures.ts';
import { getMeta, type NewEventRow, putMeta, type StationDb } from '../schema.ts';
import { enqueue, kindToWhat } from '../sending/outbox.ts';

export type Pending = MadeEntry & {
  /** The last text made for it; its place in the chain is a guess until it is written. */
  text: string;
  shown: 'under-way' | 'slow' | 'refused';
  /** Handed to the database at least once, which may have taken it without being able to say so. */
  tried: boolean;
  answer: (result: RecordResult) => void;
};

export type Head = { log: string; seq: number; hash: string | null };

export function toText(station: string, one: Pending, head: Head): string {
  const envelope: Envelope = {
    v: EVENT_VERSION,
    id: one.id,
    station,
    ...(one.audit === undefined ? {} : { audit: one.audit }),
    log: head.log,
    seq: head.seq + 1,
    prev: head.hash,
    author: one.author,
    at: one.at,
    zone: one.zone,
    kind: one.kind,
    payload: JSON.parse(one.payload),
  };
  return JSON.stringify(envelope);
}

/** Head of the own log, born here if the database is new, and the texts of those that are stored already. */
export function readHead(
  db: StationDb,
  newLog: string,
  batch: Pending[],
): PromiseLike<{ head: Head; texts: Map<string, string> }> {
  return db.transaction('rw', [db.meta, db.events], async () => {
    let log = await getMeta(db, 'log');
    if (log === undefined) {
      log = newLog;
      await putMeta(db, 'log', log);
    }
    const head = await getMeta(db, 'head');
    const stored = await db.events
      .where('id')
      .anyOf(batch.map((one) => one.id))
      .toArray();
    return {
      head: { log, seq: head?.seq ?? -1, hash: head?.hash ?? null },
      texts: new Map(stored.map((row) => [row.id, row.text])),
    };
  });
}

/**
 * Null when the head has moved since it was read, or one of the doubted ids has come by another way: then the texts are
 * stale and nothing was written.
 */
export function appendRows(
  db: StationDb,
  batch: Pending[],
  expected: Head,
  made: { rows: NewEventRow[]; head: Head },
  doubted: readonly string[],
): PromiseLike<{ first: number; last: number } | null> {
  return db.transaction('rw', [db.events, db.outbox, db.meta], async () => {
    const head = await getMeta(db, 'head');
    if ((head?.hash ?? null) !== expected.hash) return null;
    if (doubted.length > 0 && (await db.events.where('id').anyOf(doubted).count()) > 0) return null;
    const last = await db.events.bulkAdd(made.rows);
    // Numbers are given one after the other within a transaction.
    const first = last - made.rows.length + 1;
    await enqueue(
      db,
      made.rows.map((row, index) => ({
        id: row.id,
        kind: 'event' as const,
        what: kindToWhat(batch[index]?.kind ?? ''),
        at: row.at,
        bytes: utf8Bytes(row.text),
        order: first + index,
      })),
    );
    await putMeta(db, 'head', { seq: made.head.seq, hash: made.head.hash ?? '' });
    return { first, last };
  });
}

export type RecordResult =
  | { type: 'saved'; id: string; text: string }
  /** Kept in memory and tried again; the text may get another place in the chain when it is stored at last. */
  | { type: 'not-saved'; id: string; text: string; why: StoreFailure }
  /** No reader would take it, so it was not made. */
  | { type: 'too-long'; characters: number; limit: number };

/** An entry that was made already, for another place in a chain. */
export type MadeEntry = {
  id: string;
  kind: string;
  /** JSON text. */
  payload: string;
  audit: string | undefined;
  author: string;
  at: number;
  zone: number;
};
