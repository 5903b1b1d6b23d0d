// Writes this phone's own events: one chain per log, in order, each on disk together with its outbox row. What cannot
// be written stays in memory, in order, and is counted until it can. Nothing else may add events of origin `own`.
import { EVENT_VERSION, MAX_EVENT_TEXT } from '../core/audit/eventLimits.ts';
import type { Envelope, EventKind, Payload } from '../core/audit/events.ts';
import { utf8Bytes } from '../wire/limits.ts';
import type { StationStore } from './database.ts';
import type { Ran, StoreFailure } from './failures.ts';
import { textToHash } from './hash.ts';
import type { LockRunner } from './locks.ts';
import { createWatched, type Watched } from './observe.ts';
import { enqueue, kindToWhat } from './outbox.ts';
import { getMeta, type NewEventRow, putMeta, type StationDb } from './schema.ts';

export type RecordResult =
  | { type: 'saved'; id: string; text: string }
  /** Kept in memory and tried again; the text may get another place in the chain when it is stored at last. */
  | { type: 'not-saved'; id: string; text: string; why: StoreFailure }
  /** No reader would take it, so it was not made. */
  | { type: 'too-long'; characters: number; limit: number };

export type AppenderDeps = {
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
export const SLOW_MS = 2000;
const BATCH = 200;
const ROUNDS = 8;

type Pending = {
  id: string;
  kind: EventKind;
  payload: string;
  audit: string | undefined;
  author: string;
  at: number;
  zone: number;
  /** The last text made for it; its place in the chain is a guess until it is written. */
  text: string;
  shown: 'under-way' | 'slow' | 'refused';
  /** Handed to the database at least once, which may have taken it without being able to say so. */
  tried: boolean;
  answer: (result: RecordResult) => void;
};

type Head = { log: string; seq: number; hash: string | null };

export function createAppender(deps: AppenderDeps): Appender {
  const { store } = deps;
  const waiting: Pending[] = [];
  const unsavedCount = createWatched(0);
  let turn: Promise<unknown> = Promise.resolve();
  /** What this page last knew of the chain, for texts made while the database is away. */
  let headRead = false;
  let known: Head = { log: deps.newId(), seq: -1, hash: null };

  let lastWhy: StoreFailure | null = null;
  const recount = (): void => unsavedCount.set(waiting.filter((one) => one.shown !== 'under-way').length);

  async function record<K extends EventKind>(kind: K, payload: Payload<K>, about: { audit?: string } = {}) {
    const at = deps.now();
    const pending = { id: deps.newId(), kind, payload: JSON.stringify(payload), audit: about.audit, at };
    const one = {
      ...pending,
      author: deps.author(),
      zone: deps.zone(at),
      text: '',
      shown: 'under-way' as const,
      tried: false,
    };
    const longest = toText(
      store.station,
      { ...one, answer: () => {} },
      { ...known, seq: 999_999_999, hash: '0'.repeat(64) },
    );
    if (longest.length > MAX_EVENT_TEXT) {
      return { type: 'too-long' as const, characters: longest.length, limit: MAX_EVENT_TEXT };
    }
    return new Promise<RecordResult>((resolve) => {
      const entry: Pending = { ...one, answer: resolve };
      entry.text = toText(store.station, entry, known);
      waiting.push(entry);
      deps.after(SLOW_MS, () => {
        if (entry.shown !== 'under-way' || !waiting.includes(entry)) return;
        entry.shown = 'slow';
        recount();
      });
      void retry();
    });
  }

  function retry(): Promise<boolean> {
    const mine = turn.then(async () => {
      if (waiting.length > 0) await deps.lock(`asfound-log-${store.station}`, drain);
      return waiting.length === 0;
    });
    turn = mine.catch(() => undefined);
    return mine;
  }

  async function drain(): Promise<void> {
    let size = BATCH;
    let freed = false;
    while (waiting.length > 0) {
      const wrote = await write(waiting.slice(0, size)).catch(async (error: unknown) => {
        // Even a bug of ours must not cost a sighting: it stays in memory and in view, and the bug is still reported.
        await provisional().catch(() => undefined);
        giveUp({ type: 'store-lost', message: String(error) });
        throw error;
      });
      if (wrote.type === 'done') continue;
      if (wrote.type === 'full' && !freed) {
        freed = true;
        if (await deps.freeSpace()) continue;
      }
      // One small row may still fit where a batch does not.
      if (wrote.type === 'full' && size > 1 && waiting.length > 1) {
        size = 1;
        continue;
      }
      await provisional();
      giveUp(wrote);
      return;
    }
  }

  function giveUp(why: StoreFailure): void {
    lastWhy = why;
    for (const one of waiting) {
      one.shown = 'refused';
      one.answer({ type: 'not-saved', id: one.id, text: one.text, why });
    }
    recount();
  }

  /** Gives the unwritten ones the texts they would get if nobody else wrote in between. */
  async function provisional(): Promise<void> {
    await chain([...waiting], known);
  }

  async function chain(batch: Pending[], head: Head): Promise<{ rows: NewEventRow[]; head: Head }> {
    const rows: NewEventRow[] = [];
    let at = head;
    for (const one of batch) {
      one.text = toText(store.station, one, at);
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

  async function write(batch: Pending[]): Promise<Ran<void>> {
    for (let round = 0; round < ROUNDS; round++) {
      // The head in memory is a guess that the writing transaction checks; reading it first is for when it failed.
      if (round > 0 || !headRead || batch.some((one) => one.tried)) {
        const read = await store.run((db) => readHead(db, known.log, batch));
        if (read.type !== 'done') return read;
        known = read.value.head;
        headRead = true;
        settle(
          batch.filter((one) => read.value.texts.has(one.id)),
          read.value.texts,
        );
      }
      const left = batch.filter((one) => waiting.includes(one));
      if (left.length === 0) return { type: 'done', value: undefined };
      const made = await chain(left, known);
      for (const one of left) one.tried = true;
      const wrote = await store.run((db) => append(db, left, known, made));
      if (wrote.type !== 'done') return wrote;
      if (wrote.value === null) continue;
      known = made.head;
      deps.stored(wrote.value.first, wrote.value.last);
      settle(left, new Map(left.map((one) => [one.id, one.text])));
      return { type: 'done', value: undefined };
    }
    return { type: 'store-lost', message: 'another writer was always first' };
  }

  function settle(done: Pending[], texts: ReadonlyMap<string, string>): void {
    const late = done.filter((one) => one.shown === 'refused');
    if (done.length > 0) lastWhy = null;
    for (const one of done) {
      waiting.splice(waiting.indexOf(one), 1);
      one.answer({ type: 'saved', id: one.id, text: texts.get(one.id) ?? one.text });
    }
    recount();
    if (late.length > 0) deps.restored(late.map((one) => texts.get(one.id) ?? one.text));
  }

  return {
    record,
    retry,
    unsavedCount,
    unsavedWhy: () => (unsavedCount.current() > 0 ? lastWhy : null),
    unsaved: () => waiting.map((one) => one.text),
  };
}

function toText(station: string, one: Pending, head: Head): string {
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
function readHead(
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

/** Null when the head has moved since it was read: then the texts are stale and nothing was written. */
function append(
  db: StationDb,
  batch: Pending[],
  expected: Head,
  made: { rows: NewEventRow[]; head: Head },
): PromiseLike<{ first: number; last: number } | null> {
  return db.transaction('rw', [db.events, db.outbox, db.meta], async () => {
    const head = await getMeta(db, 'head');
    if ((head?.hash ?? null) !== expected.hash) return null;
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
