// A primary with a synchronous standby, killed under load, and the standby promoted; twice. The server process goes on
// by itself, and what it acknowledged is there afterwards, once.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import * as z from 'zod/mini';
import { findPrimary, urlToHosts } from '../../src/server/database/postgresHosts.ts';
import {
  codeAnswerSchema,
  errorSchema,
  healthSchema,
  pairAnswerSchema,
  pullAnswerSchema,
  pushAnswerSchema,
  WIRE_HEADER,
} from '../../src/wire/sync.ts';
import { type Cluster, createCluster, DATABASE, freePort, type Node } from './cluster.ts';
import { eventText, STATION, sha } from './help.ts';
import { bundleServer, type ServerProcess, startServer } from './process.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 240_000, hookTimeout: 120_000 });

let cluster: Cluster;
let data: string;
let server: ServerProcess | undefined;
beforeAll(() => {
  cluster = createCluster();
  data = mkdtempSync(join(tmpdir(), 'asfound-ha-'));
});
afterAll(async () => {
  if (server?.child.exitCode === null) await server.kill('SIGKILL');
  await cluster.stop();
  rmSync(data, { recursive: true });
});

type Asked = { token?: string; json?: unknown; body?: BodyInit };

async function ask(method: string, path: string, { token, json, body }: Asked = {}): Promise<Response> {
  const headers: Record<string, string> = { [WIRE_HEADER]: '1', 'content-type': 'application/octet-stream' };
  if (token) headers.authorization = `Bearer ${token}`;
  const sent = json === undefined ? body : JSON.stringify(json);
  return await fetch(`http://127.0.0.1:${server?.port}${path}`, { method, headers, ...(sent ? { body: sent } : {}) });
}

async function pair(code: string): Promise<string> {
  const answer = await ask('POST', '/api/pair', { json: { code, phone: 'Phone', station: STATION } });
  return z.parse(pairAnswerSchema, await answer.json()).token;
}

/** Anything but an acknowledgement or a clear refusal stops the test. */
async function refusal(answer: Response): Promise<'away' | 'too-many' | null> {
  if (answer.status < 300) return null;
  const { type } = z.parse(errorSchema, await answer.json());
  expect(['503 database-away', '429 too-many']).toContain(`${answer.status} ${type}`);
  expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
  return type === 'too-many' ? type : 'away';
}

/** Phones that push one batch after the other and send again what was refused, until told to stop. */
class Load {
  readonly events = new Map<string, string>();
  readonly documents: string[] = [];
  refused = 0;
  slowest = 0;
  #going = true;
  #phones: Promise<void>[] = [];
  #failure: unknown = null;

  start(tokens: string[]): void {
    this.#phones = tokens.map((token, phone) =>
      this.#walk(phone, token).catch((error: unknown) => {
        this.#failure ??= error;
      }),
    );
  }
  async stop(): Promise<void> {
    this.#going = false;
    await Promise.all(this.#phones);
    if (this.#failure) throw this.#failure;
  }
  async reaches(what: () => boolean | Promise<boolean>): Promise<void> {
    await until(async () => {
      if (this.#failure) throw this.#failure;
      return await what();
    });
  }
  async acknowledges(more: number): Promise<void> {
    const before = this.events.size;
    await this.reaches(() => this.events.size >= before + more);
  }

  async #walk(phone: number, token: string): Promise<void> {
    for (let turn = 0; this.#going; turn += 1) {
      const texts = Array.from({ length: 5 }, (_, i) => {
        const id = `p${phone}-${turn}-${i}`;
        return eventText(id, { log: `log-${phone}`, seq: turn * 5 + i + 1 });
      });
      const answer = await this.#untilTaken('POST', '/api/events', { token, json: { texts } });
      const { answers } = z.parse(pushAnswerSchema, await answer.json());
      expect(answers.every(({ type }) => type === 'stored' || type === 'already')).toBe(true);
      for (const [i, text] of texts.entries()) this.events.set(`p${phone}-${turn}-${i}`, text);
      if (turn % 10 !== 0) continue;
      const bytes = new Uint8Array(20_000).fill(phone + 1).map((byte, i) => byte + turn + i);
      await this.#untilTaken('PUT', `/api/documents/${sha(bytes)}`, { token, body: bytes });
      this.documents.push(sha(bytes));
    }
  }

  async #untilTaken(method: string, path: string, asked: Asked): Promise<Response> {
    for (;;) {
      const began = performance.now();
      const answer = await ask(method, path, asked);
      this.slowest = Math.max(this.slowest, performance.now() - began);
      const refused = await refusal(answer);
      if (refused === null) return answer;
      if (refused === 'away') this.refused += 1;
    }
  }
}

