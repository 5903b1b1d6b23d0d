// Nothing that an earlier build left behind is lost to this one: its databases, its bundle, its phone's store, its
// requests. The files stand in tests/fixtures/earlier/.
import { createHash } from 'node:crypto';
import { rmSync } from 'node:fs';
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { readBundle } from '../../src/files/bundle.ts';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { textToHash } from '../../src/server/hash.ts';
import { makeCode, tokenToPhone } from '../../src/server/phones/pairing.ts';
import { appTransport, nudged } from '../sync/memoryPhone.ts';
import { newDisk, openStorePhone } from '../sync/storePhone.ts';
import {
  about,
  type EarlierRequest,
  type EarlierServer,
  earlierBundle,
  earlierPhone,
  earlierPostgres,
  earlierRequests,
  earlierSqlite,
} from './earlierFixtures.ts';
import { eventText, sha, testServer } from './help.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let postgres: TestPostgres;
beforeAll(async () => {
  postgres = await startPostgres();
});
afterAll(async () => await postgres?.stop());

const open: Database[] = [];
const folders: string[] = [];
afterEach(async () => {
  for (const db of open.splice(0)) await db.close();
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
});

async function opened(address: DatabaseAddress): Promise<Database> {
  const db = await openDatabase(address);
  open.push(db);
  return db;
}

async function sqlite(): Promise<Database> {
  const { folder, file } = earlierSqlite();
  folders.push(folder);
  return await opened({ type: 'sqlite', file });
}

async function postgresql(): Promise<Database> {
  const url = await postgres.fresh();
  await earlierPostgres(url);
  return await opened({ type: 'postgresql', url });
}

const databases: [string, () => Promise<Database>, EarlierServer][] = [
  ['SQLite', sqlite, about.sqlite],
  ['PostgreSQL', postgresql, about.postgresql],
];

describe.each(databases)("an earlier server's database on %s", (_, database, was) => {
  test('holds every text and document as it was', async () => {
    const db = await database();
    const events = await db.query.selectFrom('events').selectAll().orderBy('number').execute();
    expect(events.map((row) => row.text)).toEqual(about.events);
    expect(events.map((row) => row.hash)).toEqual(about.events.map(textToHash));
    expect(events.map((row) => row.number)).toEqual(about.events.map((_text, i) => i + 1));
    const heads = await db.query.selectFrom('documents').selectAll().execute();
    expect(Object.fromEntries(heads.map((row) => [row.sha, row.bytes]))).toEqual(about.documents);
    for (const head of heads) {
      const chunks = await db.query
        .selectFrom('chunks')
        .select('bytes')
        .where('sha', '=', head.sha)
        .orderBy('n')
        .execute();
      const hash = createHash('sha256');
      for (const chunk of chunks) hash.update(chunk.bytes);
      expect(hash.digest('hex')).toBe(head.sha);
    }
    const aside = await db.query.selectFrom('set_aside').select(['text', 'why']).execute();
    expect(aside).toEqual([{ text: expect.stringContaining('Ternbunk'), why: 'same-id-other-text' }]);
  });

  test('still knows its phones and its code, and the first phone may remove the other', async () => {
    const db = await database();
    const { a, b } = was.tokens;
    const phones = [await tokenToPhone(db, a, 0), await tokenToPhone(db, b, 0)];
    expect(phones).toMatchObject([
      { type: 'phone', id: was.phones.a, station: about.station },
      { type: 'phone', id: was.phones.b, station: about.station },
    ]);
    const roles = await db.query.selectFrom('phones').select(['id', 'keeper', 'invited_by']).execute();
    expect(new Set(roles)).toEqual(
      new Set([
        { id: was.phones.a, keeper: 1, invited_by: null },
        { id: was.phones.b, keeper: 0, invited_by: null },
      ]),
    );
    const code = await db.query.selectFrom('codes').selectAll().where('hash', '=', textToHash(was.code)).execute();
    expect(code).toMatchObject([{ station: about.station.id, used_at: null, made_by: null }]);
    expect(await db.query.selectFrom('stations').select(['id', 'name', 'history']).execute()).toEqual([
      { ...about.station, history: was.history },
    ]);
  });

  test('goes on: a phone of then pulls everything and sends more', async () => {
    const db = await database();
    const server = testServer(db);
    const pulled = await server.ask('GET', '/api/events?after=0&limit=500', { token: was.tokens.b });
    const { events } = (await pulled.json()) as { events: { text: string }[] };
    expect(events.map((event) => event.text)).toEqual(about.events);
    const text = eventText('e-new', { station: about.station.id, log: 'log-new', seq: 0 });
    const pushed = await server.ask('POST', '/api/events', { token: was.tokens.a, json: { texts: [text] } });
    expect(await pushed.json()).toMatchObject({ answers: [{ type: 'stored', number: about.events.length + 1 }] });
    expect(server.failures).toEqual([]);
  });
});

const hash = async (bytes: Uint8Array) => sha(bytes);

test("an earlier phone's bundle is read whole", async () => {
  const read = await readBundle(earlierBundle(), hash);
  if (read.type !== 'bundle') throw new Error(read.type);
  expect(read.damage).toEqual([]);
  expect(read.content.station).toBe(about.station.id);
  expect(read.content.events).toHaveLength(about.events.length + 3);
  expect(new Set(read.content.events)).toEqual(new Set([...about.events, ...read.content.events.slice(-3)]));
  expect(read.content.documents.has(about.unsentDocument)).toBe(true);
  expect(read.content.documents.size).toBe(3);
});

