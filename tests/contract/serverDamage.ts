// What the server does with what it holds damaged: leaves it out, names it, goes on, and is mended by the right text or
// bytes. The damage is done behind its back.
import { afterAll, beforeAll, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { DOCUMENT_CHUNK_BYTES } from '../../src/wire/limits.ts';
import * as wire from '../../src/wire/sync.ts';
import { eventText, pairedPhone, STATION, sha, type TestServer, testServer } from '../server/help.ts';

export function describeServerDamage(address: () => Promise<DatabaseAddress>): void {
  let db: Database;
  let server: TestServer;
  let token: string;
  beforeAll(async () => {
    db = await openDatabase(await address());
    server = testServer(db);
    token = await pairedPhone(db, server);
  });
  afterAll(async () => await db?.close());

  const push = async (texts: string[]) => {
    const answer = await server.ask('POST', '/api/events', { token, json: { texts } });
    return z.parse(wire.pushAnswerSchema, await answer.json()).answers.map(({ type }) => type);
  };
  const pull = async (after = '0', limit = 500) => {
    const answer = await server.ask('GET', `/api/events?after=${after}&limit=${limit}`, { token });
    return z.parse(wire.pullAnswerSchema, await answer.json());
  };
  const alter = async (id: string, to: { text?: string; hash?: string }) =>
    await db.query.updateTable('events').set(to).where('id', '=', id).where('station', '=', STATION.id).execute();
  const noted = async () => {
    const rows = await db.query.selectFrom('damaged').select(['kind', 'id']).orderBy('id').execute();
    return rows.map(({ kind, id }) => `${kind} ${id}`);
  };

  test('a text that was altered is left out, named, and the cursor goes on behind it', async () => {
    const texts = ['a', 'b', 'c'].map((id) => eventText(id));
    await push(texts);
    await alter('b', { text: eventText('b').replace('Ines', 'Nobody') });
    const pulled = await pull();
    expect(pulled.events.map(({ number }) => number)).toEqual([1, 3]);
    expect(pulled).toMatchObject({ damaged: [2], more: false, next: wire.toMark(3, sha(texts[2] ?? '')) });
    expect(await noted()).toEqual(['event b']);
    // Also where it is the last of an answer.
    const page = await pull('0', 2);
    expect(page).toMatchObject({ events: [{ number: 1 }], damaged: [2], more: true });
    expect((await pull(page.next)).events.map(({ number }) => number)).toEqual([3]);
  });

  test('the right text once more mends it, for phones too that have passed it; another text does not', async () => {
    const passed = (await pull()).next;
    expect(await push([eventText('b').replace('Ines', 'Somebody')])).toEqual(['set-aside']);
    expect(await noted()).toEqual(['event b']);
    expect(await push([eventText('d'), eventText('b')])).toEqual(['stored', 'already']);
    expect(await noted()).toEqual([]);
    const pulled = await pull();
    expect(pulled.events.map(({ text }) => text)).toEqual(['a', 'c', 'b', 'd'].map((id) => eventText(id)));
    expect(pulled.damaged).toBeUndefined();
    expect((await pull(passed)).events.map(({ text }) => text)).toEqual(['b', 'd'].map((id) => eventText(id)));
  });

  test('nobody needs to have noticed it before: a text that comes again is held against the one that stands here', async () => {
    const before = await pull('0', 1);
    await alter('a', { text: 'no event any more' });
    expect(await push([eventText('a')])).toEqual(['already']);
    expect((await pull()).events.at(-1)?.text).toBe(eventText('a'));
    // A cursor and a proof of before still hold, and lead to all that came after.
    const since = await server.ask('GET', `/api/events?after=${before.next}&proof=${before.next}&limit=500`, { token });
    expect(z.parse(wire.pullAnswerSchema, await since.json()).events).toHaveLength(4);
  });

  test('a hash that belongs to no text is mended like a text, whether or not it still looks like one', async () => {
    for (const hash of ['f'.repeat(64), 'not a hash']) {
      const number = (await pull()).events.find(({ text }) => text === eventText('c'))?.number;
      await alter('c', { hash });
      const pulled = await pull();
      expect(pulled.events).toHaveLength(3);
      expect(pulled.damaged).toEqual([number]);
      // A phone that holds it is asked for it, whatever the hash beside it says now.
      const named = { events: [{ id: 'c', hash: sha(eventText('c')) }], documents: [] };
      const compared = await server.ask('POST', '/api/compare', { token, json: named });
      expect(z.parse(wire.compareAnswerSchema, await compared.json()).events).toEqual(['c']);
      expect(await push([eventText('c')])).toEqual(['already']);
      expect((await pull()).events).toHaveLength(4);
      expect(await noted()).toEqual([]);
    }
  });

  const large = new Uint8Array(2 * DOCUMENT_CHUNK_BYTES + 5).map((_, i) => (i * 13 + (i >> 7)) % 256);
  const small = new Uint8Array(900).map((_, i) => (i * 5) % 256);
  const path = (bytes: Uint8Array) => `/api/documents/${sha(bytes)}`;
  const put = async (bytes: Uint8Array<ArrayBuffer>) =>
    (
      await server.ask('PUT', path(bytes), {
        token,
        body: bytes,
        headers: { 'content-type': 'application/octet-stream' },
      })
    ).status;
  const chunk = async (bytes: Uint8Array, n: number, to: Uint8Array) =>
    await db.query
      .updateTable('chunks')
      .set({ bytes: Buffer.from(to) })
      .where('sha', '=', sha(bytes))
      .where('n', '=', n)
      .execute();
  const get = async (bytes: Uint8Array) => {
    const answer = await server.ask('GET', path(bytes), { token });
    const body = await answer.arrayBuffer().then(
      (all) => sha(new Uint8Array(all)),
      () => 'broke off',
    );
    return `${answer.status} ${body === sha(bytes) ? 'right' : answer.status === 200 ? body : 'refused'}`;
  };

  test('a document of other bytes never leaves as if it were the right one', async () => {
    expect([await put(small), await put(large)]).toEqual([201, 201]);
    expect([await get(small), await get(large)]).toEqual(['200 right', '200 right']);
    await chunk(small, 0, small.slice().reverse());
    expect(await get(small)).toBe('404 refused');
    for (const wrong of [new Uint8Array(5), new Uint8Array(4), new Uint8Array(6)]) {
      await db.query.deleteFrom('damaged').where('id', '=', sha(large)).execute();
      await chunk(large, 2, wrong);
      // What it is shows only when it was read to its end: the answer has begun by then and breaks off.
      expect(await get(large)).toBe('200 broke off');
      expect(await get(large)).toBe('404 refused');
    }
    expect(await noted()).toEqual([sha(small), sha(large)].sort().map((id) => `document ${id}`));
    expect((await server.ask('HEAD', path(large), { token })).status).toBe(404);
  });

  test('the right bytes once more mend it, whole or in parts, and it keeps its number', async () => {
    const number = async (bytes: Uint8Array) =>
      (await db.query.selectFrom('documents').select('number').where('sha', '=', sha(bytes)).executeTakeFirstOrThrow())
        .number;
    const before = [await number(small), await number(large)];
    expect(await put(small)).toBe(201);
    for (const n of [0, 1, 2]) {
      const part = large.slice(n * DOCUMENT_CHUNK_BYTES, (n + 1) * DOCUMENT_CHUNK_BYTES);
      await server.ask('PUT', `${path(large)}/parts/${n}`, {
        token,
        body: part,
        headers: { [wire.PART_HEADER]: sha(part) },
      });
    }
    const json = { mime: 'application/octet-stream', bytes: large.byteLength };
    expect((await server.ask('POST', path(large), { token, json })).status).toBe(201);
    expect([await get(small), await get(large)]).toEqual(['200 right', '200 right']);
    expect([await number(small), await number(large)]).toEqual(before);
    expect(await noted()).toEqual([]);
    expect(server.failures).toEqual([]);
  });

  test('a phone that asks whether a document is here hears of it only when its bytes are right', async () => {
    const head = async (bytes: Uint8Array) => {
      const answer = await server.ask('HEAD', path(bytes), { token });
      return [answer.status, answer.headers.get(wire.DOCUMENT_HEADER)];
    };
    expect(await head(small)).toEqual([200, `${sha(small)} 900`]);
    await chunk(small, 0, small.slice().reverse());
    expect(await head(small)).toEqual([404, null]);
    expect(await noted()).toEqual([`document ${sha(small)}`]);
    expect(await put(small)).toBe(201);
    expect(await head(small)).toEqual([200, `${sha(small)} 900`]);
  });

  test('a chunk that is gone, and nobody noticed, comes back by sending the document again', async () => {
    await db.query.deleteFrom('chunks').where('sha', '=', sha(large)).where('n', '=', 1).execute();
    expect(await put(large)).toBe(201);
    expect(await get(large)).toBe('200 right');
  });
}
