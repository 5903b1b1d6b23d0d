// A full disk and a database of a newer server: what is answered, and that nothing half done stays behind.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterEach, beforeEach, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { judgeFailure } from '../../src/server/database/databaseErrors.ts';
import { CannotOpen } from '../../src/server/database/upToDate.ts';
import { errorSchema, pushAnswerSchema } from '../../src/wire/sync.ts';
import { eventText, pairedPhone, type TestServer, testServer } from './help.ts';

let folder: string;
let file: string;
let db: Database;
let server: TestServer;
let token: string;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'asfound-trouble-'));
  file = join(folder, 'asfound.db');
  db = await openDatabase({ type: 'sqlite', file });
  server = testServer(db);
  token = await pairedPhone(db, server);
});
afterEach(async () => {
  await db.close();
  rmSync(folder, { recursive: true });
});

const push = (name: string) => {
  const texts = Array.from({ length: 20 }, (_, i) =>
    eventText(`${name}-${i}`, { payload: { text: 'x'.repeat(3000) } }),
  );
  return server.ask('POST', '/api/events', { token, json: { texts } });
};

test('on a full disk nothing of a batch is kept, the answer says so, and it goes on when there is room', async () => {
  expect((await push('before')).status).toBe(200);
  const pages = await sql<{ page_count: number }>`pragma page_count`.execute(db.query);
  const limit = (count: number) => sql`pragma max_page_count = ${sql.lit(count)}`.execute(db.query);
  await limit((pages.rows[0]?.page_count ?? 0) + 5);
  const answer = await push('full');
  const { type, sentence } = z.parse(errorSchema, await answer.json());
  expect([answer.status, type]).toEqual([500, 'failed']);
  expect(sentence).toContain('disk is full');
  expect(judgeFailure(server.failures[0])).toBe('full');
  const kept = await db.query.selectFrom('events').select('id').where('id', 'like', 'full-%').execute();
  expect(kept).toEqual([]);
  await limit(1_000_000);
  const again = z.parse(pushAnswerSchema, await (await push('full')).json());
  expect(again.answers.every((one) => one.type === 'stored')).toBe(true);
});

test('what a newer server brought up to date is refused by name and left as it is', async () => {
  await sql`insert into kysely_migration (name, timestamp) values ('9999-later', 'now')`.execute(db.query);
  const tables = async () => (await db.query.introspection.getTables()).map((table) => table.name);
  const before = await tables();
  const opening = openDatabase({ type: 'sqlite', file });
  await expect(opening).rejects.toBeInstanceOf(CannotOpen);
  await expect(opening).rejects.toThrow(/newer server.*9999-later.*Nothing was changed/);
  expect(await tables()).toEqual(before);
});

test('a write that cannot be made shows in health at once, and mends itself', async () => {
  const health = async () => {
    server.clock.move(2000);
    const answer = await server.app.request('/api/health');
    return [answer.status, await answer.json()];
  };
  expect(await health()).toMatchObject([200, { status: 'ok', reads: true, writes: true }]);
  await sql`pragma query_only = on`.execute(db.query);
  expect(await health()).toMatchObject([503, { status: 'failing', reads: true, writes: false }]);
  await sql`pragma query_only = off`.execute(db.query);
  expect(await health()).toMatchObject([200, { status: 'ok', reads: true, writes: true }]);
});

test('asked a thousand times in a second, health writes once', async () => {
  await Promise.all(Array.from({ length: 1000 }, () => server.app.request('/api/health')));
  const first = await db.query.selectFrom('facts').select('at').where('key', '=', 'health').executeTakeFirst();
  await sql`create trigger counted after update on facts begin select raise(abort, 'written again'); end`.execute(
    db.query,
  );
  await Promise.all(Array.from({ length: 1000 }, () => server.app.request('/api/health')));
  expect(first?.at).toBe(server.clock.now());
  expect(server.failures).toEqual([]);
});
