// Documents by their hash, photos with their bytes first, drafts, the phone's directory and what the browser promises.
import { Dexie } from 'dexie';
import { describe, expect, it } from 'vitest';
import { createDirectory } from '../../src/store/directory.ts';
import { bytesToHash } from '../../src/store/hash.ts';
import { document, outboxSummary, persistence, thumb } from '../../src/store/queries.ts';
import { StationDb } from '../../src/store/schema.ts';
import { commandsOf, draftsOf, freshStation, look, openOrFail } from './helpers.ts';

const MiB = 1024 * 1024;

describe('documents', () => {
  it('come back byte for byte, in chunks of at most 1 MiB, and are stored once', async () => {
    const store = await openOrFail(freshStation());
    const commands = commandsOf(store);
    const bytes = Uint8Array.from({ length: 2 * MiB + 5 }, (_, n) => n % 251);
    const first = await commands.storeDocument(bytes, 'application/json');
    const second = await commands.storeDocument(bytes, 'application/json');
    const sha = await bytesToHash(bytes);
    expect(first).toEqual({ type: 'stored', sha, already: false });
    expect(second).toEqual({ type: 'stored', sha, already: true });
    const chunks = await look(store, (db) => db.documents.toArray());
    expect(chunks.map((chunk) => chunk.bytes.byteLength)).toEqual([MiB, MiB, 5]);
    const read = await document(store, sha);
    if (read.type !== 'done' || !read.value) throw new Error('not read');
    expect(await bytesToHash(read.value.bytes)).toBe(sha);
    expect(read.value.mime).toBe('application/json');
    expect(await document(store, '0'.repeat(64))).toEqual({ type: 'done', value: null });
  });

  it('may be empty', async () => {
    const store = await openOrFail(freshStation());
    const kept = await commandsOf(store).storeDocument(new Uint8Array(0), 'application/octet-stream');
    // SHA-256 of the empty message, NIST CSRC example values (also FIPS 180-4 test vectors).
    const sha = 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855';
    expect(kept).toMatchObject({ type: 'stored', sha });
    expect(await document(store, sha)).toMatchObject({ type: 'done', value: { bytes: new Uint8Array(0) } });
  });
});

describe('addPhoto', () => {
  const photo = { bytes: new Uint8Array([1, 2, 3]), mime: 'image/jpeg', width: 4, height: 3, place: 'FRAME1/P03' };

  it('stores picture, small picture and event, and queues picture and event', async () => {
    const store = await openOrFail(freshStation());
    const small = { bytes: new Uint8Array([7]).buffer, mime: 'image/jpeg' };
    const saved = await commandsOf(store).addPhoto({ ...photo, thumb: small, audit: 'a1' });
    if (saved.type !== 'saved') throw new Error(saved.type);
    expect(JSON.parse(saved.text)).toMatchObject({
      kind: 'photo',
      audit: 'a1',
      payload: { document: saved.sha, mime: 'image/jpeg', bytes: 3, width: 4, height: 3, place: 'FRAME1/P03' },
    });
    expect(await thumb(store, saved.sha)).toMatchObject({ type: 'done', value: { mime: 'image/jpeg' } });
    const keys = await look(store, (db) => db.outbox.toCollection().primaryKeys());
    expect([...keys].sort()).toEqual([`document:${saved.sha}`, `event:${saved.id}`]);
  });

  it('writes no event when the picture could not be stored, and says so', async () => {
    const store = await openOrFail(freshStation(), {
      create: (station, versions) => {
        const db = new StationDb(station, versions);
        db.use({
          stack: 'dbcore',
          name: 'full',
          level: 5,
          create: (down) => ({
            ...down,
            table: (name) => {
              const core = down.table(name);
              if (name !== 'documents') return core;
              const full = () => new Dexie.QuotaExceededError('full');
              return { ...core, mutate: () => Promise.reject(full()) };
            },
          }),
        });
        return db;
      },
    });
    expect(await commandsOf(store).addPhoto(photo)).toEqual({ type: 'picture-not-saved', why: { type: 'full' } });
    expect(await look(store, (db) => db.events.count())).toBe(0);
    expect(await look(store, (db) => db.documentHeads.count())).toBe(0);
    expect(await look(store, (db) => db.outbox.count())).toBe(0);
  });
});

describe('addVoiceNote', () => {
  const note = { bytes: new Uint8Array([1, 2]), mime: 'audio/webm', lasts: 1500, place: 'SW1/P03', audit: 'a1' };

  it('stores the sound before its event, and one voice note waits as one note', async () => {
    const store = await openOrFail(freshStation());
    const saved = await commandsOf(store).addVoiceNote(note);
    if (saved.type !== 'saved') throw new Error(saved.type);
    expect(JSON.parse(saved.text)).toMatchObject({
      kind: 'voice-note',
      audit: 'a1',
      payload: { document: saved.sha, mime: 'audio/webm', bytes: 2, lasts: 1500, place: 'SW1/P03' },
    });
    expect(await document(store, saved.sha)).toMatchObject({ value: { bytes: note.bytes, mime: 'audio/webm' } });
    expect(await look(store, outboxSummary)).toMatchObject({ notes: 1, other: 0, photos: 0 });
  });
});

describe('drafts', () => {
  it('survive a restart and go when they are dropped', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    await draftsOf(store).save('walk', { place: 'P03', awaiting: 'photo' }, 1);
    await draftsOf(store).save('other', 1, 1);
    store.close();
    const again = await openOrFail(station);
    expect((await look(again, (db) => db.drafts.get('walk')))?.value).toEqual({ place: 'P03', awaiting: 'photo' });
    await draftsOf(again).drop('walk');
    expect(await look(again, (db) => db.drafts.toCollection().primaryKeys())).toEqual(['other']);
  });
});

describe('the directory', () => {
  it('lists stations, last opened first, and keeps the settings of the phone', async () => {
    const directory = createDirectory();
    await directory.openedStation({ id: 'a', name: 'Harbour', openedAt: 1 });
    await directory.openedStation({ id: 'b', name: 'Hill', openedAt: 2 });
    await directory.openedStation({ id: 'a', name: 'Harbour FM', openedAt: 3 });
    await directory.saveSetting('author', 'Mara Field');
    await directory.saveSetting('hand', 'left');
    directory.close();
    const again = createDirectory();
    expect(await again.stations()).toEqual({
      type: 'done',
      value: [
        { id: 'a', name: 'Harbour FM', openedAt: 3 },
        { id: 'b', name: 'Hill', openedAt: 2 },
      ],
    });
    expect(await again.settings()).toEqual({ type: 'done', value: { author: 'Mara Field', hand: 'left' } });
  });
});

describe('persistence', () => {
  it('copes with browsers that say nothing, or refuse to say', async () => {
    expect(await persistence(true, {})).toEqual({ persisted: null, usage: null, quota: null });
    const refusing = { persisted: () => Promise.reject(new Error('no')), persist: async () => false };
    expect(await persistence(true, refusing)).toEqual({ persisted: false, usage: null, quota: null });
    const full = { persist: async () => true, estimate: async () => ({ usage: 5, quota: 10 }) };
    expect(await persistence(true, full)).toEqual({ persisted: true, usage: 5, quota: 10 });
  });
});
