// Takes in events made elsewhere, as often and in any order as they come. What does not follow in its log is kept aside
// until it does (chain.ts); a text that contradicts one that is here is kept and named beside it. Nothing that is here
// is ever replaced, and nothing that arrives moves the head of this phone's own log.
import { readEvent, readLink } from '../../core/record/events.ts';
import { utf8Bytes } from '../../wire/limits.ts';
import type { StationStore } from '../database.ts';
import type { StoreResult } from '../failures.ts';
import { textToHash } from '../hash.ts';
import {
  type AsideRow,
  type EventOrigin,
  type ForkRow,
  getMeta,
  type NewEventRow,
  putMeta,
  type StationDb,
} from '../schema.ts';
import { enqueue, kindToWhat, type NewOutboxRow } from '../sending/outbox.ts';
import { type Incoming, sortByChain } from './chain.ts';

export type Received = {
  /** New among the events, those included that were kept aside until now. */
  added: number;
  known: number;
  /** Of the texts given, those that wait for what comes before them in their log. */
  aside: number;
  forks: number;
  /** Events of another station: not taken. */
  foreign: number;
  /** Arrival number of the last event added; null when none was. */
  last: number | null;
};

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
): Promise<StoreResult<Received>> {
  const total: Received = { added: 0, known: 0, aside: 0, forks: 0, foreign: 0, last: null };
  const size = cursor === null ? CHUNK : Math.max(1, texts.length);
  for (let at = 0; at < Math.max(1, texts.length); at += size) {
    const read = await Promise.all(texts.slice(at, at + size).map((text) => textToIncoming(text, origin)));
    const incoming = read.filter((one) => one.station === null || one.station === store.station).map((one) => one.row);
    total.foreign += read.length - incoming.length;
    const took = await store.run((db) => take(db, incoming, cursor, now));
    if (took.type !== 'done') return took;
    total.added += took.value.added;
    total.known += took.value.known;
    total.aside += took.value.aside;
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
    // Kept as text under its own hash: a newer build may read it. What follows it in its log follows it all the same.
    const link = readLink(text);
    const place = link ?? { log: 'unreadable', seq: 0, prev: null };
    const row = {
      id: `unreadable-${hash}`,
      ...place,
      at: 0,
      kind: '',
      hash,
      text,
      origin,
      bytes,
      linked: link !== null,
    };
    return { station: null, row };
  }
  const { id, log, seq, prev, at, audit, kind, station } = read.type === 'event' ? read.event : read.envelope;
  const where = { id, log, seq, prev, at, ...(audit === undefined ? {} : { audit }) };
  return { station, row: { ...where, kind, hash, text, origin, bytes, linked: true } };
}

function take(
  db: StationDb,
  incoming: readonly Incoming[],
  cursor: string | null,
  now: number,
): PromiseLike<Omit<Received, 'foreign'>> {
  return db.transaction('rw', [db.events, db.forks, db.aside, db.outbox, db.meta], async () => {
    const { fresh, known } = await leaveOutKnown(db, incoming);
    const { fits, waits, released } = await sortByChain(db, fresh);
    const forks: ForkRow[] = [];
    const fork = ({ hash, id, log, seq, text, origin: from }: Incoming, why: ForkRow['why'], against: string): void => {
      forks.push({ hash, id, log, seq, text, origin: from, at: now, why, against });
    };
    const added = await leaveOutNamesakes(db, fits, fork);
    const ownLog = await getMeta(db, 'log');
    // Nobody but this database writes its log, so an event of it that is not here was written by a copy of it.
    for (const one of added) if (one.log === ownLog) fork(one, 'own-log', one.id);
    await nameSameNumbers(db, added, ownLog, fork);

    const last = added.length > 0 ? await db.events.bulkAdd(added.map(toRow)) : null;
    if (waits.length > 0) await db.aside.bulkAdd(waits.map(({ linked: _, ...row }): AsideRow => row));
    if (released.length > 0) await db.aside.bulkDelete(released);
    if (last !== null) {
      const first = last - added.length + 1;
      // What a bundle brought may be nowhere else.
      await enqueue(
        db,
        added.flatMap((one, i) => (one.origin === 'bundle' ? [toOutbox(one, first + i)] : [])),
      );
    }
    const named = await addForks(db, forks);
    if (cursor !== null) await putMeta(db, 'cursor', cursor);
    return { added: added.length, known, aside: waits.length, forks: named, last };
  });
}

/** Each text once, without those that are among the events, kept aside or named as contradictions already. */
async function leaveOutKnown(
  db: StationDb,
  incoming: readonly Incoming[],
): Promise<{ fresh: Incoming[]; known: number }> {
  const byHash = new Map(incoming.map((one) => [one.hash, one]));
  const twice = incoming.length - byHash.size;
  const stands = await db.events
    .where('id')
    .anyOf(incoming.map((one) => one.id))
    .toArray();
  let known = twice;
  for (const { hash } of stands) if (byHash.delete(hash)) known++;
  const ids = new Set(stands.map(({ id }) => id));
  const doubted = [...byHash.values()].filter(({ id }) => ids.has(id)).map(({ hash }) => hash);
  for (const row of await db.forks.bulkGet(doubted)) if (row && byHash.delete(row.hash)) known++;
  if ((await db.aside.count()) > 0)
    for (const row of await db.aside.bulkGet([...byHash.keys()])) if (row && byHash.delete(row.hash)) known++;
  return { fresh: [...byHash.values()], known };
}

/** The first text of an id stands; another one is kept beside it, so that its log goes on behind it. */
async function leaveOutNamesakes(
  db: StationDb,
  fits: readonly Incoming[],
  fork: (row: Incoming, why: ForkRow['why'], against: string) => void,
): Promise<Incoming[]> {
  const stands = await db.events
    .where('id')
    .anyOf(fits.map((one) => one.id))
    .toArray();
  const ids = new Set(stands.map(({ id }) => id));
  return fits.filter((one) => {
    if (ids.has(one.id)) {
      fork(one, 'same-id-other-text', one.id);
      return false;
    }
    ids.add(one.id);
    return true;
  });
}

/** Two events with one number in one log: both stand, the log is named as forked. */
async function nameSameNumbers(
  db: StationDb,
  added: readonly Incoming[],
  ownLog: string | undefined,
  fork: (row: Incoming, why: ForkRow['why'], against: string) => void,
): Promise<void> {
  const others = added.filter((one) => one.log !== ownLog && one.linked);
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

async function addForks(db: StationDb, forks: readonly ForkRow[]): Promise<number> {
  if (forks.length === 0) return 0;
  const known = await db.forks.bulkGet(forks.map((row) => row.hash));
  const fresh = forks.filter((_, index) => !known[index]);
  if (fresh.length > 0) await db.forks.bulkAdd(fresh);
  return fresh.length;
}

function toRow({ id, log, seq, audit, at, hash, text, origin }: Incoming): NewEventRow {
  return { id, log, seq, ...(audit === undefined ? {} : { audit }), at, hash, text, origin };
}

function toOutbox(one: Incoming, order: number): NewOutboxRow {
  return { id: one.id, kind: 'event', what: kindToWhat(one.kind), at: one.at, bytes: one.bytes, order };
}
