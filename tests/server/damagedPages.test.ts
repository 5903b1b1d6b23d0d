// A file of SQLite in which pages were overwritten: what stands on them is passed over and named, all else is served.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { pushEvents } from '../../src/server/stores/eventStore.ts';
import {
  compareAnswerSchema,
  errorSchema,
  healthSchema,
  pullAnswerSchema,
  pushAnswerSchema,
} from '../../src/wire/sync.ts';
import { eventText, pairedPhone, STATION, sha, type TestServer, testServer } from './help.ts';
import { overwritePages } from './pages.ts';

const folder = mkdtempSync(join(tmpdir(), 'asfound-pages-'));
const file = join(folder, 'asfound.db');
/** About one to a page. */
const texts = Array.from({ length: 30 }, (_, i) => eventText(`e${i}`, { payload: { text: 'n'.repeat(3000) } }));
let db: Database;
let server: TestServer;
let token: string;
let hurt: number[];

beforeAll(async () => {
  db = await openDatabase({ type: 'sqlite', file });
  token = await pairedPhone(db, testServer(db));
  const answer = await testServer(db).ask('POST', '/api/events', { token, json: { texts } });
  expect(z.parse(pushAnswerSchema, await answer.json()).answers.every(({ type }) => type === 'stored')).toBe(true);
  await db.close();
  overwritePages(file, 'events');
  db = await openDatabase({ type: 'sqlite', file });
  server = testServer(db);
});
afterAll(async () => {
  await db.close();
  rmSync(folder, { recursive: true });
});

test('a pull goes past the pages, names what stood on them and gives the rest', async () => {
  const pulled = z.parse(
    pullAnswerSchema,
    await (await server.ask('GET', '/api/events?after=0&limit=500', { token })).json(),
  );
  hurt = pulled.damaged ?? [];
  expect(hurt.length).toBeGreaterThanOrEqual(3);
  expect(hurt.length).toBeLessThan(10);
  const whole = texts.map((text, i) => ({ number: i + 1, text })).filter(({ number }) => !hurt.includes(number));
  expect(pulled.events).toEqual(whole);
  expect(pulled.more).toBe(false);
  const noted = await db.query.selectFrom('damaged').select('kind').execute();
  expect(noted).toHaveLength(hurt.length);
});

test('in pages as small as they may be, a pull comes to the end as well', async () => {
  const seen: number[] = [];
  let after = '0';
  for (let turn = 0; turn < 40; turn += 1) {
    const answer = await server.ask('GET', `/api/events?after=${after}&limit=1`, { token });
    const pulled = z.parse(pullAnswerSchema, await answer.json());
    seen.push(...pulled.events.map(({ number }) => number));
    after = pulled.next;
    if (!pulled.more) break;
  }
  expect(seen).toEqual(texts.map((_, i) => i + 1).filter((number) => !hurt.includes(number)));
});

test('nothing new is taken: an answer "stored" of such a file could not be relied on', async () => {
  const asks: [string, string, unknown][] = [
    ['POST', '/api/events', { texts: [...texts, eventText('new')] }],
    ['POST', '/api/codes', {}],
  ];
  for (const [method, path, json] of asks) {
    const answer = await server.ask(method, path, { token, json });
    const { type, sentence } = z.parse(errorSchema, await answer.json());
    expect([answer.status, type]).toEqual([500, 'failed']);
    expect(sentence).toContain('damaged');
  }
  expect(await db.query.selectFrom('events').select('id').where('id', '=', 'new').execute()).toEqual([]);
  const health = await server.app.request('/api/health');
  expect([health.status, z.parse(healthSchema, await health.json())]).toMatchObject([
    503,
    { status: 'failing', reads: true, writes: false, damaged: { count: hurt.length + 1 } },
  ]);
});

test('what is missing is still told, and of a push each event by itself', async () => {
  const events = texts.map((text, i) => ({ id: `e${i}`, hash: sha(text) }));
  const compared = await server.ask('POST', '/api/compare', { token, json: { events, documents: [] } });
  expect(z.parse(compareAnswerSchema, await compared.json()).events).toEqual(hurt.map((number) => `e${number - 1}`));
  const answers = await pushEvents(db, STATION.id, texts, server.clock.now());
  expect(answers.map(({ type }) => type)).toEqual(texts.map((_, i) => (hurt.includes(i + 1) ? 'refused' : 'already')));
  expect(server.failures).toEqual([]);
});
