// That no request reads more than it answers with, and that none keeps the others waiting. Counted, not timed.
import { setImmediate as nextRound } from 'node:timers/promises';
import type { KyselyPlugin } from 'kysely';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { pause } from '../../src/server/turns.ts';
import { DOCUMENT_CHUNK_BYTES } from '../../src/wire/limits.ts';
import { MAX_PULL_BYTES, pullAnswerSchema, WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText, pairedPhone, STATION, sha, type TestServer, testServer } from './help.ts';

let db: Database;
let server: TestServer;
let token: string;
/** Characters of texts and bytes of chunks that came out of the database. */
let readOut = 0;
const counting: KyselyPlugin = {
  transformQuery: ({ node }) => node,
  transformResult: async ({ result }) => {
    for (const row of result.rows) {
      if (typeof row.text === 'string') readOut += row.text.length;
      if (row.bytes instanceof Uint8Array) readOut += row.bytes.byteLength;
    }
    return result;
  },
};
beforeAll(async () => {
  const opened = await openDatabase({ type: 'sqlite', file: ':memory:' });
  db = { ...opened, query: opened.query.withPlugin(counting) };
  server = testServer(db);
  token = await pairedPhone(db, server);
});
afterAll(async () => await db.close());

test('a pull reads what it sends and no more, however large the events are', async () => {
  for (let batch = 0; batch < 5; batch += 1) {
    const texts = Array.from({ length: 20 }, (_, i) =>
      eventText(`e${batch}x${i}`, { payload: { text: 'é'.repeat(30_000) } }),
    );
    expect((await server.ask('POST', '/api/events', { token, json: { texts } })).status).toBe(200);
  }
  let seen = 0;
  for (let after = '0', more = true; more; ) {
    readOut = 0;
    const answer = await server.ask('GET', `/api/events?after=${after}`, { token });
    const pulled = z.parse(pullAnswerSchema, await answer.json());
    const sent = pulled.events.reduce((sum, { text }) => sum + text.length, 0);
    expect(readOut).toBe(sent);
    expect(Buffer.byteLength(pulled.events.map(({ text }) => text).join(''))).toBeLessThanOrEqual(MAX_PULL_BYTES);
    seen += pulled.events.length;
    ({ next: after, more } = pulled);
  }
  expect(seen).toBe(100);
});

test('of all who wait for a turn, one goes on per round', async () => {
  let gone = 0;
  const goOn = async () => {
    await pause();
    gone += 1;
  };
  const all = Promise.all(Array.from({ length: 5 }, goOn));
  const perRound: number[] = [];
  while (gone < 5) {
    const before = gone;
    await nextRound();
    perRound.push(gone - before);
  }
  await all;
  expect(Math.max(...perRound)).toBe(1);
});

test('of all who wait behind a transaction, one goes on per round', async () => {
  let open = true;
  let gone = 0;
  const holding = db.query.transaction().execute(async (tx) => {
    await tx.selectFrom('stations').select('id').execute();
    while (open) await nextRound();
  });
  await nextRound();
  const waiting = Array.from({ length: 5 }, async () => {
    await db.query.selectFrom('stations').select('id').execute();
    gone += 1;
  });
  await nextRound();
  expect(gone).toBe(0);
  open = false;
  const perRound: number[] = [];
  while (gone < 5) {
    const before = gone;
    await nextRound();
    perRound.push(gone - before);
  }
  await Promise.all([holding, ...waiting]);
  expect(Math.max(...perRound)).toBe(1);
});

describe('while others send or receive much', () => {
  const large = (seed: number) => new Uint8Array(8 * DOCUMENT_CHUNK_BYTES).map((_, i) => (i * seed) % 251);
  const documents = [large(3), large(5), large(7)];
  const path = (bytes: Uint8Array) => `/api/documents/${sha(bytes)}`;

  /** Rounds of the event loop that go by during the work: each is a moment in which a socket would be served. */
  async function roundsDuring(work: Promise<unknown>): Promise<number> {
    let on = true;
    let rounds = 0;
    const counted = (async () => {
      while (on) {
        await nextRound();
        rounds += 1;
      }
    })();
    await work.finally(() => {
      on = false;
    });
    await counted;
    return rounds;
  }
  const put = async (bytes: Uint8Array<ArrayBuffer>) =>
    await server.ask('PUT', path(bytes), {
      token,
      body: bytes,
      headers: { 'content-type': 'application/octet-stream' },
    });

  test('documents go in and out piece by piece', async () => {
    const statuses: number[] = [];
    const sent = roundsDuring(
      (async () => {
        for (const bytes of documents) statuses.push((await put(bytes)).status);
      })(),
    );
    // Each chunk is a piece of work of its own.
    expect(await sent).toBeGreaterThanOrEqual(24);
    expect(statuses).toEqual([201, 201, 201]);
    const hashes: string[] = [];
    const got = roundsDuring(
      Promise.all(
        documents.map(async (bytes) => {
          const answer = await server.ask('GET', path(bytes), { token });
          hashes.push(sha(new Uint8Array(await answer.arrayBuffer())));
        }),
      ),
    );
    expect(await got).toBeGreaterThanOrEqual(24);
    expect(hashes.sort()).toEqual(documents.map((bytes) => sha(bytes)).sort());
  });

  test('a full batch of the largest events is read with pauses', async () => {
    const texts = Array.from({ length: 60 }, (_, i) => eventText(`big${i}`, { payload: { text: 'x'.repeat(60_000) } }));
    const rounds = await roundsDuring(server.ask('POST', '/api/events', { token, json: { texts } }));
    expect(rounds).toBeGreaterThanOrEqual(10);
  });
});

