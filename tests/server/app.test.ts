// The routes without sockets: who may ask, what is refused and how, and which headers everything carries.
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { makeCode } from '../../src/server/phones/pairing.ts';
import {
  codeAnswerSchema,
  errorSchema,
  healthSchema,
  pairAnswerSchema,
  phonesAnswerSchema,
  pullAnswerSchema,
  pushAnswerSchema,
  WIRE_HEADER,
} from '../../src/wire/sync.ts';
import { eventText, OTHER, pairedPhone, STATION, sha, type TestServer, testServer } from './help.ts';

let db: Database;
let server: TestServer;
const open: Database[] = [];
beforeEach(async () => {
  db = await openDatabase({ type: 'sqlite', file: ':memory:' });
  open.push(db);
  server = testServer(db);
});
afterAll(async () => {
  for (const one of open) await one.close();
});

async function refusal(answer: Response): Promise<string> {
  const error = z.parse(errorSchema, await answer.json());
  expect(error.sentence.length).toBeGreaterThan(10);
  expect(answer.headers.get(WIRE_HEADER)).toBe('1');
  return `${answer.status} ${error.type}`;
}

describe('without a token', () => {
  test('health says version, database and wire to anybody', async () => {
    const answer = await server.app.request('/api/health');
    const health = z.parse(healthSchema, await answer.json());
    expect(health).toMatchObject({ version: '0.0.0', database: 'sqlite', wire: 1, minClient: 1, status: 'ok' });
    expect(answer.headers.get('cache-control')).toBe('no-store');
  });

  test('every other route is closed, also to a token that was never given out', async () => {
    const asks: [string, string][] = [
      ['POST', '/api/events'],
      ['GET', '/api/events?after=0'],
      ['GET', `/api/documents/${'a'.repeat(64)}`],
      ['PUT', `/api/documents/${'a'.repeat(64)}`],
      ['GET', '/api/phones'],
      ['DELETE', '/api/phones/p-x'],
      ['POST', '/api/codes'],
      ['GET', '/api/not-a-route'],
    ];
    for (const [method, path] of asks) {
      expect(await refusal(await server.ask(method, path))).toBe('401 unauthorised');
      const guessed = await server.ask(method, path, { token: 'A'.repeat(43) });
      expect(await refusal(guessed)).toBe('401 unauthorised');
    }
  });

  test('a phone of another version is told which side is older', async () => {
    const asked = async (version: string) =>
      await refusal(await server.ask('GET', '/api/events', { headers: { [WIRE_HEADER]: version } }));
    expect(await asked('0')).toBe('426 phone-too-old');
    expect(await asked('2')).toBe('426 server-too-old');
    expect(await asked('one')).toBe('400 bad-request');
  });
});

describe('pairing', () => {
  test('swaps a code for a token that is kept only as its hash', async () => {
    const { code } = await makeCode(db, server.random, server.clock.now(), null);
    const answer = await server.ask('POST', '/api/pair', { json: { code, phone: 'A', station: STATION } });
    expect(answer.status).toBe(201);
    const paired = z.parse(pairAnswerSchema, await answer.json());
    expect(Buffer.from(paired.token, 'base64url')).toHaveLength(32);
    const rows = await db.query.selectFrom('phones').selectAll().execute();
    expect(rows.map((row) => row.token_hash)).toEqual([sha(paired.token)]);
    const codes = await db.query.selectFrom('codes').select('hash').execute();
    expect(codes).toEqual([{ hash: sha(code) }]);
    const again = await server.ask('POST', '/api/pair', { json: { code, phone: 'B', station: null } });
    expect(await refusal(again)).toBe('403 code-used');
  });

  test('is slowed down for one who guesses, and opens again with time', async () => {
    const guess = async () =>
      await server.ask('POST', '/api/pair', { json: { code: '2222222222', phone: 'A', station: null } });
    for (let i = 0; i < 10; i += 1) expect(await refusal(await guess())).toBe('403 code-unknown');
    const slowed = await guess();
    expect(slowed.headers.get('retry-after')).toBe('6');
    expect(await refusal(slowed)).toBe('429 too-many');
    server.clock.move(6000);
    expect(await refusal(await guess())).toBe('403 code-unknown');
  });

  test('a paired phone makes a code for a second one of the same station, lists and revokes it', async () => {
    const token = await pairedPhone(db, server);
    const made = z.parse(codeAnswerSchema, await (await server.ask('POST', '/api/codes', { token })).json());
    expect(made.station).toEqual(STATION);
    const wrong = { code: made.code, phone: 'B', station: OTHER };
    expect(await refusal(await server.ask('POST', '/api/pair', { json: wrong }))).toBe('409 station-differs');
    const second = await server.ask('POST', '/api/pair', { json: { ...wrong, station: null } });
    const { token: secondToken, phoneId } = z.parse(pairAnswerSchema, await second.json());
    const listed = z.parse(phonesAnswerSchema, await (await server.ask('GET', '/api/phones', { token })).json());
    expect(listed.phones.map((phone) => [phone.name, phone.self])).toContainEqual(['B', false]);
    expect(JSON.stringify(listed)).not.toContain(sha(secondToken));
    expect((await server.ask('DELETE', `/api/phones/${phoneId}`, { token })).status).toBe(204);
    expect(await refusal(await server.ask('GET', '/api/phones', { token: secondToken }))).toBe('401 revoked');
    expect(await refusal(await server.ask('DELETE', '/api/phones/p-none', { token }))).toBe('404 not-found');
  });
});

