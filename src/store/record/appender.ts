// Writes this phone's own events: one chain per log, in order, each on disk together with its outbox row. What cannot
// be written stays in memory, in order, and is counted until it can. Nothing else may add events of origin `own`.
import { boundTime, boundZone, MAX_EVENT_TEXT } from '../../core/record/eventLimits.ts';
import type { EventKind, Payload } from '../../core/record/events.ts';
import type { StationStore } from '../database.ts';
import type { StoreFailure, StoreResult } from '../failures.ts';
import { textToHash } from '../hash.ts';
import type { LockRunner } from '../locks.ts';
import { createWatched, type Watched } from '../observe.ts';
import type { NewEventRow, StationDb } from '../schema.ts';
import { appendRows, type Head, type MadeEntry, type Pending, type RecordResult, readHead, toText } from './ownRows.ts';

type AppenderDeps = {
  store: StationStore;
  author: () => string;
  now: () => number;
  /** Minutes east of UTC at that time. */
  zone: (at: number) => number;
  newId: () => string;
  lock: LockRunner;
  /** Makes room without touching the record; false when there was nothing to remove. */
  freeSpace: () => Promise<boolean>;
  /** Told after each write, with the arrival numbers. */
  stored: (first: number, last: number) => void;
  /** Texts that were reported as not saved and are stored now. */
  restored: (texts: string[]) => void;
  after: (ms: number, call: () => void) => () => void;
};

export type Appender = {
  /**
   * Gives entries that were made before a new place at the end of this phone's log, as they are; one whose id is in the
   * database or waits in memory is answered for and not written again. Behaves as `record` where the disk refuses.
   */
  append: (entries: readonly MadeEntry[]) => Promise<RecordResult[]>;
  record: <K extends EventKind>(kind: K, payload: Payload<K>, about?: { audit?: string }) => Promise<RecordResult>;
  /** Tries to write what is in memory; true when nothing is left there. */
  retry: () => Promise<boolean>;
  /** How many statements are not on disk: refused ones, and ones whose writing takes longer than `SLOW_MS`. */
  unsavedCount: Watched<number>;
  /** Why the last write failed; null while everything is on disk. */
  unsavedWhy: () => StoreFailure | null;
  /** Texts that exist in memory only, oldest first, for an export. */
  unsaved: () => string[];
};

/** A write that takes longer counts as not saved until it is: some browsers never answer when the disk is full. */
const SLOW_MS = 2000;
/**
 * Longer than this and the connection or the lock counts as dead: the write is tried once more on a fresh connection.
 * Both may still come through; the head and the ids are compared inside the transaction, so nothing is written twice.
 */
const HUNG_MS = 10_000;
const BATCH = 200;
const ROUNDS = 8;

type OwnLog = AppenderDeps & {
  waiting: Pending[];
  unsavedCount: Watched<number>;
  turn: Promise<unknown>;
  /** What this page last knew of the chain, for texts made while the database is away. */
  headRead: boolean;
  known: Head;
  lastWhy: StoreFailure | null;
};

export function createAppender(deps: AppenderDeps): Appender {
  const own: OwnLog = {
    ...deps,
    waiting: [],
    unsavedCount: createWatched(0),
    turn: Promise.resolve(),
    headRead: false,
    known: { log: deps.newId(), seq: -1, hash: null },
    lastWhy: null,
  };

  return {
    record: (kind, payload, about) => record(own, kind, payload, about),
    append: (entries) => append(own, entries),
    retry: () => retry(own),
    unsavedCount: own.unsavedCount,
    unsavedWhy: () => (own.unsavedCount.current() > 0 ? own.lastWhy : null),
    unsaved: () => own.waiting.map((one) => one.text),
  };
}

function recount(own: OwnLog): void {
  own.unsavedCount.set(own.waiting.filter((one) => one.shown !== 'under-way').length);
}

