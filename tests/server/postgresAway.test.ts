// What phones are told while PostgreSQL is away, hangs, or ends a connection in the middle, and that the server lives on.
import { createServer, type Server, type Socket } from 'node:net';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test, vi } from 'vitest';
import * as z from 'zod/mini';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { DatabaseAway, judgeFailure } from '../../src/server/database/databaseErrors.ts';
import type { PoolNews } from '../../src/server/database/postgresPool.ts';
import { errorSchema, healthSchema } from '../../src/wire/sync.ts';
import { type Cluster, createCluster, DATABASE, type Node } from './cluster.ts';
import { eventText, pairedPhone, type TestServer, testServer } from './help.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const QUICK = { connectMs: 1000, statementMs: 1200, queryMs: 1500 };

let cluster: Cluster;
let node: Node;
let db: Database;
let server: TestServer;
let token: string;
let news: PoolNews[];
let name: string;
let made = 0;
beforeAll(async () => {
  cluster = createCluster();
  node = await cluster.primary();
});
afterAll(async () => await cluster?.stop());
beforeEach(async () => {
  news = [];
  made += 1;
  name = `${DATABASE}${made}`;
  await node.ask(`create database ${name}`);
  db = await openDatabase(
    { type: 'postgresql', url: `postgres://tests@127.0.0.1:${node.port}/${name}` },
    { times: QUICK, onNews: (one) => news.push(one) },
  );
  server = testServer(db);
  token = await pairedPhone(db, server);
});
afterEach(async () => await db.close());

const push = (id: string) => server.ask('POST', '/api/events', { token, json: { texts: [eventText(id)] } });

async function expectAway(answer: Response): Promise<void> {
  expect([answer.status, z.parse(errorSchema, await answer.json()).type]).toEqual([503, 'database-away']);
  expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
}

/** Every connection of the server, whatever it is doing. */
async function endAll(): Promise<void> {
  await node.ask(
    `select pg_terminate_backend(pid) from pg_stat_activity where datname = '${name}' and backend_type = 'client backend'`,
  );
}

/** The test's own limit ends it; a busy machine takes as long as it takes. */
async function until(what: () => Promise<boolean>): Promise<void> {
  while (!(await what())) await new Promise((next) => setTimeout(next, 5));
}

test('a connection lost inside a transaction fails that transaction and nothing else', async () => {
  const failing = db.query.transaction().execute(async (tx) => {
    await tx.selectFrom('stations').select('id').execute();
    await endAll();
    return await tx.selectFrom('stations').select('id').execute();
  });
  await expect(failing).rejects.toBeInstanceOf(DatabaseAway);
  expect((await push('after-the-loss')).status).toBe(200);
});

test('one lost while nobody asks on it is replaced', async () => {
  await db.query
    .transaction()
    .execute(async () => {
      await Promise.all([1, 2, 3].map(() => db.query.selectFrom('stations').select('id').execute()));
      await endAll();
      // Time for the news of the loss to arrive while the transaction holds its connection and does nothing.
      await until(
        async () => (await node.ask(`select 1 from pg_stat_activity where datname = '${name}'`)).length === 0,
      );
    })
    .catch((error: unknown) => expect(judgeFailure(error)).toBe('gone'));
  expect((await push('after-the-idle-loss')).status).toBe(200);
});

test('a frozen server gives clear answers, at once after the first, and serves again when it wakes', async () => {
  expect((await push('before')).status).toBe(200);
  node.freeze();
  try {
    const first = await Promise.all(['a', 'b', 'c'].map(push));
    for (const answer of first) await expectAway(answer);
    await until(async () => {
      await expectAway(await push('d'));
      return news.some((one) => one.type === 'away');
    });
    const began = performance.now();
    for (const answer of await Promise.all(Array.from({ length: 200 }, (_, i) => push(`e${i}`))))
      await expectAway(answer);
    // 200 refusals one after the other would take minutes if each waited for its connection.
    expect(performance.now() - began).toBeLessThan(QUICK.connectMs * 20);
    server.clock.move(2000);
    const health = await server.app.request('/api/health');
    expect([health.status, z.parse(healthSchema, await health.json())]).toMatchObject([
      503,
      { status: 'failing', reads: false, writes: false },
    ]);
  } finally {
    node.thaw();
  }
  await until(async () => (await push('awake')).status === 200);
  expect(news.map((one) => one.type)).toEqual(['away', 'back']);
  server.clock.move(2000);
  expect((await server.app.request('/api/health')).status).toBe(200);
});

test('what waits for a connection is bounded; the next one is refused', async () => {
  await db.close();
  db = await openDatabase(
    { type: 'postgresql', url: `postgres://tests@127.0.0.1:${node.port}/${name}` },
    { times: { ...QUICK, connections: 1, waiting: 3 } },
  );
  let release: () => void = () => undefined;
  const held = new Promise<void>((done) => {
    release = done;
  });
  const holding = db.query.transaction().execute(async (tx) => {
    await tx.selectFrom('stations').select('id').execute();
    await held;
  });
  const asks = Array.from({ length: 20 }, () =>
    db.query
      .selectFrom('stations')
      .select('id')
      .execute()
      .then(
        () => 'answered',
        (error: unknown) => (error instanceof DatabaseAway ? 'refused' : String(error)),
      ),
  );
  await until(async () => db.condition.waiting() === 3);
  release();
  await holding;
  const answers = await Promise.all(asks);
  expect(answers.filter((one) => one === 'refused').length).toBeGreaterThanOrEqual(16);
  expect(answers.filter((one) => one === 'answered').length).toBeGreaterThan(0);
  expect(db.condition.waiting()).toBe(0);
});

test('a socket that accepts and says nothing is not waited for', async () => {
  const open: Socket[] = [];
  const silent: Server = createServer((socket) => open.push(socket));
  await new Promise<void>((ready) => silent.listen(0, '127.0.0.1', ready));
  const address = silent.address();
  const port = typeof address === 'object' && address ? address.port : 0;
  try {
    const opening = openDatabase({ type: 'postgresql', url: `postgres://x@127.0.0.1:${port}/y` }, { times: QUICK });
    await expect(opening).rejects.toSatisfy((error) => judgeFailure(error) === 'gone');
    // Beside a server that answers it costs nothing but a moment.
    const both = await openDatabase(
      { type: 'postgresql', url: `postgres://tests@127.0.0.1:${port},127.0.0.1:${node.port}/${name}` },
      { times: QUICK },
    );
    expect(await both.query.selectFrom('stations').select('id').execute()).toHaveLength(1);
    await both.close();
  } finally {
    for (const socket of open) socket.destroy();
    await new Promise((closed) => silent.close(closed));
  }
});