/** The test's own limit ends it; a busy machine takes as long as it takes. */
async function until(what: () => Promise<boolean>): Promise<void> {
  while (!(await what())) await new Promise((next) => setTimeout(next, 5));
}

async function pullAll(token: string): Promise<string[]> {
  const texts: string[] = [];
  for (let after = '0'; ; ) {
    const pulled = z.parse(
      pullAnswerSchema,
      await (await ask('GET', `/api/events?after=${after}&limit=500`, { token })).json(),
    );
    texts.push(...pulled.events.map(({ text }) => text));
    after = pulled.next;
    if (!pulled.more) return texts;
  }
}

test('killed under load and followed by its standby, twice, nothing acknowledged is lost', async () => {
  const first = await cluster.primary();
  const second = await cluster.standby(first, await freePort());
  // The standby stands first: which of the two takes writes is for the server to find out.
  const url = `postgres://tests@127.0.0.1:${second.port},127.0.0.1:${first.port}/${DATABASE}`;
  server = await startServer(await bundleServer('failover'), { PORT: '0', ASFOUND_DATA: data, DATABASE_URL: url });
  const token = await pair(server.code);
  const tokens = [token];
  for (let more = 0; more < 3; more += 1) {
    const made = await ask('POST', '/api/codes', { token });
    tokens.push(await pair(z.parse(codeAnswerSchema, await made.json()).code));
  }
  const load = new Load();
  load.start(tokens);

  const failOver = async (from: Node, to: Node) => {
    await load.acknowledges(100);
    const refused = load.refused;
    await from.kill();
    // Refused, not left waiting; and health says so.
    await load.reaches(() => load.refused > refused + 20);
    await load.reaches(async () => {
      const health = await ask('GET', '/api/health');
      return health.status === 503 && z.parse(healthSchema, await health.json()).status === 'failing';
    });
    to.promote();
    // It has no standby yet, and would acknowledge nothing if it had been told to wait for one.
    await to.ask(`alter system set synchronous_standby_names = ''`);
    await to.ask('select pg_reload_conf()');
    await load.acknowledges(100);
  };
  await failOver(first, second);
  const third = await cluster.standby(second, first.port);
  await failOver(second, third);
  // A primary that comes back after it was replaced still takes itself for one; who asks finds the later one.
  await second.revive();
  const found = await findPrimary(urlToHosts(url), 0, 10_000);
  expect(found).toMatchObject({ type: 'primary', host: { name: `127.0.0.1:${third.port}` } });
  await load.acknowledges(20);
  await load.stop();

  expect(server.child.exitCode).toBeNull();
  expect(load.refused).toBeGreaterThan(40);
  const pulled = await pullAll(token);
  expect(new Set(pulled).size).toBe(pulled.length);
  expect([...load.events.values()].sort()).toEqual([...pulled].sort());
  expect(load.documents.length).toBeGreaterThan(2);
  for (const name of load.documents) {
    const answer = await ask('GET', `/api/documents/${name}`, { token });
    expect(sha(new Uint8Array(await answer.arrayBuffer()))).toBe(name);
  }
  // No request hangs: the longest is that of a statement which nobody answers any more, and the search after it.
  expect(load.slowest).toBeLessThan(20_000);
  // An outage is a handful of lines, whatever was refused in it.
  expect(
    server
      .output()
      .split('\n')
      .filter((line) => /database|ECONN|again/i.test(line)).length,
  ).toBeLessThan(40);
  // An answer may be a second old.
  await until(async () => {
    const health = z.parse(healthSchema, await (await ask('GET', '/api/health')).json());
    return health.status === 'ok';
  });
  expect(await server.kill('SIGTERM')).toBe(0);
});
