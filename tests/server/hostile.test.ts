// Hostile requests over a real socket, on both databases: each gets the answer the table names, none of them a 500, and
// the server answers the next phone as before.
import type { Server } from 'node:http';
import { serve } from '@hono/node-server';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { DOCUMENT_CHUNK_BYTES } from '../../src/wire/limits.ts';
import { documentAnswerSchema, toMark } from '../../src/wire/sync.ts';
import { eventText, OTHER, pairedPhone, sha, type TestServer, testServer } from './help.ts';
import { hostileContent } from './hostileContent.ts';
import { type Hostile, hostileForm, type Target } from './hostileForm.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';
import { type RawAnswer, request, sendRaw } from './rawSocket.ts';

const ENDLESS = { capacity: 1_000_000, perSecond: 1000 };
const LIMITS = {
  documentBytes: 3 * DOCUMENT_CHUNK_BYTES,
  pairPerAddress: ENDLESS,
  pairInAll: ENDLESS,
  perPhone: ENDLESS,
  presence: ENDLESS,
};

function toOutcome(answer: RawAnswer): string {
  if (answer === 'closed') return 'closed';
  let json: unknown = null;
  try {
    json = JSON.parse(answer.body);
  } catch {
    // Node's own answers have no body.
  }
  const said = json as { type?: string; answers?: { type: string; why?: string }[] } | null;
  if (answer.status === 200 && said?.answers) {
    return `200 ${said.answers.map(({ type, why }) => why ?? type).join()}`;
  }
  return answer.status >= 400 && said?.type ? `${answer.status} ${said.type}` : String(answer.status);
}

function describeHostile(address: () => Promise<DatabaseAddress>): void {
  let db: Database;
  let app: TestServer;
  let server: Server;
  let port: number;
  let target: Target;
  beforeAll(async () => {
    db = await openDatabase(await address());
    app = testServer(db, { limits: LIMITS });
    target = await makeTarget(db, app);
    port = await new Promise<number>((ready) => {
      server = serve({ fetch: app.app.fetch, port: 0, hostname: '127.0.0.1' }, (info) => ready(info.port)) as Server;
    });
  });
  afterAll(async () => {
    await new Promise((done) => server?.close(done));
    await db?.close();
  });

  test.each([
    ['form', hostileForm],
    ['content', hostileContent],
  ])('requests hostile in their %s are answered as the table says', async (_, table) => {
    const wrong: string[] = [];
    const rows: Hostile[] = table(target);
    for (const { what, pieces, outcome, cut } of rows) {
      const answer = toOutcome(await sendRaw(port, pieces, cut));
      const after = toOutcome(await sendRaw(port, request('GET /api/phones', { token: target.token })));
      if (answer !== outcome || after !== '200') wrong.push(`${what}: ${answer} and then ${after}, not ${outcome}`);
    }
    expect(wrong).toEqual([]);
    expect(rows.length).toBeGreaterThanOrEqual(60);
    expect(app.failures).toEqual([]);
  });

  test('and afterwards everything that was there is there, and nothing half', async () => {
    const held = await app.ask('GET', `/api/documents/${target.held}`, { token: target.token });
    expect(sha(new Uint8Array(await held.arrayBuffer()))).toBe(target.held);
    const documents = await db.query.selectFrom('documents').select(['sha', 'complete']).execute();
    expect(documents).toEqual([{ sha: target.held, complete: 1 }]);
    expect(await db.query.selectFrom('parts').select('sha').execute()).toEqual([]);
    expect((await db.query.selectFrom('phones').select('id').where('revoked_at', 'is', null).execute()).length).toBe(2);
    const pulled = await app.ask('GET', '/api/events?after=0', { token: target.token });
    expect(await pulled.json()).toMatchObject({ events: { length: 4 }, more: false });
  });
}

async function makeTarget(db: Database, app: TestServer): Promise<Target> {
  const token = await pairedPhone(db, app);
  const revoked = await pairedPhone(db, app);
  await db.query.updateTable('phones').set({ revoked_at: 1 }).where('token_hash', '=', sha(revoked)).execute();
  const stranger = await pairedPhone(db, app, OTHER);
  await app.ask('POST', '/api/events', { token, json: { texts: [eventText('first')] } });
  const bytes = new Uint8Array([0xff, 0xd8, 0xff, 1]);
  const headers = { 'content-type': 'image/jpeg' };
  const put = await app.ask('PUT', `/api/documents/${sha(bytes)}`, { token, body: bytes, headers });
  const { number = 0 } = z.parse(documentAnswerSchema, await put.json());
  const { history } = await db.query
    .selectFrom('stations')
    .select('history')
    .where('id', '=', 'st-quay')
    .executeTakeFirstOrThrow();
  return {
    token,
    stranger,
    revoked,
    history,
    held: sha(bytes),
    picture: new Uint8Array([0xff, 0xd8, 0xff, 2]),
    eventMark: toMark(1, sha(eventText('first'))),
    documentMark: toMark(number, sha(bytes)),
  };
}

describe('on SQLite', () => describeHostile(async () => ({ type: 'sqlite', file: ':memory:' })));

describe('on PostgreSQL', () => {
  let postgres: TestPostgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(async () => await postgres?.stop());
  describeHostile(async () => ({ type: 'postgresql', url: await postgres.fresh() }));
});
