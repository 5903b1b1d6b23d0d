// Everything that reads a station's database. Never reads a whole table of events at once, and never writes.
import type { StationStore } from './database.ts';
import type { StoreFailure, StoreResult } from './failures.ts';
import type { OutboxSum } from './schema.ts';
import { type ForkRow, getMeta, type StationDb, type ThumbRow } from './schema.ts';
import { EMPTY_SUM } from './sending/outbox.ts';

export { observe } from './observe.ts';

/** Id of the own log, born with the first event. */
export function ownLog(db: StationDb): PromiseLike<string | undefined> {
  return getMeta(db, 'log');
}

type OutboxSummary = {
  statements: number;
  photos: number;
  notes: number;
  other: number;
  bytes: number;
  refused: number;
};

type EventsRead = { type: 'texts'; texts: string[] } | StoreFailure;

/** Event texts in the order they reached this database, a few thousand at a time; ends early on a failure. */
export async function* readEvents(store: StationStore, size = 4000): AsyncGenerator<EventsRead, void, void> {
  let after = 0;
  for (;;) {
    const read = await store.run((db) => db.events.where('arrival').above(after).limit(size).toArray());
    if (read.type !== 'done') {
      yield read;
      return;
    }
    const last = read.value.at(-1);
    if (!last) return;
    after = last.arrival;
    store.seen.arrival = Math.max(store.seen.arrival, after);
    yield { type: 'texts', texts: read.value.map((row) => row.text) };
    if (read.value.length < size) return;
  }
}

export async function document(
  store: StationStore,
  sha: string,
): Promise<StoreResult<{ bytes: Uint8Array<ArrayBuffer>; mime: string } | null>> {
  // The first screen needs no document.
  return (await import('./documents.ts')).readDocument(store, sha);
}

export function thumb(store: StationStore, sha: string): Promise<StoreResult<ThumbRow | null>> {
  return store.run(async (db) => (await db.thumbs.get(sha)) ?? null);
}

/** For `observe` too, like all functions below that take a database. */
export async function outboxSummary(db: StationDb): Promise<OutboxSummary> {
  return sumToSummary((await getMeta(db, 'outboxSum')) ?? EMPTY_SUM);
}

function sumToSummary({ events, documents, bytes, refused }: OutboxSum): OutboxSummary {
  return {
    statements: events.statement,
    // A photo waits as bytes and as an event; it is one photo as long as either waits.
    photos: Math.max(events.photo, documents.photo),
    notes: Math.max(events.note, documents.note),
    other: events.other + documents.other,
    bytes,
    refused,
  };
}

export async function forks(db: StationDb): Promise<ForkRow[]> {
  return await db.forks.toArray();
}

export async function homeSummary(db: StationDb): Promise<unknown> {
  return getMeta(db, 'home');
}

export type Persistence = {
  /** Null when the browser does not say. */
  persisted: boolean | null;
  usage: number | null;
  quota: number | null;
};

type StorageLike = Partial<Pick<StorageManager, 'persisted' | 'persist' | 'estimate'>>;

/** What the browser promises about this origin's storage; `ask` also asks it to keep it. */
export async function persistence(ask: boolean, storage: StorageLike = navigatorStorage()): Promise<Persistence> {
  const quiet = async <T>(call: (() => Promise<T>) | undefined): Promise<T | null> => {
    try {
      return (await call?.call(storage)) ?? null;
    } catch {
      return null;
    }
  };
  const asked = ask ? await quiet(storage.persist) : null;
  const persisted = asked === true ? true : await quiet(storage.persisted);
  const estimate = await quiet(storage.estimate);
  return { persisted: persisted ?? asked, usage: estimate?.usage ?? null, quota: estimate?.quota ?? null };
}

function navigatorStorage(): StorageLike {
  return globalThis.navigator?.storage ?? {};
}
