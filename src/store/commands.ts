// Everything that writes to a station's database, joined into one object for the screens. Reads belong to queries.ts;
// nothing here ever changes or removes an event.

import type { StationStore } from './database.ts';
import type { StoredDocument } from './documents.ts';
import type { StoreResult } from './failures.ts';
import { createLocks, type LockRunner } from './locks.ts';
import type { MediaResult, Photo, VoiceNote } from './media.ts';
import { createNews, type News } from './news.ts';
import { createWatched, type Watched } from './observe.ts';
import { type Appender, createAppender } from './record/appender.ts';
import type { Copies, SecondPlace } from './record/copies.ts';
import type { Received } from './record/receive.ts';
import type { UnsavedTaken } from './record/unsaved.ts';
import type { DocumentOrigin } from './schema.ts';

type CommandsDeps = {
  store: StationStore;
  /** The name typed on this phone, asked anew for each event. */
  author: () => string;
  now: () => number;
  /** Minutes east of UTC at that time. */
  zone: (at: number) => number;
  newId: () => string;
  lock?: LockRunner;
  after?: (ms: number, call: () => void) => () => void;
  copies?: Copies;
};

export type Commands = Appender & {
  /** Texts that reached the database by another way than `record` on this page: another tab, a pull, a bundle. */
  onElsewhere: News['onElsewhere'];
  /** After a resume: whatever other tabs wrote while this page was asleep. */
  catchUp: () => Promise<void>;
  addPhoto: (photo: Photo) => Promise<MediaResult>;
  addVoiceNote: (note: VoiceNote) => Promise<MediaResult>;
  /** A plan revision or a signed report, named by its hash. @param known The hash, where a worker has it. */
  storeDocument: (
    bytes: Uint8Array<ArrayBuffer>,
    mime: string,
    origin?: DocumentOrigin,
    known?: string,
  ) => Promise<StoredDocument>;
  /** Asks for a document that is not here to be fetched at the next exchange. */
  wantDocument: (sha: string) => Promise<StoreResult<void>>;
  receive: (texts: readonly string[], origin: 'pulled' | 'bundle', cursor?: string) => Promise<StoreResult<Received>>;
  /** What an earlier page could not write, given a place in this phone's log (unsaved.ts says what it promises). */
  takeUnsaved: (texts: readonly string[]) => Promise<StoreResult<UnsavedTaken>>;
  /** Whether everything that is not on disk has a copy in a second place, which the next start takes back. */
  copied: Watched<boolean>;
  /** Takes what earlier pages left in the second place; a copy goes when its entries are on disk. */
  takeCopies: () => Promise<void>;
  /** What the home screen shows before the fold is there. */
  saveHome: (summary: unknown) => Promise<StoreResult<void>>;
  freeSpace: () => Promise<boolean>;
  close: () => void;
};

export function createCommands(deps: CommandsDeps): Commands {
  const { store, now } = deps;
  const news = createNews(store);
  // Neither documents nor pictures nor sound are wanted before the first screen stands.
  const documents = () => import('./documents.ts');
  const media = () => import('./media.ts');
  const freeSpace = async () => (await documents()).freeSpace(store);
  const appender = createAppender({
    store,
    author: deps.author,
    now,
    zone: deps.zone,
    newId: deps.newId,
    lock: deps.lock ?? createLocks(),
    after: deps.after ?? later,
    freeSpace,
    stored: news.wroteOwn,
    restored: news.restored,
  });
  const stopFlush = store.beforeClose(async () => void (await appender.retry()));

  const storeDocument: Commands['storeDocument'] = async (bytes, mime, origin = 'own', known) =>
    (await documents()).storeBytes(store, bytes, mime, origin, now(), known);
  const mediaParts = { store, record: appender.record, storeDocument };

  async function receive(texts: readonly string[], origin: 'pulled' | 'bundle', cursor?: string) {
    // Only what comes from elsewhere needs the schemas; the first screen does without.
    const { receiveTexts } = await import('./record/receive.ts');
    const took = await receiveTexts(store, texts, origin, cursor ?? null, now());
    if (took.type === 'done' && took.value.last !== null) await news.wroteOthers();
    return took;
  }

  async function takeUnsaved(texts: readonly string[]) {
    const { takeUnsaved: take } = await import('./record/unsaved.ts');
    return take(store, { append }, texts);
  }

  const copied = createWatched(false);
  let loading: Promise<SecondPlace> | null = null;
  // Most pages never need it, and the first screen does without.
  const secondPlace = (): Promise<SecondPlace> => {
    loading ??= import('./record/copies.ts').then(
      ({ browserCopies, createSecondPlace }) =>
        createSecondPlace({
          copies: deps.copies ?? browserCopies(store.station, deps.newId()),
          unsaved: () => (appender.unsavedCount.current() > 0 ? appender.unsaved() : []),
          copied: copied.set,
          takeUnsaved,
        }),
      (error) => {
        loading = null;
        throw error;
      },
    );
    return loading;
  };
  const stopCopies = appender.unsavedCount.subscribe((count) => {
    // Without the second place there is no copy, and `copied` says so.
    if (count > 0 || loading) secondPlace().then((place) => place.follow(), console.error);
  });

  /** The folds follow, as they do for what other pages wrote. */
  const append: Appender['append'] = async (entries) => {
    const results = await appender.append(entries);
    const texts = results.flatMap((result) => (result.type === 'too-long' ? [] : [result.text]));
    if (texts.length > 0) news.restored(texts);
    return results;
  };

  return {
    ...appender,
    append,
    onElsewhere: news.onElsewhere,
    catchUp: news.catchUp,
    addPhoto: async (photo) => (await media()).addPhoto(mediaParts, photo),
    addVoiceNote: async (note) => (await media()).addVoiceNote(mediaParts, note),
    storeDocument,
    wantDocument: async (sha) => (await documents()).wantDocument(store, sha, now()),
    receive,
    takeUnsaved,
    copied,
    takeCopies: async () => (await secondPlace()).takeBack(),
    saveHome: (value) =>
      store.run((db) => db.transaction('rw', db.meta, async () => void (await db.meta.put({ key: 'home', value })))),
    freeSpace,
    close: () => {
      stopFlush();
      stopCopies();
      news.close();
    },
  };
}

function later(ms: number, call: () => void): () => void {
  const timer = setTimeout(call, ms);
  return () => clearTimeout(timer);
}