async function record<K extends EventKind>(
  own: OwnLog,
  kind: K,
  payload: Payload<K>,
  about: { audit?: string } = {},
): Promise<RecordResult> {
  const at = boundTime(own.now());
  const id = own.newId();
  const entry = { id, kind, payload: JSON.stringify(payload), audit: about.audit, author: own.author(), at };
  const { waited, answer } = enlist(own, { ...entry, zone: boundZone(own.zone(at)) }, false);
  if (waited) void retry(own);
  return answer;
}

function append(own: OwnLog, entries: readonly MadeEntry[]): Promise<RecordResult[]> {
  const enlisted = entries.map((entry) => join(own, entry.id) ?? enlist(own, entry, true));
  if (enlisted.some(({ waited }) => waited)) void retry(own);
  return Promise.all(enlisted.map(({ answer }) => answer));
}

/** One that waits already is answered to both who asked. */
function join(own: OwnLog, id: string): { waited: boolean; answer: Promise<RecordResult> } | null {
  const entry = own.waiting.find((one) => one.id === id);
  if (!entry) return null;
  const before = entry.answer;
  const answer = new Promise<RecordResult>((resolve) => {
    entry.answer = (result) => {
      before(result);
      resolve(result);
    };
  });
  return { waited: true, answer };
}

/** @param tried The database may hold it already. */
function enlist(own: OwnLog, made: MadeEntry, tried: boolean): { waited: boolean; answer: Promise<RecordResult> } {
  const one = { ...made, text: '', shown: 'under-way' as const, tried };
  const longest = toText(
    own.store.station,
    { ...one, answer: () => {} },
    { ...own.known, seq: 999_999_999, hash: '0'.repeat(64) },
  );
  if (longest.length > MAX_EVENT_TEXT) {
    const tooLong = { type: 'too-long' as const, characters: longest.length, limit: MAX_EVENT_TEXT };
    return { waited: false, answer: Promise.resolve(tooLong) };
  }
  const answer = new Promise<RecordResult>((resolve) => {
    const entry: Pending = { ...one, answer: resolve };
    entry.text = toText(own.store.station, entry, own.known);
    own.waiting.push(entry);
    own.after(SLOW_MS, () => {
      if (entry.shown !== 'under-way' || !own.waiting.includes(entry)) return;
      entry.shown = 'slow';
      recount(own);
    });
  });
  return { waited: true, answer };
}

function retry(own: OwnLog): Promise<boolean> {
  const mine = own.turn.then(async () => {
    if (own.waiting.length > 0) await locked(own, () => drain(own));
    return own.waiting.length === 0;
  });
  own.turn = mine.catch(() => undefined);
  return mine;
}

/** A lock that nobody gives, as one held by a page that is gone, must not keep entries from the disk. */
async function locked(own: OwnLog, work: () => Promise<void>): Promise<void> {
  let begun: Promise<void> | null = null;
  const once = () => {
    begun ??= work();
    return begun;
  };
  const byLock = own.lock(`asfound-log-${own.store.station}`, once);
  // Its failure is the work's own, which is waited for below.
  await inTime(
    own,
    byLock.catch(() => undefined),
  );
  await once();
}

/** @returns The answer, or `late` after `HUNG_MS`. */
async function inTime<T>(own: OwnLog, answer: PromiseLike<T>): Promise<T | 'late'> {
  let cancel = () => {};
  const late = new Promise<'late'>((resolve) => {
    cancel = own.after(HUNG_MS, () => resolve('late'));
  });
  try {
    return await Promise.race([answer, late]);
  } finally {
    cancel();
  }
}

/** Like `store.run`; where nothing answers, the next attempt finds a fresh connection. */
async function runInTime<T>(
  own: OwnLog,
  operation: (db: StationDb) => PromiseLike<T>,
): Promise<StoreResult<T> | { type: 'hung' }> {
  const ran = await inTime(own, own.store.run(operation));
  if (ran !== 'late') return ran;
  own.store.renew();
  return { type: 'hung' };
}