describe("an earlier phone's store", () => {
  test('opens with every row as it was', async () => {
    const disk = newDisk();
    const tables = await earlierPhone(disk);
    const phone = await openStorePhone({ disk, station: about.station, name: 'c', transport: nowhere });
    for (const [name, rows] of Object.entries(tables)) {
      const ran = await phone.store.run((db) => db.table(name).toArray());
      if (ran.type !== 'done') throw new Error(ran.type);
      expect({ name, rows: ran.value }).toMatchObject({ name, rows });
    }
    expect((await phone.pairing.credentials())?.token).toBe(about.sqlite.tokens.b);
    expect(await phone.outbox.count()).toMatchObject({ events: 3, documents: 1 });
    phone.close();
  });

  test('goes on with its earlier server: what was unsent arrives, and the log goes on without a gap', async () => {
    const db = await sqlite();
    const server = testServer(db);
    const disk = newDisk();
    await earlierPhone(disk);
    const transport = appTransport(server.app);
    const phone = await openStorePhone({ disk, station: about.station, name: 'c', transport });
    const before = await phone.texts();
    const more = await phone.record('note', { text: 'written by the present build' });
    expect((await nudged(phone.sync)).type).toBe('idle');
    expect(await phone.outbox.count()).toMatchObject({ events: 0, documents: 0, refused: 0 });
    expect([...(await phone.texts()).keys()].sort()).toEqual([...before.keys(), more.id].sort());
    for (const [id, text] of before) expect((await phone.texts()).get(id)).toBe(text);
    const held = await db.query.selectFrom('events').select(['id', 'text']).execute();
    expect(new Map(held.map((row) => [row.id, row.text]))).toEqual(await phone.texts());
    const documents = await db.query.selectFrom('documents').select('sha').where('complete', '=', 1).execute();
    expect(documents.map((row) => row.sha).sort()).toEqual(
      [...Object.keys(about.documents), about.unsentDocument].sort(),
    );
    const { seq, prev } = JSON.parse(more.text) as { seq: number; prev: string };
    const last = [...before.values()]
      .map((text) => JSON.parse(text) as { id: string; seq: number })
      .filter((e) => e.id.startsWith('b-'));
    const top = last.reduce((a, b) => (b.seq > a.seq ? b : a));
    expect({ seq, prev }).toEqual({ seq: top.seq + 1, prev: textToHash(before.get(top.id) ?? '') });
    expect(phone.failures).toEqual([]);
    phone.close();
  });
});

const nowhere = {
  cancel: () => undefined,
  send: async () => ({ type: 'nothing', why: 'unreachable' }) as const,
};

/** What differs from run to run; everything else of an old answer has to be found in the new one. */
const OF_ITS_TIME = new Set([
  'token',
  'phoneId',
  'history',
  'code',
  'expiresAt',
  'pairedAt',
  'seenAt',
  'number',
  'next',
  'sentence',
]);

function lasting(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(lasting);
  if (typeof value !== 'object' || value === null) return value;
  const kept = Object.entries(value).filter(([key]) => !OF_ITS_TIME.has(key));
  // Ids of phones are made by the server as well.
  return Object.fromEntries(
    kept.map(([key, one]) => [key, key === 'id' && String(one).startsWith('p-') ? expect.any(String) : lasting(one)]),
  );
}

test('requests of wire version 1, as an earlier phone sent them, are answered as they were', async () => {
  const db = await opened({ type: 'sqlite', file: ':memory:' });
  const server = testServer(db);
  /** From what the old server gave out to what this one does: tokens, codes, cursors. */
  const given = new Map<string, string>();
  const present = (text: string) => [...given].reduce((all, [old, now]) => all.replaceAll(old, now), text);
  const learn = (old: unknown, now: unknown) => {
    for (const key of ['token', 'code', 'next']) {
      const [was, is] = [old, now].map((one) =>
        typeof one === 'object' && one && key in one ? Reflect.get(one, key) : null,
      );
      if (typeof was === 'string' && typeof is === 'string' && was !== '0') given.set(was, is);
    }
  };
  const requests = earlierRequests();
  expect(requests.length).toBeGreaterThan(20);
  const first = JSON.parse(requests.find((one) => one.path === '/api/pair')?.body ?? '') as { code: string };
  given.set(first.code, (await makeCode(db, server.random, server.clock.now(), null)).code);
  const send = async ({ method, path, headers, body, bodyBase64 }: EarlierRequest) => {
    const sent = body === null ? (bodyBase64 === null ? undefined : Buffer.from(bodyBase64, 'base64')) : present(body);
    const of = Object.fromEntries(Object.entries(headers).map(([name, value]) => [name, present(value)]));
    return await server.app.request(present(path), {
      method,
      headers: of,
      ...(sent === undefined ? {} : { body: sent }),
    });
  };
  for (const request of requests) {
    const answer = await send(request);
    const what = `${request.method} ${request.path}`;
    expect([what, answer.status]).toEqual([what, request.status]);
    expect(answer.headers.get('asfound-wire')).toBe('1');
    if (request.answerBase64 !== null) {
      expect(Buffer.from(await answer.arrayBuffer()).toString('base64')).toBe(request.answerBase64);
    } else if (request.answer.startsWith('{')) {
      const [old, now] = [JSON.parse(request.answer), (await answer.json()) as unknown];
      expect(now).toMatchObject(lasting(old) as object);
      learn(old, now);
    }
  }
  expect(server.failures).toEqual([]);
});
