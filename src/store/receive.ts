// Takes in events made elsewhere, as often and in any order as they come. A text that contradicts one that is here is
// kept and named beside it; nothing that is here is ever replaced.
import { readEvent } from '../core/audit/events.ts';
import { utf8Bytes } from '../wire/limits.ts';
import type { StationStore } from './database.ts';
import type { Ran } from './failures.ts';
import { textToHash } from './hash.ts';
import { enqueue, kindToWhat, type NewOutboxRow } from './outbox.ts';
import { type EventOrigin, type ForkRow, getMeta, type NewEventRow, putMeta, type StationDb } from './schema.ts';

export type Received = {
  added: number;
  known: number;
  forks: number;
  /** Events of another station: not taken. */
  foreign: number;
  /** Arrival number of the last event added; null when none was. */
  last: number | null;
};

type Incoming = NewEventRow & { kind: string; bytes: number };

/** Small enough that one transaction does not hold up a sighting for long. */
const CHUNK = 1000;

/**
 * Adds the texts that are not here yet. With a cursor, all texts and the cursor go into one transaction; a bundle,
 * which has none, goes in pieces.
 */
export async function receiveTexts(
  store: StationStore,
  texts: readonly string[],
  origin: Exclude<EventOrigin, 'own'>,
  cursor: string | null,
  now: number,
): Promise<Ran<Received>> {
  const total: Received = { added: 0, known: 0, forks: 0, foreign: 0, last: null };
  const size = cursor === null ? CHUNK : Math.max(1, texts.length);
  for (let at = 0; at < Math.max(1, texts.length); at += size) {
    const read = await Promise.all(texts.slice(at, at + size).map((text) => textToIncoming(text, origin)));
    const incoming = read.filter((one) => one.station === null || one.station === store.station).map((one) => one.row);
    total.foreign += read.length - incoming.length;
    const took = await store.run((db) => take(db, incoming, origin, cursor, now));
    if (took.type !== 'done') return took;
    total.added += took.value.added;
    total.known += took.value.known;
    total.forks += took.value.forks;
    total.last = took.value.last ?? total.last;
  }
  return { type: 'done', value: total };
}

async function textToIncoming(text: string, origin: EventOrigin): Promise<{ station: string | null; row: Incoming }> {
  const read = readEvent(text);
  const hash = await textToHash(text);
  const bytes = utf8Bytes(text);
  if (read.type === 'unreadable') {
    // Kept as text under its own hash: a newer build may read it.
    const row = { id: `unreadable-${hash}`, log: 'unreadable', seq: 0, at: 0, kind: '', hash, text, origin, bytes };
    return { station: null, row };
  }
  const { id, log, seq, at, audit, kind, station } = read.type === 'event' ? read.event : read.envelope;
  return {
    station,
    row: { id, log, seq, at, ...(audit === undefined ? {} : { audit }), kind, hash, text, origin, bytes },
  };
}

function take(
  db: StationDb,
  incoming: readonly Incoming[],
  origin: EventOrigin,
  cursor: string | null,
  now: number,
): PromiseLike<Omit<Received, 'foreign'>> {
  return db.transaction('rw', [db.events, db.forks, db.outbox, db.meta], async () => {
    const ownLog = await getMeta(db, 'log');
    const stands = new Map<string, Pick<NewEventRow, 'id' | 'hash'>>();
    for (const row of await db.events
      .where('id')
      .anyOf(incoming.map((one) => one.id))
      .toArray())
      stands.set(row.id, row);
    const fresh: Incoming[] = [];
    const forks: ForkRow[] = [];
    let known = 0;
    const fork = ({ hash, id, log, seq, text }: Incoming, why: ForkRow['why'], against: string): void => {
      forks.push({ hash, id, log, seq, text, origin, at: now, why, against });
    };
    for (const one of incoming) {
      const old = stands.get(one.id);
      if (!old) {
        stands.set(one.id, one);
        fresh.push(one);
      } else if (old.hash === one.hash) known++;
      else fork(one, 'same-id-other-text', one.id);
    }
    // Nobody but this database writes its log, so an event of it that is not here was written by a copy of it.
    for (const one of fresh) if (one.log === ownLog) fork(one, 'own-log', one.id);
    await nameSameNumbers(db, fresh, ownLog, fork);
    if (ownLog !== undefined) await moveHead(db, fresh, ownLog);

    const last = fresh.length > 0 ? await db.events.bulkAdd(fresh.map(toRow)) : null;
    if (origin === 'bundle' && last !== null)
      await enqueue(
        db,
        fresh.map((one, i) => toOutbox(one, last - fresh.length + 1 + i)),
      );
    const named = await addForks(db, forks);
    if (cursor !== null) await putMeta(db, 'cursor', cursor);
    return { added: fresh.length, known, forks: named, last };
  });
}

/** Two events with one number in one log: both stand, the log is named as forked. */
async function nameSameNumbers(
  db: StationDb,
  fresh: readonly Incoming[],
  ownLog: string | undefined,
  fork: (row: Incoming, why: ForkRow['why'], against: string) => void,
): Promise<void> {
  const others = fresh.filter((one) => one.log !== ownLog && one.log !== 'unreadable');
  const held = await db.events
    .where('[log+seq]')
    .anyOf(others.map((one) => [one.log, one.seq]))
    .toArray();
  const first = new Map(held.map((row) => [`${row.seq} ${row.log}`, row.id]));
  for (const one of others) {
    const key = `${one.seq} ${one.log}`;
    const earlier = first.get(key);
    if (earlier === undefined) first.set(key, one.id);
    else fork(one, 'same-number', earlier);
  }
}

/** The next event must not claim a number that a copy of this database has used and sent. */
async function moveHead(db: StationDb, fresh: readonly Incoming[], ownLog: string): Promise<void> {
  const head = await getMeta(db, 'head');
  let top = head;
  for (const one of fresh) if (one.log === ownLog && one.seq > (top?.seq ?? -1)) top = { seq: one.seq, hash: one.hash };
  if (top && top !== head) await putMeta(db, 'head', top);
}

async function addForks(db: StationDb, forks: readonly ForkRow[]): Promise<number> {
  const byHash = new Map(forks.map((row) => [row.hash, row]));
  const rows = [...byHash.values()];
  const known = await db.forks.bulkGet(rows.map((row) => row.hash));
  const fresh = rows.filter((_, index) => !known[index]);
  if (fresh.length > 0) await db.forks.bulkAdd(fresh);
  return fresh.length;
}

function toRow({ id, log, seq, audit, at, hash, text, origin }: Incoming): NewEventRow {
  return { id, log, seq, ...(audit === undefined ? {} : { audit }), at, hash, text, origin };
}

function toOutbox(one: Incoming, order: number): NewOutboxRow {
  return { id: one.id, kind: 'event', what: kindToWhat(one.kind), at: one.at, bytes: one.bytes, order };
}