async function drain(own: OwnLog): Promise<void> {
  let size = BATCH;
  let [freed, renewed] = [false, false];
  while (own.waiting.length > 0) {
    const wrote = await write(own, own.waiting.slice(0, size)).catch(async (error: unknown) => {
      // Even a bug of ours must not cost a sighting: it stays in memory and in view, and the bug is still reported.
      await provisional(own).catch(() => undefined);
      giveUp(own, { type: 'store-lost', message: String(error) });
      throw error;
    });
    if (wrote.type === 'done') continue;
    if (wrote.type === 'hung' && !renewed) {
      renewed = true;
      continue;
    }
    if (wrote.type === 'full' && !freed) {
      freed = true;
      if (await own.freeSpace()) continue;
    }
    // One small row may still fit where a batch does not.
    if (wrote.type === 'full' && size > 1 && own.waiting.length > 1) {
      size = 1;
      continue;
    }
    await provisional(own);
    giveUp(own, wrote.type === 'hung' ? { type: 'store-lost', message: 'no answer' } : wrote);
    return;
  }
}

function giveUp(own: OwnLog, why: StoreFailure): void {
  own.lastWhy = why;
  for (const one of own.waiting) {
    one.shown = 'refused';
    one.answer({ type: 'not-saved', id: one.id, text: one.text, why });
  }
  recount(own);
}

/** Gives the unwritten ones the texts they would get if nobody else wrote in between. */
async function provisional(own: OwnLog): Promise<void> {
  await chain(own, [...own.waiting], own.known);
}

async function chain(own: OwnLog, batch: Pending[], head: Head): Promise<{ rows: NewEventRow[]; head: Head }> {
  const rows: NewEventRow[] = [];
  let at = head;
  for (const one of batch) {
    one.text = toText(own.store.station, one, at);
    at = { log: head.log, seq: at.seq + 1, hash: await textToHash(one.text) };
    rows.push({
      id: one.id,
      log: at.log,
      seq: at.seq,
      ...(one.audit === undefined ? {} : { audit: one.audit }),
      at: one.at,
      hash: at.hash ?? '',
      text: one.text,
      origin: 'own',
    });
  }
  return { rows, head: at };
}

async function write(own: OwnLog, batch: Pending[]): Promise<StoreResult<void> | { type: 'hung' }> {
  for (let round = 0; round < ROUNDS; round++) {
    // The head in memory is a guess that the writing transaction checks; reading it first is for when it failed.
    if (round > 0 || !own.headRead || batch.some((one) => one.tried)) {
      const read = await runInTime(own, (db) => readHead(db, own.known.log, batch));
      if (read.type !== 'done') return read;
      own.known = read.value.head;
      own.headRead = true;
      settle(
        own,
        batch.filter((one) => read.value.texts.has(one.id)),
        read.value.texts,
      );
    }
    const left = batch.filter((one) => own.waiting.includes(one));
    if (left.length === 0) return { type: 'done', value: undefined };
    const made = await chain(own, left, own.known);
    const doubted = left.filter((one) => one.tried).map((one) => one.id);
    for (const one of left) one.tried = true;
    const wrote = await runInTime(own, (db) => appendRows(db, left, own.known, made, doubted));
    if (wrote.type !== 'done') return wrote;
    if (wrote.value === null) continue;
    own.known = made.head;
    own.stored(wrote.value.first, wrote.value.last);
    settle(own, left, new Map(left.map((one) => [one.id, one.text])));
    return { type: 'done', value: undefined };
  }
  return { type: 'store-lost', message: 'another writer was always first' };
}

function settle(own: OwnLog, done: Pending[], texts: ReadonlyMap<string, string>): void {
  const late = done.filter((one) => one.shown === 'refused');
  if (done.length > 0) own.lastWhy = null;
  for (const one of done) {
    own.waiting.splice(own.waiting.indexOf(one), 1);
    one.answer({ type: 'saved', id: one.id, text: texts.get(one.id) ?? one.text });
  }
  recount(own);
  if (late.length > 0) own.restored(late.map((one) => texts.get(one.id) ?? one.text));
}
