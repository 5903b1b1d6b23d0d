// The shipped server as a machine runs it for years: who may read its files, what it logs, how it starts beside a
// database that is not up yet, beside its like, on damaged pages, and how it ends.
import { chmodSync, mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test, vi } from 'vitest';
import * as z from 'zod/mini';
import { errorSchema, healthSchema, pairAnswerSchema, WIRE_HEADER } from '../../src/wire/sync.ts';
import { type Cluster, createCluster, DATABASE, freePort, type Node } from './cluster.ts';
import { eventText, STATION } from './help.ts';
import { overwritePages } from './pages.ts';
import { bundleServer, printedCode, runServer, type ServerProcess, startServer } from './process.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

let file: string;
let data: string;
let cluster: Cluster;
let node: Node;
let made = 0;
let running: ServerProcess[] = [];
beforeAll(async () => {
  file = await bundleServer('running');
  cluster = createCluster();
  node = await cluster.primary();
});
afterAll(async () => await cluster?.stop());
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'asfound-running-'));
});
afterEach(async () => {
  for (const server of running) if (server.child.exitCode === null) await server.kill('SIGKILL');
  running = [];
  rmSync(data, { recursive: true });
});

async function started(env: Record<string, string>, more: Parameters<typeof startServer>[2] = {}) {
  const server = await startServer(file, { PORT: '0', ASFOUND_DATA: data, ...env }, more);
  running.push(server);
  return server;
}

async function fresh(): Promise<string> {
  made += 1;
  await node.ask(`create database ${DATABASE}${made}`);
  return `postgres://tests@127.0.0.1:${node.port}/${DATABASE}${made}`;
}

async function post(port: number, path: string, json: unknown, token = ''): Promise<Response> {
  const headers = { [WIRE_HEADER]: '1', authorization: `Bearer ${token}` };
  return await fetch(`http://127.0.0.1:${port}${path}`, { method: 'POST', headers, body: JSON.stringify(json) });
}

const mode = (path: string) => (statSync(path).mode & 0o777).toString(8);

test('nobody else on the machine can read the folder and the files in it', async () => {
  const folder = join(data, 'made');
  await started({ ASFOUND_DATA: folder });
  expect(['', 'asfound.db', 'asfound.db-wal', 'asfound.db-shm'].map((name) => mode(join(folder, name)))).toEqual([
    '700',
    '600',
    '600',
    '600',
  ]);
});

test('a folder of an earlier server is shut; one in which other things lie is left alone, with a word', async () => {
  const earlier = join(data, 'earlier');
  mkdirSync(earlier);
  writeFileSync(join(earlier, 'asfound.db'), '');
  chmodSync(earlier, 0o755);
  chmodSync(join(earlier, 'asfound.db'), 0o644);
  await started({ ASFOUND_DATA: earlier });
  expect([mode(earlier), mode(join(earlier, 'asfound.db'))]).toEqual(['700', '600']);
  const shared = join(data, 'shared');
  mkdirSync(shared);
  writeFileSync(join(shared, 'letter.txt'), '');
  chmodSync(shared, 0o755);
  const server = await started({ ASFOUND_DATA: shared });
  expect([mode(shared), mode(join(shared, 'asfound.db'))]).toEqual(['755', '600']);
  expect(server.output()).toContain(`chmod 700 ${shared}`);
});

test('as JSON every line is an object, and no pairing code is among them', async () => {
  const port = await freePort();
  const server = await started({ ASFOUND_LOG: 'json', PORT: String(port) }, { ready: '"event":"started"' });
  expect((await fetch(`http://127.0.0.1:${port}/api/health`)).status).toBe(200);
  expect(await server.kill('SIGTERM')).toBe(0);
  const lines = server.output().trim().split('\n');
  const form = z.object({ at: z.string(), level: z.string(), event: z.string(), text: z.string() });
  expect(lines.map((line) => z.parse(form, JSON.parse(line)).event)).toContain('started');
  expect(server.output()).not.toContain('It works once');
});

test('started before its database, it says that it waits, and serves when the database is there', async () => {
  const url = await fresh();
  await node.kill();
  let reviving: Promise<Node> | null = null;
  const server = await started(
    { DATABASE_URL: url },
    {
      heard: (text) => {
        if (text.includes('cannot be reached yet')) reviving ??= node.revive();
      },
    },
  );
  expect(reviving).not.toBeNull();
  node = (await reviving) ?? node;
  expect((await fetch(`http://127.0.0.1:${server.port}/api/health`)).status).toBe(200);
});

test.each(['sqlite', 'postgresql'])('several started at once on an empty database do not race (%s)', async (which) => {
  const env = { ASFOUND_DATA: data, ...(which === 'sqlite' ? {} : { DATABASE_URL: await fresh() }) };
  const ends = await Promise.all([1, 2, 3, 4].map(() => runServer(file, ['--pair'], env)));
  expect(ends.map((end) => end.status)).toEqual([0, 0, 0, 0]);
  expect(new Set(ends.map((end) => printedCode(end.output))).size).toBe(4);
});

test('pages that were overwritten turn health to failing by themselves, and no push is answered "stored"', async () => {
  const server = await started({});
  const pairing = await post(server.port, '/api/pair', { code: server.code, phone: 'Phone', station: STATION });
  const { token } = z.parse(pairAnswerSchema, await pairing.json());
  for (let batch = 0; batch < 4; batch += 1) {
    const texts = Array.from({ length: 50 }, (_, i) => {
      return eventText(`e${batch}-${i}`, { seq: batch * 50 + i + 1, payload: { text: 'x'.repeat(3000) } });
    });
    expect((await post(server.port, '/api/events', { texts }, token)).status).toBe(200);
  }
  expect(await server.kill('SIGTERM')).toBe(0);
  overwritePages(join(data, 'asfound.db'), 'events');
  const again = await started({});
  let health = { status: 0, text: '' };
  while (health.status !== 503) {
    const answer = await fetch(`http://127.0.0.1:${again.port}/api/health`);
    health = { status: answer.status, text: await answer.text() };
  }
  const said = z.parse(healthSchema, JSON.parse(health.text));
  expect(said).toMatchObject({ status: 'failing', reads: true, writes: false });
  expect(said.damaged?.count).toBeGreaterThan(0);
  expect(said.damaged?.names[0]).toMatch(/^database file: /);
  const pushed = await post(again.port, '/api/events', { texts: [eventText('new', { seq: 201 })] }, token);
  expect([pushed.status, z.parse(errorSchema, await pushed.json()).type]).toEqual([500, 'failed']);
  expect(again.output()).toContain('The database file is damaged');
});

test('told to end while its database says nothing, it ends all the same', async () => {
  const server = await started({ DATABASE_URL: await fresh() });
  node.freeze();
  try {
    const asked = post(server.port, '/api/pair', { code: server.code, phone: 'Phone', station: STATION });
    asked.catch(() => undefined);
    expect(await server.kill('SIGTERM')).toBe(0);
    await asked.then(
      (answer) => expect(answer.status).toBe(503),
      () => undefined,
    );
  } finally {
    node.thaw();
  }
});
