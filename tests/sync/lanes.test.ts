// Three lanes side by side: nothing small waits for something large, receiving never waits for sending, large documents
// go on where they broke off, news is asked for at once, and the phone's clock is measured.
import { setImmediate as nextRound } from 'node:timers/promises';
import { describe, expect, test, vi } from 'vitest';
import type { SyncDetails, TransportAnswer, TransportRequest } from '../../src/sync/ports.ts';
import type { SyncParts } from '../../src/sync/sync.ts';
import { DOCUMENT_CHUNK_BYTES } from '../../src/wire/limits.ts';
import { eventText } from '../server/help.ts';
import { appTransport, type Fate, madeUp, nudged, restOf, startSync } from './memoryPhone.ts';
import { db, paired, server, storedIds, useServer } from './pairedPhone.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
useServer();

/** A promise that is never kept ends the test by its limit. */
async function until(what: () => boolean | Promise<boolean>): Promise<void> {
  while (!(await what())) await nextRound();
}

const photo = (n: number) => new Uint8Array([0xff, 0xd8, 0xff, n]);
const storedDocuments = async () =>
  (await db.query.selectFrom('documents').select('sha').where('complete', '=', 1).execute()).map((row) => row.sha);

/** A phone that is paired already, with an exchange of its own making. */
async function phoneWith(more: Partial<SyncParts>, fate?: (request: TransportRequest) => Fate) {
  const { phone, sync } = await paired();
  sync.stop();
  return { phone, sync: startSync(phone, appTransport(server.app, fate), sync.clock, more) };
}

describe('slow uploads', () => {
  /** Uploads hang until they are let go, all else goes through. */
  async function slowPhotos() {
    const { phone, sync } = await paired();
    sync.stop();
    const good = appTransport(server.app);
    const hanging: (() => void)[] = [];
    const transport = {
      cancel: () => undefined,
      send: async (request: TransportRequest): Promise<TransportAnswer> => {
        if (request.method === 'PUT') await new Promise<void>((go) => hanging.push(go));
        return await good.send(request);
      },
    };
    return { phone, sync: startSync(phone, transport, sync.clock), hanging };
  }

  test('hold back neither an entry recorded meanwhile nor what others sent', async () => {
    const { phone, sync, hanging } = await slowPhotos();
    for (let n = 0; n < 10; n += 1) phone.addDocument(photo(n), 'image/jpeg');
    sync.nudge('start');
    await until(() => hanging.length === 1);
    const other = await paired();
    other.phone.record('theirs', eventText('theirs'));
    expect((await nudged(other.sync)).type).toBe('idle');
    phone.record('mine', eventText('mine'));
    sync.nudge('record');
    await until(async () => (await storedIds()).length === 2);
    expect(await storedIds()).toEqual(['theirs', 'mine']);
    await until(() => phone.events.has('theirs'));
    expect(phone.waitingDocuments.size).toBe(10);
    expect(sync.details().lanes.up).toMatchObject({ type: 'busy', progress: { phase: 'documents', left: 10 } });
    sync.stop();
  });

  test('a plan that is wanted comes while photos go', async () => {
    const first = await paired();
    const plan = first.phone.addDocument(new TextEncoder().encode('{"a":1}'), 'application/json');
    await nudged(first.sync);
    const { phone, sync, hanging } = await slowPhotos();
    phone.addDocument(photo(1), 'image/jpeg');
    phone.want(plan);
    sync.nudge('start');
    await until(() => phone.documents.has(plan));
    expect(hanging).toHaveLength(1);
    expect(phone.waitingDocuments.size).toBe(1);
    sync.stop();
  });

  test('entries wait by themselves while a photo is on its way, and the details say which', async () => {
    const { phone, sync } = await paired((request) =>
      request.path.startsWith('/api/events') ? 'lose-request' : 'carry',
    );
    phone.record('a', eventText('a'));
    const name = phone.addDocument(photo(1), 'image/jpeg');
    expect(await nudged(sync)).toMatchObject({ type: 'waiting', why: 'no-answer' });
    expect(await storedDocuments()).toEqual([name]);
    expect(sync.details().lanes).toMatchObject({ entries: { type: 'waiting' }, up: { type: 'idle' } });
  });
});

