// What the server proves, compares, joins and mends, whichever database is below it. Asked through the routes.
import { afterAll, beforeAll, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { DOCUMENT_CHUNK_BYTES } from '../../src/wire/limits.ts';
import * as wire from '../../src/wire/sync.ts';
import { eventText, OTHER, pairedPhone, STATION, sha, type TestServer, testServer } from '../server/help.ts';

export function describeServerExchange(address: () => Promise<DatabaseAddress>): void {
  let db: Database;
  let server: TestServer;
  let token: string;
  beforeAll(async () => {
    db = await openDatabase(await address());
    server = testServer(db, { limits: { perPhone: { capacity: 10_000, perSecond: 1 } } });
    token = await pairedPhone(db, server);
    await pairedPhone(db, server, OTHER);
  });
  afterAll(async () => await db?.close());

  const ask = async (method: string, path: string, more: object = {}) =>
    await server.ask(method, path, { token, ...more });
  const push = async (texts: string[]) =>
    z.parse(wire.pushAnswerSchema, await (await ask('POST', '/api/events', { json: { texts } })).json());
  const pull = async (query: string) => await ask('GET', `/api/events?${query}`);
  const pulled = async (query: string) => z.parse(wire.pullAnswerSchema, await (await pull(query)).json());
  const refused = async (answer: Response) => `${answer.status} ${z.parse(wire.errorSchema, await answer.json()).type}`;
  const compare = async (events: { id: string; hash: string }[], documents: string[] = []) =>
    z.parse(
      wire.compareAnswerSchema,
      await (await ask('POST', '/api/compare', { json: { events, documents } })).json(),
    );
  const named = (text: string) => ({ id: (JSON.parse(text) as { id: string }).id, hash: sha(text) });
  const put = async (bytes: Uint8Array<ArrayBuffer>, mime: string) =>
    await ask('PUT', `/api/documents/${sha(bytes)}`, { body: bytes, headers: { 'content-type': mime } });
  const putPart = async (name: string, n: number | string, part: Uint8Array<ArrayBuffer>, hash = sha(part)) =>
    await ask('PUT', `/api/documents/${name}/parts/${n}`, { body: part, headers: { [wire.PART_HEADER]: hash } });
  const parts = async (name: string) =>
    z.parse(wire.partsAnswerSchema, await (await ask('GET', `/api/documents/${name}/parts`)).json()).parts;
  const join = async (name: string, mime: string, bytes: number) =>
    await ask('POST', `/api/documents/${name}`, { json: { mime, bytes } });
  const waiting = async () => await db.query.selectFrom('parts').select(['sha', 'n']).orderBy('n').execute();
  /** Begins like a picture and is the same in every run. */
  const picture = (bytes: number, seed: number) => {
    const out = new Uint8Array(bytes).map((_, i) => (i * 7 + (i >> 9) * seed) % 256);
    out.set([0xff, 0xd8, 0xff]);
    return out;
  };
  const cut = (bytes: Uint8Array<ArrayBuffer>) =>
    Array.from({ length: Math.ceil(bytes.byteLength / DOCUMENT_CHUNK_BYTES) }, (_, n) =>
      bytes.slice(n * DOCUMENT_CHUNK_BYTES, (n + 1) * DOCUMENT_CHUNK_BYTES),
    );

  test('every answer names the server’s time and its numbering, and a phone that brings neither goes on', async () => {
    const { history } = await db.query
      .selectFrom('stations')
      .select('history')
      .where('id', '=', STATION.id)
      .executeTakeFirstOrThrow();
    const now = server.clock.now();
    expect(await push([eventText('e1'), eventText('e2')])).toMatchObject({ now, history });
    expect(await push(['no event'])).toMatchObject({ now, history });
    const first = await pulled('after=0&limit=1');
    expect(first).toMatchObject({ now, history, more: true });
    expect((await pulled(`after=${first.next}`)).events.map(({ number }) => number)).toEqual([2]);
    expect(await compare([])).toEqual({ events: [], documents: [], now, history });
  });

  test('a proof holds for an event and for a document of this numbering, and for nothing else', async () => {
    const bytes = picture(40, 1);
    const stored = z.parse(wire.documentAnswerSchema, await (await put(bytes, 'image/jpeg')).json());
    const number = stored.number ?? 0;
    const { history } = await pulled('after=0');
    const marks = [wire.toMark(2, sha(eventText('e2'))), wire.toMark(number, sha(bytes))];
    for (const mark of marks) expect((await pull(`after=0&proof=${mark}&history=${history}`)).status).toBe(200);
    const foreign = [
      `after=0&proof=${wire.toMark(2, sha('another text'))}`,
      `after=0&proof=${wire.toMark(number, sha('other bytes'))}`,
      `after=0&proof=${wire.toMark(number + 1, sha(bytes))}`,
      `after=0&proof=999999999999999-${'0'.repeat(16)}`,
      'after=0&history=h-of-another-server',
      `after=0&proof=${marks[0]}&history=h-of-another-server`,
      // Documents are no cursor.
      `after=${marks[1]}`,
    ];
    for (const query of foreign) expect(await refused(await pull(query))).toBe('409 cursor-lost');
    for (const query of ['after=0&proof=0', 'after=0&proof=x', 'after=0&history=%00', 'after=0&history=']) {
      expect(await refused(await pull(query))).toBe('400 bad-request');
    }
  });

  test('every answer about a held document proves it by hash and size, and no other answer does', async () => {
    const bytes = picture(50, 2);
    const proof = `${sha(bytes)} 50`;
    const path = `/api/documents/${sha(bytes)}`;
    const before = await ask('HEAD', path);
    expect([before.status, before.headers.get(wire.DOCUMENT_HEADER)]).toEqual([404, null]);
    const answers = [await put(bytes, 'image/jpeg'), await put(bytes, 'image/jpeg')];
    for (const method of ['HEAD', 'GET']) answers.push(await ask(method, path));
    answers.push(await join(sha(bytes), 'image/jpeg', 50));
    expect(answers.map((answer) => answer.headers.get(wire.DOCUMENT_HEADER))).toEqual(Array(5).fill(proof));
    expect(answers.map((answer) => answer.status)).toEqual([201, 200, 200, 200, 200]);
    const wrong = await ask('PUT', `/api/documents/${'e'.repeat(64)}`, {
      body: bytes,
      headers: { 'content-type': 'image/jpeg' },
    });
    expect([wrong.status, wrong.headers.get(wire.DOCUMENT_HEADER)]).toEqual([422, null]);
  });

  test('compare names what is missing or damaged of what a phone holds, and not what stands here with another text', async () => {
    const [here, gone, other, hurt] = ['c1', 'c2', 'c3', 'c4'].map((id) => eventText(id)) as [
      string,
      string,
      string,
      string,
    ];
    await push([here, other, hurt]);
    const forged = { id: 'c3', hash: sha('another text') };
    await db.query
      .insertInto('damaged')
      .values([
        { station: STATION.id, kind: 'event', id: 'c4', found_at: 1 },
        // Of another station and of another kind: neither is ours.
        { station: OTHER.id, kind: 'event', id: 'c1', found_at: 1 },
        { station: STATION.id, kind: 'document', id: 'c1', found_at: 1 },
      ])
      .execute();
    const [held, hurtBytes, absent] = [picture(60, 3), picture(61, 3), 'd'.repeat(64)];
    for (const bytes of [held, hurtBytes]) await put(bytes, 'image/jpeg');
    await db.query
      .insertInto('damaged')
      .values({ station: STATION.id, kind: 'document', id: sha(hurtBytes), found_at: 1 })
      .execute();
    const answer = await compare([named(here), named(gone), forged, named(hurt)], [sha(held), absent, sha(hurtBytes)]);
    expect(answer.events).toEqual(['c2', 'c4']);
    expect(answer.documents).toEqual([absent, sha(hurtBytes)]);
    // The same texts once more are what mends it.
    expect((await push([hurt])).answers.map(({ type }) => type)).toEqual(['already']);
    expect((await put(hurtBytes, 'image/jpeg')).status).toBe(201);
    expect(await compare([named(hurt)], [sha(hurtBytes)])).toMatchObject({ events: [], documents: [] });
    await db.query.deleteFrom('damaged').execute();
  });

  test('compare takes as many names as the wire allows, and not one more', async () => {
    const events = Array.from({ length: wire.MAX_COMPARED }, (_, i) => ({ id: `many${i}`, hash: sha(String(i)) }));
    expect(
      (
        await compare(
          events,
          events.map(({ hash }) => hash),
        )
      ).events,
    ).toHaveLength(wire.MAX_COMPARED);
    const over = { events: [...events, { id: 'one-more', hash: sha('x') }], documents: [] };
    expect(await refused(await ask('POST', '/api/compare', { json: over }))).toBe('400 bad-request');
  });

  test('a document in parts is joined whatever their order, once all are there, and leaves no part behind', async () => {
    const bytes = picture(2 * DOCUMENT_CHUNK_BYTES + 17, 4);
    const name = sha(bytes);
    const [first, second, third] = cut(bytes) as [
      Uint8Array<ArrayBuffer>,
      Uint8Array<ArrayBuffer>,
      Uint8Array<ArrayBuffer>,
    ];
    expect(await parts(name)).toEqual([]);
    expect((await putPart(name, 2, third)).status).toBe(201);
    expect((await putPart(name, 0, first)).status).toBe(201);
    expect(await refused(await join(name, 'image/jpeg', bytes.byteLength))).toBe('409 parts-missing');
    expect(await parts(name)).toEqual([0, 2]);
    // A part that comes again is the same part; one that is not what its hash says is none.
    expect((await putPart(name, 0, first)).status).toBe(201);
    expect(await refused(await putPart(name, 1, second, sha('else')))).toBe('422 hash-differs');
    expect(await parts(name)).toEqual([0, 2]);
    await putPart(name, 1, second);
    const joined = await join(name, 'image/jpeg', bytes.byteLength);
    expect(joined.status).toBe(201);
    expect(joined.headers.get(wire.DOCUMENT_HEADER)).toBe(`${name} ${bytes.byteLength}`);
    const told = z.parse(wire.documentAnswerSchema, await joined.json());
    expect(told).toMatchObject({ type: 'stored', sha: name, bytes: bytes.byteLength });
    const got = await ask('GET', `/api/documents/${name}`);
    expect(got.headers.get('content-type')).toBe('image/jpeg');
    expect(sha(new Uint8Array(await got.arrayBuffer()))).toBe(name);
    expect(await waiting()).toEqual([]);
    const again = z.parse(wire.documentAnswerSchema, await (await join(name, 'image/jpeg', bytes.byteLength)).json());
    expect(again).toEqual({ ...told, type: 'already' });
  });

  test('parts that are not the document, or not of its type, are dropped and leave no document', async () => {
    const bytes = picture(DOCUMENT_CHUNK_BYTES + 9, 5);
    const name = sha(bytes);
    const [first, second] = cut(bytes) as [Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>];
    const send = async (n: number, part: Uint8Array<ArrayBuffer>) =>
      expect((await putPart(name, n, part)).status).toBe(201);
    const rightSize = new Uint8Array(9);
    for (const [a, b, mime, size, outcome] of [
      [first, rightSize, 'image/jpeg', bytes.byteLength, '422 hash-differs'],
      [second, first, 'image/jpeg', bytes.byteLength, '422 hash-differs'],
      [first, second, 'image/png', bytes.byteLength, '415 mime-refused'],
      [first, second, 'image/jpeg', bytes.byteLength - 1, '422 hash-differs'],
      [first.slice(0, 100), second, 'image/jpeg', bytes.byteLength, '422 hash-differs'],
    ] as const) {
      await send(0, a);
      await send(1, b);
      expect(await refused(await join(name, mime, size))).toBe(outcome);
      expect(await parts(name)).toEqual([]);
      expect((await ask('HEAD', `/api/documents/${name}`)).status).toBe(404);
    }
    expect(await db.query.selectFrom('chunks').select('n').where('sha', '=', name).execute()).toEqual([]);
    expect(await refused(await join(name, 'image/svg+xml', 10))).toBe('400 bad-request');
    expect(await refused(await join(name, 'image/jpeg', wire.MAX_DOCUMENT_BYTES + 1))).toBe('413 too-large');
  });

  test('one part is at most 1 MiB, has a number that a document can have, and only so many wait', async () => {
    const name = 'a'.repeat(64);
    const part = picture(10, 6);
    expect(await refused(await putPart(name, 0, new Uint8Array(DOCUMENT_CHUNK_BYTES + 1)))).toBe('413 too-large');
    for (const n of ['32', '-1', '01', '1e1', 'x', '%00', '9999999999']) {
      expect(await refused(await putPart(name, n, part))).toBe('404 not-found');
    }
    expect(await refused(await putPart(name, 0, part, 'none'))).toBe('400 bad-request');
    const few = testServer(db, { limits: { waitingParts: { perStation: 3, perPhone: 2 }, heldChunks: 0 } });
    const second = await pairedPhone(db, server);
    const send = async (n: number, of = token) =>
      await few.ask('PUT', `/api/documents/${name}/parts/${n}`, {
        token: of,
        body: part,
        headers: { [wire.PART_HEADER]: sha(part) },
      });
    expect([(await send(0)).status, (await send(31)).status]).toEqual([201, 201]);
    const full = await send(1);
    expect(full.headers.get('retry-after')).toBe('60');
    expect(await refused(full)).toBe('429 too-many');
    // One that is there may come again; another phone has room of its own, until the station has none.
    expect((await send(31)).status).toBe(201);
    expect((await send(2, second)).status).toBe(201);
    expect(await refused(await send(3, second))).toBe('429 too-many');
    const large = picture(2 * DOCUMENT_CHUNK_BYTES, 6);
    const whole = await few.ask('PUT', `/api/documents/${sha(large)}`, {
      token,
      body: large,
      headers: { 'content-type': 'image/jpeg' },
    });
    expect(await refused(whole)).toBe('429 too-many');
    expect(await waiting()).toEqual([
      { sha: name, n: 0 },
      { sha: name, n: 2 },
      { sha: name, n: 31 },
    ]);
  });
}