describe('events', () => {
  test('are stored, answered one by one, and pulled in pages', async () => {
    const token = await pairedPhone(db, server);
    const texts = ['a', 'b', 'c'].map((id) => eventText(id));
    const pushed = await server.ask('POST', '/api/events', { token, json: { texts } });
    expect(z.parse(pushAnswerSchema, await pushed.json()).answers).toEqual(
      [1, 2, 3].map((number) => ({ type: 'stored', number })),
    );
    const page = async (after: string) =>
      z.parse(
        pullAnswerSchema,
        await (await server.ask('GET', `/api/events?after=${after}&limit=2`, { token })).json(),
      );
    const first = await page('0');
    const second = await page(first.next);
    expect([first.more, second.more]).toEqual([true, false]);
    expect([...first.events, ...second.events].map((event) => event.text)).toEqual(texts);
    expect((await page(second.next)).next).toBe(second.next);
  });

  test('of one station are out of reach for phones of another', async () => {
    const token = await pairedPhone(db, server);
    const stranger = await pairedPhone(db, server, OTHER);
    const bytes = new TextEncoder().encode('[]');
    await server.ask('POST', '/api/events', { token, json: { texts: [eventText('mine')] } });
    await server.ask('PUT', `/api/documents/${sha(bytes)}`, {
      token,
      body: bytes,
      headers: { 'content-type': 'application/json' },
    });
    const pulled = await server.ask('GET', '/api/events?after=0', { token: stranger });
    expect(z.parse(pullAnswerSchema, await pulled.json()).events).toEqual([]);
    expect((await server.ask('HEAD', `/api/documents/${sha(bytes)}`, { token: stranger })).status).toBe(404);
    const forged = await server.ask('POST', '/api/events', { token: stranger, json: { texts: [eventText('forged')] } });
    expect(z.parse(pushAnswerSchema, await forged.json()).answers).toMatchObject([
      { type: 'refused', why: 'other-station' },
    ]);
  });

  test('in a body that is too large, broken, squeezed or too many are refused as JSON', async () => {
    const small = testServer(db, { limits: { jsonBytes: 1000 } });
    const token = await pairedPhone(db, small);
    const push = async (more: object) => await refusal(await small.ask('POST', '/api/events', { token, ...more }));
    expect(await push({ json: { texts: ['x'.repeat(1000)] } })).toBe('413 too-large');
    expect(await push({ body: '{"texts":' })).toBe('400 bad-request');
    expect(await push({ body: new Uint8Array([0x22, 0xff, 0x22]) })).toBe('400 bad-request');
    expect(await push({ json: { texts: Array.from({ length: 201 }, () => '') } })).toBe('400 bad-request');
    expect(await push({ body: 'x', headers: { 'content-encoding': 'gzip' } })).toBe('400 bad-request');
    expect(await push({ json: { texts: 3 } })).toBe('400 bad-request');
    for (const query of ['after=1', 'after=x', 'limit=0', 'limit=x', 'after=0%27']) {
      expect(await refusal(await small.ask('GET', `/api/events?${query}`, { token }))).toBe('400 bad-request');
    }
  });
});

