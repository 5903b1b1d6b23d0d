// The shipped server over real sockets: start, pairing, sudden death in the middle of an upload, and a clean end.
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { request as httpsRequest } from 'node:https';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { createFetchTransport } from '../../src/sync/fetchTransport.ts';
import type { Transport, TransportRequest } from '../../src/sync/ports.ts';
import { HandClock, MemoryPhone, nudged, restOf, startSync } from '../sync/memoryPhone.ts';
import { eventText, STATION, sha } from './help.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';
import { bundleServer, printedCode, runServer, type ServerProcess, startServer } from './process.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

let file: string;
let data: string;
let postgres: TestPostgres;
let running: ServerProcess[] = [];
beforeAll(async () => {
  file = await bundleServer('main');
  postgres = await startPostgres();
});
afterAll(async () => await postgres?.stop());
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'asfound-main-'));
});
afterEach(async () => {
  for (const server of running) if (server.child.exitCode === null) await server.kill('SIGKILL');
  running = [];
  rmSync(data, { recursive: true });
});

async function started(env: Record<string, string> = {}, port = 0): Promise<ServerProcess> {
  const server = await startServer(file, { PORT: String(port), ASFOUND_DATA: data, ...env });
  running.push(server);
  return server;
}

function transportTo(port: number): Transport {
  return createFetchTransport({
    fetch,
    makeAbort: () => {
      const controller = new AbortController();
      return { signal: controller.signal, abort: () => controller.abort() };
    },
    after: (ms, call) => {
      const timer = setTimeout(call, ms);
      return () => clearTimeout(timer);
    },
    origin: `http://127.0.0.1:${port}`,
  });
}

async function pairedWith(port: number, code: string, transport = transportTo(port)) {
  const phone = new MemoryPhone(STATION);
  const sync = startSync(phone, transport, new HandClock());
  const rest = restOf(sync);
  expect(await sync.pair(code, 'Phone')).toEqual({ type: 'paired', station: STATION });
  expect((await rest).type).toBe('idle');
  return { phone, sync };
}

/** When the write-ahead log has taken in a good part of a large document, whose transaction is then still open; or at the answer. */
async function grownOr(folder: string, answer: Promise<unknown>): Promise<void> {
  let answered = false;
  const heard = () => {
    answered = true;
  };
  void answer.then(heard, heard);
  const size = () => statSync(join(folder, 'asfound.db-wal'), { throwIfNoEntry: false })?.size ?? 0;
  const before = size();
  while (!answered && size() < before + 1_000_000) await new Promise((next) => setTimeout(next, 1));
}

const databases: [string, () => Promise<Record<string, string>>][] = [
  ['sqlite', async () => ({})],
  ['postgresql', async () => ({ DATABASE_URL: await postgres.fresh() })],
];

describe.each(databases)('on %s', (dialect, env) => {
  test('it says where it is, pairs with the printed code, and makes another while it runs', async () => {
    const where = await env();
    const server = await started(where);
    expect(server.output()).toContain(`http://localhost:${server.port}`);
    expect(server.output()).toContain('HTTPS');
    expect(await (await fetch(`http://127.0.0.1:${server.port}/api/health`)).json()).toMatchObject({
      database: dialect,
      wire: 1,
    });
    await pairedWith(server.port, server.code);
    const second = await runServer(file, ['--pair'], { ASFOUND_DATA: data, ...where });
    expect(second.status).toBe(0);
    expect(second.output).toContain(STATION.name);
    await pairedWith(server.port, printedCode(second.output));
    const unknown = await runServer(file, ['--pair', 'No such station'], { ASFOUND_DATA: data, ...where });
    expect(unknown.status).toBe(2);
    expect(unknown.output).toContain(`${STATION.id}  ${STATION.name}`);
    expect(await server.kill('SIGTERM')).toBe(0);
  });

  test('killed in the middle of uploads, it holds every event and document exactly once afterwards', async () => {
    const where = await env();
    let server = await started(where);
    const { port } = server;
    const plain = transportTo(port);
    // Each of these requests is on its way when the process dies; what was stored of it is for the phones to find out.
    const deadly = new Set<number>();
    let asked = 0;
    let deaths = 0;
    let armed = false;
    const isAlive = () => server.child.exitCode === null && server.child.signalCode === null;
    const phone = await pairedWith(port, server.code, {
      cancel: plain.cancel,
      send: async (request: TransportRequest) => {
        // Lanes go side by side, so that one may ask a server that another has just seen die.
        const counts = armed && isAlive();
        asked += counts ? 1 : 0;
        const answer = plain.send(request);
        if (counts && deadly.delete(asked)) {
          deaths += 1;
          if (dialect === 'sqlite' && request.method === 'PUT') await grownOr(data, answer);
          await server.kill('SIGKILL');
        }
        return await answer;
      },
    });
    const bytes = (size: number, first: number) => new Uint8Array(size).map((_, i) => (i * first + (i >> 9)) % 251);
    const ids = Array.from({ length: 450 }, (_, i) => `e${i}`);
    for (const id of ids) phone.phone.record(id, eventText(id));
    const names = [6_000_000, 300_000, 9_000_000, 10].map((size, i) =>
      phone.phone.addDocument(bytes(size, i + 3), 'application/octet-stream'),
    );
    // Batches of events, parts of documents and what goes with them, whichever it meets.
    for (const n of [2, 7, 12]) deadly.add(n);
    armed = true;
    let state = await nudged(phone.sync);
    const waiting = () => phone.phone.waiting.size + phone.phone.waitingDocuments.size;
    while (state.type !== 'idle' || waiting() > 0) {
      if (!isAlive()) server = await started(where, port);
      const rest = restOf(phone.sync);
      phone.sync.clock.skip();
      state = await rest;
    }
    expect(deaths).toBe(3);
    const second = await runServer(file, ['--pair', STATION.id], { ASFOUND_DATA: data, ...where });
    const other = await pairedWith(port, printedCode(second.output));
    for (const name of names) other.phone.want(name);
    expect((await nudged(other.sync)).type).toBe('idle');
    expect(other.phone.events).toEqual(phone.phone.events);
    expect([...other.phone.documents.keys()].sort()).toEqual([...names].sort());
    expect(other.phone.at.startsWith('450-')).toBe(true);
  });
});

