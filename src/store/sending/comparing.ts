// What this phone claims of the server's numbering, and how far a comparison with the server has come. It queues what
// the server does not hold, what is kept aside included, and removes nothing; every function opens its own transaction
// unless it says otherwise.
//
// Limits: A document damaged on this phone is shown and not fetched anew from the server.
import { readEvent } from '../../core/record/events.ts';
import { utf8Bytes } from '../../wire/limits.ts';
import { CURSOR_START, ID_PATTERN } from '../../wire/sync.ts';
import { documentToOutbox } from '../documents.ts';
import { SHA_NAME } from '../hash.ts';
import {
  type AsideRow,
  type Comparing,
  type EventRow,
  getMeta,
  type Meta,
  putMeta,
  type StationDb,
} from '../schema.ts';
import { enqueue, kindToWhat, outboxKey } from './outbox.ts';

type Place = { run: number; arrival: number; aside: string; sha: string; done: boolean };

/** What is kept aside goes behind the events, which come before it in their logs. */
const BEHIND_EVENTS = Number.MAX_SAFE_INTEGER;

export async function numbering(db: StationDb): Promise<Meta['numbering']> {
  const kept = await getMeta(db, 'numbering');
  return kept ?? { history: (await getMeta(db, 'pairing'))?.history ?? null, mark: null };
}

/** Inside a transaction that holds `meta`. Only ever rises. */
export async function keepMark(db: StationDb, mark: string): Promise<void> {
  const now = await numbering(db);
  if (numberOf(mark) > numberOf(now.mark)) await putMeta(db, 'numbering', { ...now, mark });
}

function numberOf(mark: string | null): number {
  return mark === null ? 0 : Number(mark.split('-')[0]);
}

/** A first pairing has nothing to lose yet; the comparison that is due then costs next to nothing. */
export function pairedWith(db: StationDb, history: string, before: string | null, now: number): PromiseLike<void> {
  return db.transaction('rw', db.meta, async () => {
    if (before === history) return;
    if (before !== null) return await beginHistory(db, history, now);
    await putMeta(db, 'numbering', { history, mark: null });
    await db.meta.delete('comparedAt');
  });
}

export function newHistory(db: StationDb, history: string | null, now: number): PromiseLike<void> {
  return db.transaction('rw', db.meta, async () => await beginHistory(db, history, now));
}

/** In one transaction, so that no crash can leave the cursor of one history beside the name of another. */
async function beginHistory(db: StationDb, history: string | null, now: number): Promise<void> {
  await putMeta(db, 'numbering', { history, mark: null });
  await putMeta(db, 'cursor', CURSOR_START);
  await begin(db, true, now);
  await nameHistory(db, history);
}

export function learnHistory(db: StationDb, history: string): PromiseLike<void> {
  return db.transaction('rw', db.meta, async () => {
    await putMeta(db, 'numbering', { ...(await numbering(db)), history });
    await nameHistory(db, history);
  });
}

async function nameHistory(db: StationDb, history: string | null): Promise<void> {
  const pairing = await getMeta(db, 'pairing');
  if (pairing && history !== null) await putMeta(db, 'pairing', { ...pairing, history });
}

async function begin(db: StationDb, forAll: boolean, now: number): Promise<void> {
  const before = await getMeta(db, 'comparing');
  const run = Math.max(now, (before?.run ?? 0) + 1);
  await putMeta(db, 'comparing', { run, arrival: 0, aside: '', sha: '', forAll });
}

export async function comparing(
  db: StationDb,
): Promise<{ type: 'under-way'; forAll: boolean } | { type: 'rests'; lastAt: number | null }> {
  const state = await getMeta(db, 'comparing');
  if (state) return { type: 'under-way', forAll: state.forAll };
  return { type: 'rests', lastAt: (await getMeta(db, 'comparedAt')) ?? null };
}

export function beginCompare(db: StationDb, now: number): PromiseLike<void> {
  return db.transaction('rw', db.meta, async () => {
    if (!(await getMeta(db, 'comparing'))) await begin(db, false, now);
  });
}