describe('documents', () => {
  const png = new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 1, 2, 3]);
  const put = async (token: string, bytes: Uint8Array<ArrayBuffer>, mime: string, name = sha(bytes), on = server) =>
    await on.ask('PUT', `/api/documents/${name}`, { token, body: bytes, headers: { 'content-type': mime } });

  test('come back as an attachment that a browser may not run', async () => {
    const token = await pairedPhone(db, server);
    expect((await put(token, png, 'image/png')).status).toBe(201);
    expect((await put(token, png, 'image/png')).status).toBe(200);
    for (const method of ['HEAD', 'GET']) {
      const got = await server.ask(method, `/api/documents/${sha(png)}`, { token });
      expect(got.headers.get('content-security-policy')).toBe("sandbox; default-src 'none'");
      expect(got.headers.get('content-disposition')).toBe('attachment');
      expect(got.headers.get('x-content-type-options')).toBe('nosniff');
      expect(got.headers.get('content-type')).toBe('image/png');
      expect(got.headers.get('content-length')).toBe('11');
      expect(new Uint8Array(await got.arrayBuffer())).toEqual(method === 'GET' ? png : new Uint8Array());
    }
  });

  test('that are plans go out squeezed to those who take it', async () => {
    const token = await pairedPhone(db, server);
    const plan = new TextEncoder().encode(JSON.stringify(Array.from({ length: 200_000 }, (_, i) => i % 10)));
    await put(token, plan, 'application/json');
    const path = `/api/documents/${sha(plan)}`;
    const got = await server.ask('GET', path, { token, headers: { 'accept-encoding': 'gzip' } });
    expect(got.headers.get('content-encoding')).toBe('gzip');
    const bytes = new Uint8Array(await got.arrayBuffer());
    expect(bytes.byteLength).toBeLessThan(plan.byteLength / 10);
    expect(sha(gunzipSync(bytes))).toBe(sha(plan));
    expect(await (await server.ask('GET', path, { token })).text()).toHaveLength(plan.byteLength);
  });

  test('that are not what their name or type says leave nothing behind', async () => {
    const token = await pairedPhone(db, server);
    const svg = new TextEncoder().encode('<svg xmlns="http://www.w3.org/2000/svg"/>');
    expect(await refusal(await put(token, png, 'image/png', 'b'.repeat(64)))).toBe('422 hash-differs');
    expect(await refusal(await put(token, svg, 'image/svg+xml'))).toBe('415 mime-refused');
    expect(await refusal(await put(token, svg, 'text/html'))).toBe('415 mime-refused');
    for (const mime of ['image/png', 'image/jpeg', 'image/webp', 'audio/webm', 'audio/mp4', 'application/json']) {
      expect(await refusal(await put(token, svg, mime))).toBe('415 mime-refused');
    }
    for (const name of ['..%2f..%2fetc%2fpasswd', 'A'.repeat(64), 'short']) {
      expect(await refusal(await put(token, png, 'image/png', name))).toBe('404 not-found');
    }
    const small = testServer(db, { limits: { documentBytes: 10 } });
    expect(await refusal(await put(token, png, 'image/png', sha(png), small))).toBe('413 too-large');
    expect(await db.query.selectFrom('documents').select('sha').execute()).toEqual([]);
  });

  test('that are sound are kept when they begin like sound, whatever the codec behind the type', async () => {
    const token = await pairedPhone(db, server);
    // First bytes: EBML head (RFC 8794); file type box and major brand (ISO/IEC 14496-12).
    const webm = new Uint8Array([0x1a, 0x45, 0xdf, 0xa3, 1, 2, 3]);
    const box = (brand: string) => new TextEncoder().encode(`\0\0\0\u0018ftyp${brand}\0\0\0\0`);
    expect((await put(token, webm, 'audio/webm;codecs=opus')).status).toBe(201);
    expect((await put(token, box('M4A '), 'audio/mp4')).status).toBe(201);
    expect((await put(token, box('iso5'), 'audio/mp4; codecs=mp4a.40.2')).status).toBe(201);
    for (const brand of ['heic', 'avif', 'qt  ']) {
      expect(await refusal(await put(token, box(brand), 'audio/mp4'))).toBe('415 mime-refused');
    }
    expect(await refusal(await put(token, webm, 'audio/mp4'))).toBe('415 mime-refused');
    expect(await refusal(await put(token, box('M4A '), 'audio/webm'))).toBe('415 mime-refused');
  });

  test('broken off in the middle leave nothing behind, and the next try goes through', async () => {
    const token = await pairedPhone(db, server);
    const half = new ReadableStream<Uint8Array>({
      pull: (controller) => {
        controller.enqueue(png.subarray(0, 5));
        controller.error(new Error('gone'));
      },
    });
    const request = new Request(`http://localhost/api/documents/${sha(png)}`, {
      method: 'PUT',
      headers: { [WIRE_HEADER]: '1', authorization: `Bearer ${token}`, 'content-type': 'image/png' },
      body: half,
      duplex: 'half',
    } as RequestInit);
    expect(await refusal(await server.app.request(request))).toBe('400 bad-request');
    expect(await db.query.selectFrom('chunks').select('sha').execute()).toEqual([]);
    expect((await put(token, png, 'image/png')).status).toBe(201);
  });

  test('are taken only so many at once', async () => {
    const none = testServer(db, { limits: { uploads: { inAll: 0, perStation: 1, perPhone: 1 } } });
    const token = await pairedPhone(db, none);
    const answer = await put(token, png, 'image/png', sha(png), none);
    expect(answer.headers.get('retry-after')).toBe('2');
    expect(await refusal(answer)).toBe('429 too-many');
  });
});

test('a phone may drain a long day without being slowed, one that never ends is', async () => {
  const token = await pairedPhone(db, server);
  const statuses: number[] = [];
  for (let i = 0; i < 601; i += 1) statuses.push((await server.ask('GET', '/api/phones', { token })).status);
  expect(statuses.indexOf(429)).toBe(600);
});

test('a failure nobody expected is told to the operator and not to the asker', async () => {
  const token = await pairedPhone(db, server);
  await db.query.schema.dropTable('set_aside').execute();
  await server.ask('POST', '/api/events', { token, json: { texts: [eventText('x')] } });
  const answer = await server.ask('POST', '/api/events', { token, json: { texts: [eventText('x', { seq: 2 })] } });
  const text = await answer.clone().text();
  expect(await refusal(answer)).toBe('500 failed');
  expect(text).not.toContain('set_aside');
  expect(server.failures).toHaveLength(1);
  expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
});
