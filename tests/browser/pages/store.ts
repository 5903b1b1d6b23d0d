// A page with a store and nothing else: what store.test.ts reaches from outside. No logic of its own.
import { type Commands, createCommands } from '../../../src/store/commands.ts';
import { openStation, type StationStore } from '../../../src/store/database.ts';
import { createDrafts } from '../../../src/store/drafts.ts';
import { readEvents } from '../../../src/store/queries.ts';
import type { PreparedPhoto } from '../../../src/wire/photo.ts';
import { preparePhoto } from '../../../src/workers/photoPrepare.ts';

type StorePage = {
  record: (text: string) => ReturnType<Commands['record']>;
  recordMany: (texts: string[]) => Promise<string[]>;
  texts: () => Promise<string[]>;
  /** Texts heard from elsewhere so far. */
  heard: string[];
  unsaved: () => number;
  retry: () => Promise<boolean>;
  outboxKeys: () => Promise<string[]>;
  saveDraft: (value: string) => Promise<void>;
  draft: () => Promise<unknown>;
  addPhoto: (bytes: number) => Promise<string>;
  closeBelow: () => Promise<void>;
  preparePhoto: (base64: string) => Promise<Omit<PreparedPhoto, 'bytes' | 'thumb'> & { base64: string; thumb: string }>;
  failure: (base64: string) => Promise<string>;
  fullColourJpeg: (width: number, height: number) => Promise<string>;
};

const toBytes = (base64: string) => Uint8Array.from(atob(base64), (char) => char.charCodeAt(0));
const toBase64 = (bytes: Uint8Array) => btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));

async function open(): Promise<StationStore> {
  const opened = await openStation({ station: new URLSearchParams(location.search).get('station') ?? 'none' });
  if (opened.type !== 'done') throw new Error(opened.type);
  return opened.value;
}

async function start(): Promise<StorePage> {
  const store = await open();
  const commands = createCommands({
    store,
    author: () => 'Mara Field',
    now: () => Date.now(),
    zone: (at) => -new Date(at).getTimezoneOffset(),
    newId: () => crypto.randomUUID(),
  });
  const drafts = createDrafts(
    store,
    () => Date.now(),
    () => crypto.randomUUID(),
  );
  const heard: string[] = [];
  commands.onElsewhere((texts) => heard.push(...texts));
  const look = async <T>(query: Parameters<typeof store.run<T>>[0]): Promise<T> => {
    const ran = await store.run(query);
    if (ran.type !== 'done') throw new Error(ran.type);
    return ran.value;
  };
  const record = (text: string) => commands.record('note', { text });
  return {
    record,
    recordMany: async (texts) => {
      const types: string[] = [];
      for (const text of texts) types.push((await record(text)).type);
      return types;
    },
    texts: async () => {
      const all: string[] = [];
      for await (const read of readEvents(store)) {
        if (read.type !== 'texts') throw new Error(read.type);
        all.push(...read.texts);
      }
      return all;
    },
    heard,
    unsaved: () => commands.unsavedCount.current(),
    retry: commands.retry,
    outboxKeys: async () => (await look((db) => db.outbox.toCollection().primaryKeys())).map(String),
    saveDraft: async (value) => void (await drafts.save('walk', value, 1)),
    draft: async () => (await look((db) => db.drafts.get('walk')))?.value,
    addPhoto: async (size) => {
      // Noise, since the browser may store what repeats in less room.
      const bytes = new Uint8Array(size);
      for (let at = 0; at < size; at += 65_536) crypto.getRandomValues(bytes.subarray(at, at + 65_536));
      return (await commands.addPhoto({ bytes, mime: 'image/jpeg', width: 4, height: 3 })).type;
    },
    closeBelow: () => look(async (db) => db.backendDB().close()),
    preparePhoto: async (base64) => {
      const made = await preparePhoto(new Blob([toBytes(base64)]));
      if (made.type !== 'photo') throw new Error(made.type);
      const { bytes, thumb, ...rest } = made;
      return { ...rest, base64: toBase64(bytes), thumb: toBase64(new Uint8Array(thumb.bytes)) };
    },
    failure: async (base64) => (await preparePhoto(new Blob([toBytes(base64)]))).type,
    fullColourJpeg: async (width, height) => {
      const canvas = new OffscreenCanvas(width, height);
      const context = canvas.getContext('2d');
      if (!context) throw new Error('no canvas');
      context.fillStyle = '#ff0000';
      context.fillRect(0, 0, width, height / 2);
      context.fillStyle = '#0000ff';
      context.fillRect(0, height / 2, width, height / 2);
      const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
      return toBase64(new Uint8Array(await blob.arrayBuffer()));
    },
  };
}

declare global {
  interface Window {
    storePage: Promise<StorePage>;
  }
}
window.storePage = start();