describe('a large document', () => {
  const large = () => Uint8Array.from({ length: 3 * DOCUMENT_CHUNK_BYTES + 5 }, (_, n) => (n * 7) % 251);

  test('goes up in parts and goes on where it broke off', async () => {
    const sent: string[] = [];
    let broken = true;
    const { phone, sync } = await paired((request) => {
      if (request.method !== 'PUT') return 'carry';
      const part = request.path.split('/').at(-1) ?? '';
      if (broken && part === '2') return 'lose-request';
      sent.push(part);
      return 'carry';
    });
    const name = phone.addDocument(large(), 'application/octet-stream');
    expect(await nudged(sync)).toMatchObject({ type: 'waiting', why: 'no-answer' });
    expect(sent).toEqual(['0', '1']);
    broken = false;
    const rest = restOf(sync);
    sync.clock.skip();
    expect((await rest).type).toBe('idle');
    expect(sent).toEqual(['0', '1', '2', '3']);
    expect(await storedDocuments()).toEqual([name]);
    expect(phone.waitingDocuments.size).toBe(0);
    const other = await paired();
    other.phone.want(name);
    await nudged(other.sync);
    // Its name is the hash of its bytes, which the phone has checked.
    expect([...other.phone.documents.keys()]).toEqual([name]);
  });

  test('goes whole to a server that knows no parts', async () => {
    const none = madeUp(404, '{"type":"not-found","sentence":"x"}', { 'asfound-wire': '1' });
    const { phone, sync } = await paired((request) => (request.path.includes('/parts') ? none : 'carry'));
    const name = phone.addDocument(large(), 'application/octet-stream');
    expect((await nudged(sync)).type).toBe('idle');
    expect(await storedDocuments()).toEqual([name]);
  });

  test('that breaks off each time lets the others go before it', async () => {
    let tries = 0;
    const { phone, sync } = await paired((request) => {
      if (!request.path.includes('/parts/')) return 'carry';
      tries += 1;
      return 'lose-request';
    });
    const name = phone.addDocument(large(), 'application/octet-stream');
    const small = phone.addDocument(photo(3), 'image/jpeg');
    let state = await nudged(sync);
    for (let i = 0; i < 5 && state.type === 'waiting'; i += 1) {
      const rest = restOf(sync);
      sync.clock.skip();
      state = await rest;
    }
    expect(state.type).toBe('idle');
    expect(tries).toBeGreaterThan(1);
    expect(await storedDocuments()).toEqual([small]);
    expect(phone.waitingDocuments.get(name)?.held).toMatchObject({ type: 'later', why: 'broken-off' });
  });
});

test('photos wait for a good network when a person says so, all else goes, and they go once it is there', async () => {
  let good = false;
  const { phone, sync } = await phoneWith({ mayCarryPhotos: () => good });
  const plan = phone.addDocument(new TextEncoder().encode('{"a":1}'), 'application/json');
  const picture = phone.addDocument(photo(1), 'image/jpeg');
  phone.record('a', eventText('a'));
  expect((await nudged(sync)).type).toBe('idle');
  expect(await storedDocuments()).toEqual([plan]);
  expect(await storedIds()).toEqual(['a']);
  expect(sync.details().photosHeld).toBe(true);
  good = true;
  const rest = restOf(sync);
  sync.nudge('online');
  await rest;
  expect((await storedDocuments()).sort()).toEqual([plan, picture].sort());
  expect(sync.details().photosHeld).toBe(false);
});