describe('slow bodies', () => {
  /** A body that goes on only when it is told to. */
  function slowPut(of: string, bytes: Uint8Array, on: TestServer) {
    let send = (_bytes: Uint8Array | null) => {};
    const body = new ReadableStream<Uint8Array>({
      start: (controller) => {
        send = (part) => (part ? controller.enqueue(part) : controller.close());
      },
    });
    const request = new Request(`http://localhost/api/documents/${sha(bytes)}`, {
      method: 'PUT',
      headers: {
        [WIRE_HEADER]: '1',
        authorization: `Bearer ${of}`,
        'content-type': 'application/octet-stream',
      },
      body,
      duplex: 'half',
    } as RequestInit);
    const answer = Promise.resolve(on.app.request(request));
    return { send: (part: Uint8Array | null) => send(part), answer };
  }
  const quick = async (of: string, on: TestServer, text: string) => {
    const bytes = new TextEncoder().encode(text);
    return (
      await on.ask('PUT', `/api/documents/${sha(bytes)}`, {
        token: of,
        body: bytes,
        headers: { 'content-type': 'application/octet-stream' },
      })
    ).status;
  };

  test('of one phone take two places at most, and of one station leave some to the others', async () => {
    const few = testServer(db, { limits: { uploads: { inAll: 6, perStation: 3, perPhone: 2 } } });
    const second = await pairedPhone(db, server);
    const stranger = await pairedPhone(db, server, { id: 'st-far', name: 'Far Radio' });
    const bytes = (n: number) => new Uint8Array(20).fill(n);
    const slow = [slowPut(token, bytes(1), few), slowPut(token, bytes(2), few)];
    // Its first bytes are on their way: the places are taken.
    for (const [n, one] of slow.entries()) one.send(bytes(n + 1).subarray(0, 10));
    while ((await quick(token, few, 'one more')) !== 429) await nextRound();
    expect(await quick(second, few, 'of another phone')).toBe(201);
    const third = slowPut(second, bytes(3), few);
    third.send(bytes(3).subarray(0, 10));
    while ((await quick(second, few, 'station is full')) !== 429) await nextRound();
    expect(await quick(stranger, few, 'of another station')).toBe(201);
    for (const [n, one] of [...slow, third].entries()) {
      one.send(bytes(n + 1).subarray(10));
      one.send(null);
    }
    const ends = await Promise.all([...slow, third].map(async ({ answer }) => (await answer).status));
    expect(ends).toEqual([201, 201, 201]);
    expect(await quick(token, few, 'places are free again')).toBe(201);
  });

  test('wait in the database once the memory for all of them is used up', async () => {
    const none = testServer(db, { limits: { heldChunks: 1 } });
    const bytes = new Uint8Array(4 * DOCUMENT_CHUNK_BYTES).map((_, i) => (i * 11) % 253);
    const slow = slowPut(token, bytes, none);
    slow.send(bytes.subarray(0, 3 * DOCUMENT_CHUNK_BYTES));
    const waiting = async () =>
      await db.query.selectFrom('parts').select('n').where('station', '=', STATION.id).execute();
    while ((await waiting()).length === 0) await nextRound();
    expect(await waiting()).toEqual([{ n: 2 }]);
    slow.send(bytes.subarray(3 * DOCUMENT_CHUNK_BYTES));
    slow.send(null);
    expect((await slow.answer).status).toBe(201);
    expect(await waiting()).toEqual([]);
    const got = await none.ask('GET', `/api/documents/${sha(bytes)}`, { token });
    expect(sha(new Uint8Array(await got.arrayBuffer()))).toBe(sha(bytes));
  });
});
