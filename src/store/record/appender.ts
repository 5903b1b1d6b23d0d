// Writes this phone's own events: one chain per log, in order, each on disk together with its outbox row. What cannot
// be written stays in memory, in order, and is counted until it can. Nothing else may add events of origin `own`.
import { boundTime, boundZone, EVENT_VERSION, MAX_EVENT_TEXT } from '../../core/record/eventLimits.ts';
import type { Envelope, EventKind, Payload } from '../../core/record/events.ts';
import { utf8Bytes } from '../../wire/limits.ts';
import type { StationStore } from '../database.ts';
import type { StoreFailure, StoreResult } from '../failures.ts';
import { textToHash } from '../hash.ts';
import type { LockRunner } from '../locks.ts';
import { createWatched, type Watched } from '../observe.ts';
import { getMeta, type NewEventRow, putMeta, type StationDb } from '../schema.ts';
import { enqueue, kindToWhat } from '../sending/outbox.ts';

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
export const SLOW_MS = 2000;
const BATCH = 200;
const ROUNDS = 8;

type Pending = MadeEntry & {
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
    const at = boundTime(deps.now());
    const id = deps.newId();
    const entry = { id, kind, payload: JSON.stringify(payload), audit: about.audit, author: deps.author(), at };
    const { waited, answer } = enlist({ ...entry, zone: boundZone(deps.zone(at)) }, false);
    if (waited) void retry();
    return answer;
  }

  function append(entries: readonly MadeEntry[]): Promise<RecordResult[]> {
    const enlisted = entries.map((entry) => join(entry.id) ?? enlist(entry, true));
    if (enlisted.some(({ waited }) => waited)) void retry();
    return Promise.all(enlisted.map(({ answer }) => answer));
  }

  /** One that waits already is answered to both who asked. */
  function join(id: string): { waited: boolean; answer: Promise<RecordResult> } | null {
    const entry = waiting.find((one) => one.id === id);
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
  function enlist(made: MadeEntry, tried: boolean): { waited: boolean; answer: Promise<RecordResult> } {
    const one = { ...made, text: '', shown: 'under-way' as const, tried };
    const longest = toText(
      store.station,
      { ...one, answer: () => {} },
      { ...known, seq: 999_999_999, hash: '0'.repeat(64) },
    );
    if (longest.length > MAX_EVENT_TEXT) {
      const tooLong = { type: 'too-long' as const, characters: longest.length, limit: MAX_EVENT_TEXT };
      return { waited: false, answer: Promise.resolve(tooLong) };
    }
    const answer = new Promise<RecordResult>((resolve) => {
      const entry: Pending = { ...one, answer: resolve };
      entry.text = toText(store.station, entry, known);
      waiting.push(entry);
      deps.after(SLOW_MS, () => {
        if (entry.shown !== 'under-way' || !waiting.includes(entry)) return;
        entry.shown = 'slow';
        recount();
      });
    });
    return { waited: true, answer };
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

  async function write(batch: Pending[]): Promise<StoreResult<void>> {
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
      const doubted = left.filter((one) => one.tried).map((one) => one.id);
      for (const one of left) one.tried = true;
      const wrote = await store.run((db) => appendRows(db, left, known, made, doubted));
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
    append,
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

/**
 * Null when the head has moved since it was read, or one of the doubted ids has come by another way: then the texts are
 * stale and nothing was written.
 */
function appendRows(
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