describe('news', () => {
  type Told = Parameters<NonNullable<SyncParts['listen']>>[1];
  async function listening(visible: boolean) {
    const heard: Told[] = [];
    const tokens: string[] = [];
    let ended = 0;
    const made = await phoneWith({
      visible: () => visible,
      listen: (token, told) => {
        tokens.push(token);
        heard.push(told);
        return () => {
          ended += 1;
        };
      },
    });
    expect((await nudged(made.sync)).type).toBe('idle');
    return { ...made, heard, tokens, ended: () => ended };
  }

  test('is pulled at once, with no word from anybody', async () => {
    const { phone, sync, heard } = await listening(true);
    heard[0]?.up(true);
    const other = await paired();
    other.phone.record('theirs', eventText('theirs'));
    await nudged(other.sync);
    heard[0]?.news();
    await until(() => phone.events.has('theirs'));
    sync.stop();
  });

  test('brings a document that was not there yet', async () => {
    const { phone, sync, heard } = await listening(true);
    const other = await paired();
    const bytes = new TextEncoder().encode('{"late":1}');
    const name = other.phone.addDocument(bytes, 'application/json');
    phone.want(name);
    expect((await nudged(sync)).type).toBe('idle');
    expect(phone.wanted.get(name)).toMatchObject({ why: 'not-there' });
    await nudged(other.sync);
    heard[0]?.news();
    await until(() => phone.documents.has(name));
    sync.stop();
  });

  test.each([
    ['while it comes by itself', true, true, 60_000],
    ['while it does not and somebody looks', true, false, 5000],
    ['while nobody looks', false, false, 60_000],
  ])('is asked for in the right beat %s', async (_name, visible, up, beat) => {
    const { sync, heard } = await listening(visible);
    heard[0]?.up(up);
    expect((await nudged(sync)).type).toBe('idle');
    expect(sync.clock.waits).toEqual([beat]);
    if (beat === 5000) {
      sync.clock.at += 600_000;
      const rest = restOf(sync);
      sync.clock.skip();
      await rest;
      expect(sync.clock.waits).toEqual([60_000]);
    }
  });

  test('is listened for with the token in force and no longer than it is', async () => {
    const { phone, sync, tokens, ended } = await listening(true);
    expect(tokens).toEqual([phone.paired?.token]);
    await nudged(sync);
    expect(tokens).toHaveLength(1);
    await db.query.updateTable('phones').set({ revoked_at: 1 }).execute();
    expect((await nudged(sync)).type).toBe('stopped');
    expect(ended()).toBe(1);
    expect(sync.details().live).toBeNull();
  });

  test('does not go on waiting for a retry when the server is heard again', async () => {
    let away = true;
    const { phone, sync } = await paired((request) =>
      away && request.path.startsWith('/api/events') ? 'lose-request' : 'carry',
    );
    phone.record('a', eventText('a'));
    expect((await nudged(sync)).type).toBe('waiting');
    away = false;
    const rest = restOf(sync);
    sync.nudge('news');
    expect((await rest).type).toBe('idle');
    expect(await storedIds()).toEqual(['a']);
  });
});

describe('the clock of the phone', () => {
  test.each([12, -12])('is measured: %i minutes ahead', async (minutes) => {
    const told: SyncDetails[] = [];
    const { phone, sync } = await phoneWith({});
    sync.clock.at = server.clock.now() + minutes * 60_000;
    sync.subscribe((_, details) => told.push(details));
    expect((await nudged(sync)).type).toBe('idle');
    expect(phone.clockAhead).toBe(minutes * 60_000);
    expect(told.at(-1)?.clockAhead).toBe(minutes * 60_000);
  });

  test('is taken at the middle of the way there and back, and not from an answer that took long', async () => {
    const { phone, sync } = await phoneWith({}, (request) => {
      if (request.method !== 'GET') return 'carry';
      const now = clock.at;
      clock.at += 4000;
      const answer = { events: [], next: phone.at, more: false, now: now + 2000, history: phone.known.history };
      return madeUp(200, JSON.stringify(answer), { 'asfound-wire': '1' });
    });
    const { clock } = sync;
    expect((await nudged(sync)).type).toBe('idle');
    expect(phone.clockAhead).toBe(0);
  });
});
