// Everything that writes to a station's database, joined into one object for the screens. Reads belong to queries.ts;
// nothing here ever changes or removes an event.
import type { Payload } from '../core/audit/events.ts';
import { type Appender, createAppender, type RecordResult } from './appender.ts';
import type { StationStore } from './database.ts';
import { freeSpace, type StoredDocument, storeBytes, storeThumb, wantDocument } from './documents.ts';
import type { Ran, StoreFailure } from './failures.ts';
import { createLocks, type LockRunner } from './locks.ts';
import { createNews, type News } from './news.ts';
import type { Received } from './receive.ts';
import type { DocumentOrigin, DraftRow } from './schema.ts';

export type CommandsDeps = {
  store: StationStore;
  /** The name typed on this phone, asked anew for each event. */
  author: () => string;
  now: () => number;
  /** Minutes east of UTC at that time. */
  zone: (at: number) => number;
  newId: () => string;
  lock?: LockRunner;
  after?: (ms: number, call: () => void) => () => void;
};

export type Photo = {
  bytes: Uint8Array<ArrayBuffer>;
  mime: string;
  width: number;
  height: number;
  thumb?: { bytes: ArrayBuffer; mime: string };
  place?: string;
  audit?: string;
};

export type VoiceNote = {
  bytes: Uint8Array<ArrayBuffer>;
  mime: string;
  /** Milliseconds. */
  lasts: number;
  place?: string;
  audit?: string;
};

export type PhotoResult =
  | { type: 'saved'; sha: string; id: string; text: string }
  /** Picture or sound could not be stored, so no event says that there is one. */
  | { type: 'picture-not-saved'; why: StoreFailure }
  /** The picture is stored; its event waits in memory. */
  | { type: 'not-saved'; sha: string; id: string; text: string; why: StoreFailure }
  | { type: 'too-long'; characters: number; limit: number };

export type Commands = Appender & {
  /** Texts that reached the database by another way than `record` on this page: another tab, a pull, a bundle. */
  onElsewhere: News['onElsewhere'];
  /** After a resume: whatever other tabs wrote while this page was asleep. */
  catchUp: () => Promise<void>;
  addPhoto: (photo: Photo) => Promise<PhotoResult>;
  addVoiceNote: (note: VoiceNote) => Promise<PhotoResult>;
  /** A plan revision or a signed report, named by its hash. */
  storeDocument: (bytes: Uint8Array<ArrayBuffer>, mime: string, origin?: DocumentOrigin) => Promise<StoredDocument>;
  /** Asks for a document that is not here to be fetched at the next exchange. */
  wantDocument: (sha: string) => Promise<Ran<void>>;
  receive: (texts: readonly string[], origin: 'pulled' | 'bundle', cursor?: string) => Promise<Ran<Received>>;
  saveDraft: (key: string, value: unknown) => Promise<Ran<void>>;
  dropDraft: (key: string) => Promise<Ran<void>>;
  /** What the home screen shows before the fold is there. */
  saveHome: (summary: unknown) => Promise<Ran<void>>;
  freeSpace: () => Promise<boolean>;
  close: () => void;
};

export function createCommands(deps: CommandsDeps): Commands {
  const { store, now } = deps;
  const news = createNews(store);
  const appender = createAppender({
    store,
    author: deps.author,
    now,
    zone: deps.zone,
    newId: deps.newId,
    lock: deps.lock ?? createLocks(),
    after: deps.after ?? later,
    freeSpace: () => freeSpace(store),
    stored: news.wroteOwn,
    restored: news.restored,
  });
  const stopFlush = store.beforeClose(async () => void (await appender.retry()));

  async function addPhoto({ bytes, mime, width, height, thumb, place, audit }: Photo): Promise<PhotoResult> {
    const kept = await storeBytes(store, bytes, mime, 'own', now());
    if (kept.type !== 'stored') return { type: 'picture-not-saved', why: kept };
    const { sha } = kept;
    // A missing small picture costs nothing: it can be drawn again.
    if (thumb) await storeThumb(store, { sha, ...thumb });
    const payload: Payload<'photo'> = { document: sha, mime, bytes: bytes.length, width, height };
    return recordOf(sha, 'photo', place === undefined ? payload : { ...payload, place }, audit);
  }

  async function addVoiceNote({ bytes, mime, lasts, place, audit }: VoiceNote): Promise<PhotoResult> {
    const kept = await storeBytes(store, bytes, mime, 'own', now());
    if (kept.type !== 'stored') return { type: 'picture-not-saved', why: kept };
    const payload: Payload<'voice-note'> = { document: kept.sha, mime, bytes: bytes.length, lasts };
    return recordOf(kept.sha, 'voice-note', place === undefined ? payload : { ...payload, place }, audit);
  }

  /** The event that names a document which is stored already. */
  async function recordOf<K extends 'photo' | 'voice-note'>(
    sha: string,
    kind: K,
    payload: Payload<K>,
    audit: string | undefined,
  ): Promise<PhotoResult> {
    const result: RecordResult = await appender.record(kind, payload, audit === undefined ? {} : { audit });
    return result.type === 'too-long' ? result : { ...result, sha };
  }

  async function receive(texts: readonly string[], origin: 'pulled' | 'bundle', cursor?: string) {
    // Only what comes from elsewhere needs the schemas; the first screen does without.
    const { receiveTexts } = await import('./receive.ts');
    const took = await receiveTexts(store, texts, origin, cursor ?? null, now());
    if (took.type === 'done' && took.value.last !== null) await news.wroteOthers();
    return took;
  }

  return {
    ...appender,
    onElsewhere: news.onElsewhere,
    catchUp: news.catchUp,
    addPhoto,
    addVoiceNote,
    storeDocument: (bytes, mime, origin = 'own') => storeBytes(store, bytes, mime, origin, now()),
    wantDocument: (sha) => wantDocument(store, sha, now()),
    receive,
    saveDraft: (key, value) => {
      const row: DraftRow = { key, value, at: now() };
      return store.run((db) => db.transaction('rw', db.drafts, async () => void (await db.drafts.put(row))));
    },
    dropDraft: (key) => store.run((db) => db.transaction('rw', db.drafts, () => db.drafts.delete(key))),
    saveHome: (value) =>
      store.run((db) => db.transaction('rw', db.meta, async () => void (await db.meta.put({ key: 'home', value })))),
    freeSpace: () => freeSpace(store),
    close: () => {
      stopFlush();
      news.close();
    },
  };
}

function later(ms: number, call: () => void): () => void {
  const timer = setTimeout(call, ms);
  return () => clearTimeout(timer);
}