test('an upload whose sender vanishes half way is not there afterwards', async () => {
  const server = await started();
  const { phone, sync } = await pairedWith(server.port, server.code);
  const bytes = new Uint8Array(3_000_000).fill(7);
  await new Promise<void>((gone) => {
    const socket = connect(server.port, '127.0.0.1', () => {
      socket.write(
        `PUT /api/documents/${sha(bytes)} HTTP/1.1\r\nHost: localhost\r\nasfound-wire: 1\r\n` +
          `Authorization: Bearer ${phone.paired?.token}\r\nContent-Type: application/octet-stream\r\n` +
          `Content-Length: ${bytes.byteLength}\r\n\r\n`,
      );
      socket.write(bytes.subarray(0, 2_000_000), () => socket.destroy());
    });
    socket.on('close', () => gone());
  });
  const head = await fetch(`http://127.0.0.1:${server.port}/api/documents/${sha(bytes)}`, {
    method: 'HEAD',
    headers: { 'asfound-wire': '1', authorization: `Bearer ${phone.paired?.token}` },
  });
  expect(head.status).toBe(404);
  phone.addDocument(bytes, 'application/octet-stream');
  expect((await nudged(sync)).type).toBe('idle');
  expect(phone.settledDocuments.map((one) => one.settlement.type)).toEqual(['stored']);
});

test('a document over the limit is refused over the wire and stays on the phone', async () => {
  const server = await started();
  const { phone, sync } = await pairedWith(server.port, server.code);
  const name = phone.addDocument(new Uint8Array(33 * 1024 * 1024), 'application/octet-stream');
  const next = phone.addDocument(new Uint8Array(5), 'application/octet-stream');
  expect((await nudged(sync)).type).toBe('idle');
  expect(phone.settledDocuments).toMatchObject([
    { sha: name, settlement: { type: 'refused', why: 'too-large' } },
    { sha: next, settlement: { type: 'stored' } },
  ]);
  expect(phone.documents.has(name)).toBe(true);
});

test('with a certificate it speaks HTTPS and says under which name a phone reaches it', async () => {
  const folder = resolve('tests/server/fixtures');
  const [cert, key] = [join(folder, 'test-only.cert.pem'), join(folder, 'test-only.key.pem')];
  const server = await started({ ASFOUND_TLS_CERT: cert, ASFOUND_TLS_KEY: key });
  expect(server.output()).toContain(`https://audit.example.org:${server.port}`);
  expect(server.output()).toMatch(/ends in \d+ days/);
  const status = await new Promise<number | undefined>((done, failed) => {
    const options = { port: server.port, path: '/api/health', ca: readFileSync(cert), servername: 'audit.example.org' };
    httpsRequest({ host: '127.0.0.1', ...options, agent: false }, (answer) => {
      answer.resume().on('end', () => done(answer.statusCode));
    })
      .on('error', failed)
      .end();
  });
  expect(status).toBe(200);
  expect(await server.kill('SIGINT')).toBe(0);
});

test('what is wrong with the settings is said in a sentence, and nothing is started', async () => {
  const server = await started();
  const cases: [Record<string, string>, string][] = [
    [{ PORT: 'eight' }, 'PORT has to be a number'],
    [{ DATABASE_URL: 'mysql://x' }, 'DATABASE_URL has to begin with postgres://'],
    [{ ASFOUND_TLS_CERT: 'only-one.pem' }, 'needs both'],
    [{ PORT: String(server.port) }, 'in use already'],
    [
      { PORT: '0', DATABASE_URL: 'postgres://tests@127.0.0.1:1/none', ASFOUND_DATABASE_WAIT: '1' },
      'could not be brought up to date',
    ],
    [{ ASFOUND_LOG: 'xml' }, 'ASFOUND_LOG has to be'],
    [{ ASFOUND_QUIET_HOURS: 'at night' }, 'ASFOUND_QUIET_HOURS has to be'],
  ];
  for (const [env, sentence] of cases) {
    const end = await runServer(file, [], { ASFOUND_DATA: data, ...env });
    expect([end.status, end.output]).toEqual([1, expect.stringContaining(sentence)]);
  }
});