/** Of what waits already nothing is asked: it is sent anyway, or has a reason of its own not to be. */
export function compareBatch(
  db: StationDb,
  limit: number,
): PromiseLike<{ events: { id: string; hash: string }[]; documents: string[]; next: Place }> {
  return db.transaction('r', [db.events, db.aside, db.documentHeads, db.outbox, db.meta], async () => {
    const state = await getMeta(db, 'comparing');
    if (!state) return { events: [], documents: [], next: { run: 0, arrival: 0, aside: '', sha: '', done: true } };
    const rows = await db.events.where('arrival').above(state.arrival).limit(limit).toArray();
    const left = limit - rows.length;
    const waits = await db.aside
      .where('hash')
      .above(state.aside ?? '')
      .limit(left)
      .toArray();
    const events = await notWaiting(db, 'event', [...rows, ...waits], (row) => row.id);
    const asked = events.filter((row) => ID_PATTERN.test(row.id)).map(({ id, hash }) => ({ id, hash }));
    const { run } = state;
    const arrival = rows.at(-1)?.arrival ?? state.arrival;
    const aside = waits.at(-1)?.hash ?? state.aside ?? '';
    if (waits.length === left)
      return { events: asked, documents: [], next: { run, arrival, aside, sha: state.sha, done: false } };
    const heads = await db.documentHeads.where('sha').above(state.sha).limit(limit).toArray();
    const held = heads.filter((head) => head.complete === 1 && SHA_NAME.test(head.sha));
    const documents = (await notWaiting(db, 'document', held, (head) => head.sha)).map((head) => head.sha);
    const sha = heads.at(-1)?.sha ?? state.sha;
    return { events: asked, documents, next: { run, arrival, aside, sha, done: heads.length < limit } };
  });
}

async function notWaiting<T>(
  db: StationDb,
  kind: 'event' | 'document',
  rows: readonly T[],
  idOf: (row: T) => string,
): Promise<T[]> {
  const waiting = await db.outbox.bulkGet(rows.map((row) => outboxKey(kind, idOf(row))));
  return rows.filter((_, i) => !waiting[i]);
}

export function compared(
  db: StationDb,
  missing: { events: string[]; documents: string[] },
  next: Place,
  now: number,
): PromiseLike<void> {
  return db.transaction('rw', [db.events, db.aside, db.documentHeads, db.outbox, db.meta], async () => {
    const state = await getMeta(db, 'comparing');
    if (state?.run !== next.run) return;
    const rows = await db.events.where('id').anyOf(missing.events).sortBy('arrival');
    await enqueue(db, (await notWaiting(db, 'event', rows, (row) => row.id)).map(eventToOutbox));
    const ids = new Set(missing.events);
    const waits = await db.aside
      .where('hash')
      .between(state.aside ?? '', next.aside, false, true)
      .filter((row) => ids.has(row.id))
      .toArray();
    await enqueueAside(db, waits);
    const heads = (await db.documentHeads.bulkGet(missing.documents)).flatMap((head) => (head ? [head] : []));
    const held = heads.filter((head) => head.complete === 1);
    await enqueue(db, (await notWaiting(db, 'document', held, (head) => head.sha)).map(documentToOutbox));
    if (next.done) await endCompare(db, now);
    else await putMeta(db, 'comparing', toState(next, state));
  });
}

/** Behind the events of the same ids: one text of an id waits at a time. */
async function enqueueAside(db: StationDb, rows: readonly AsideRow[]): Promise<void> {
  await enqueue(db, (await notWaiting(db, 'event', rows, (row) => row.id)).map(asideToOutbox));
}

function toState({ run, arrival, aside, sha }: Place, { forAll }: Comparing): Comparing {
  return { run, arrival, aside, sha, forAll };
}

async function endCompare(db: StationDb, now: number): Promise<void> {
  await db.meta.delete('comparing');
  await putMeta(db, 'comparedAt', now);
}

/** Everything that is here waits again, whoever made it, in the order in which it came here. */
export function startOver(db: StationDb, now: number): PromiseLike<void> {
  return db.transaction('rw', [db.events, db.aside, db.documentHeads, db.outbox, db.meta], async () => {
    for (let after = 0; ; ) {
      const rows = await db.events.where('arrival').above(after).limit(2000).toArray();
      const last = rows.at(-1);
      if (!last) break;
      after = last.arrival;
      await enqueue(db, rows.map(eventToOutbox));
    }
    await enqueueAside(db, await db.aside.toArray());
    const heads = await db.documentHeads.where('complete').equals(1).toArray();
    await enqueue(db, heads.map(documentToOutbox));
    await putMeta(db, 'numbering', { ...(await numbering(db)), mark: null });
    await putMeta(db, 'cursor', CURSOR_START);
    await endCompare(db, now);
  });
}

function eventToOutbox(row: EventRow) {
  const read = readEvent(row.text);
  const kind = read.type === 'event' ? read.event.kind : '';
  return {
    id: row.id,
    kind: 'event' as const,
    what: kindToWhat(kind),
    at: row.at,
    bytes: utf8Bytes(row.text),
    order: row.arrival,
  };
}

function asideToOutbox({ id, kind, at, bytes, hash }: AsideRow) {
  return { id, kind: 'event' as const, what: kindToWhat(kind), at, bytes, order: BEHIND_EVENTS, aside: hash };
}
