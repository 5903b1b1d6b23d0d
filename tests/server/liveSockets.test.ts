// The stream of news over real sockets: two processes on one database, a listener that reads nothing, a clean end.
import { mkdtempSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { createHints, type Hints } from '../../src/server/live/hints.ts';
import { pairAnswerSchema, WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText, STATION } from './help.ts';
import { type Heard, heard } from './liveHelp.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';
import { bundleServer, runServer, type ServerProcess, startServer } from './process.ts';

let file: string;
let data: string;
let postgres: TestPostgres;
let running: ServerProcess[] = [];
beforeAll(async () => {
  file = await bundleServer('live');
  postgres = await startPostgres();
});
afterAll(async () => await postgres?.stop());
beforeEach(() => {
  data = mkdtempSync(join(tmpdir(), 'asfound-live-'));
});
afterEach(async () => {
  for (const server of running) if (server.child.exitCode === null) await server.kill('SIGKILL');
  running = [];
  rmSync(data, { recursive: true });
});

async function started(env: Record<string, string>): Promise<ServerProcess> {
  const server = await startServer(file, { PORT: '0', ASFOUND_DATA: data, ...env });
  running.push(server);
  return server;
}

async function asked(server: ServerProcess, method: string, path: string, token: string, json?: unknown) {
  return await fetch(`http://127.0.0.1:${server.port}${path}`, {
    method,
    headers: { [WIRE_HEADER]: '1', authorization: `Bearer ${token}` },
    ...(json === undefined ? {} : { body: JSON.stringify(json) }),
  });
}
const listen = async (server: ServerProcess, token: string): Promise<Heard> =>
  heard(await asked(server, 'GET', '/api/live', token));
async function paired(server: ServerProcess, code = server.code): Promise<string> {
  const json = { code, phone: 'Phone', station: STATION };
  return z.parse(pairAnswerSchema, await (await asked(server, 'POST', '/api/pair', '', json)).json()).token;
}

const databases: [string, () => Promise<Record<string, string>>][] = [
  ['sqlite', async () => ({})],
  ['postgresql', async () => ({ DATABASE_URL: await postgres.fresh() })],
];

describe.each(databases)('processes on %s', (_dialect, env) => {
  test('tell a phone of either what the other took in, and where people are', async () => {
    const where = await env();
    const [one, two] = [await started(where), await started(where)];
    const token = await paired(one);
    const made = (await (await asked(one, 'POST', '/api/codes', token)).json()) as { code: string };
    const guest = await paired(two, made.code);
    const streams = [await listen(one, token), await listen(two, token)];
    for (const stream of streams) expect(await stream.until('events')).toEqual({ type: 'events', top: 0 });
    await asked(two, 'POST', '/api/events', guest, { texts: [eventText('a')] });
    for (const stream of streams) expect(await stream.until('events')).toEqual({ type: 'events', top: 1 });
    const at = { name: 'Ilse', audit: 'audit-1', unit: 'FR-2', place: 'FR-2/P05' };
    await asked(one, 'PUT', '/api/presence', guest, { at });
    for (const stream of streams) expect((await stream.until('present')).present).toMatchObject([at]);
    for (const stream of streams) await stream.leave();
  });

  test('lose a phone that the terminal removes, and its stream ends', async () => {
    const where = await env();
    const server = await started(where);
    const token = await paired(server);
    const made = (await (await asked(server, 'POST', '/api/codes', token)).json()) as { code: string };
    const guest = await paired(server, made.code);
    const stream = await listen(server, guest);
    await stream.until('events');
    const terminal = async (...args: string[]) =>
      await runServer(file, ['--phones', ...args], { ASFOUND_DATA: data, ...where });
    const listed = await terminal();
    expect(listed.output).toContain(`2 phones of ${STATION.name}:`);
    const [, id = ''] = /^ {2}(p-\w+) {2}Phone: .*let in by Phone/m.exec(listed.output) ?? [];
    expect(await terminal('--remove', 'p-none')).toMatchObject({ status: 2 });
    const removed = await terminal('--remove', id);
    expect([removed.status, removed.output]).toEqual([0, expect.stringContaining('is removed')]);
    for (let news = await stream.next(); news !== null; ) news = await stream.next();
    expect((await asked(server, 'GET', '/api/phones', guest)).status).toBe(401);
    expect((await asked(server, 'GET', '/api/phones', token)).status).toBe(200);
  });

  test('end their streams when they are told to stop, and themselves at once', async () => {
    const server = await started(await env());
    const stream = await listen(server, await paired(server));
    await stream.until('events');
    const ended = server.kill('SIGTERM');
    expect(await stream.next()).toBeNull();
    expect(await ended).toBe(0);
  });
});

test('a listener that takes nothing from its socket holds up neither the others nor the end', async () => {
  const server = await started({});
  const token = await paired(server);
  const deaf = connect(server.port, '127.0.0.1');
  deaf.pause();
  deaf.write(
    `GET /api/live HTTP/1.1\r\nHost: localhost\r\n${WIRE_HEADER}: 1\r\nAuthorization: Bearer ${token}\r\n\r\n`,
  );
  const stream = await listen(server, token);
  for (let top = 1; top <= 20; top += 1) {
    await asked(server, 'POST', '/api/events', token, { texts: [eventText(`e${top}`)] });
    for (let heard = 0; heard < top; ) heard = (await stream.until('events')).top;
  }
  const gone = new Promise<void>((close) => deaf.once('close', () => close()));
  expect(await server.kill('SIGTERM')).toBe(0);
  deaf.resume();
  await gone;
});

describe('hints over PostgreSQL', () => {
  let open: Hints[] = [];
  afterEach(() => {
    for (const hints of open) hints.close();
    open = [];
  });

  /** Retries come at once, as often as it takes. */
  function hintsAt(url: string): { hints: Hints; heard: string[]; until: (n: number) => Promise<void> } {
    const hints = createHints({
      url,
      after: (_ms, call) => {
        const again = setImmediate(call);
        return () => clearImmediate(again);
      },
    });
    open.push(hints);
    const heardHere: string[] = [];
    let tell: () => void = () => undefined;
    hints.listen((station) => {
      heardHere.push(station);
      tell();
    });
    const until = async (n: number) => {
      while (heardHere.length < n) {
        await new Promise<void>((told) => {
          tell = told;
        });
      }
    };
    return { hints, heard: heardHere, until };
  }
  /** Says it until the other side is there to hear: a hint may be lost, and is so before both are connected. */
  async function sayUntil(hints: Hints, station: string, reached: Promise<void>): Promise<void> {
    let done = false;
    void reached.then(() => {
      done = true;
    });
    while (!done) {
      hints.tell(station);
      await new Promise<void>((next) => setImmediate(next));
    }
  }

  test('reach the other process and not the one that gave them', async () => {
    const url = await postgres.fresh();
    const [a, b] = [hintsAt(url), hintsAt(url)];
    await sayUntil(a.hints, 'st-a', b.until(1));
    await sayUntil(b.hints, 'st-b', a.until(1));
    expect([...new Set(a.heard)]).toEqual(['st-b']);
    expect([...new Set(b.heard)]).toEqual(['st-a']);
  });

  test('come again after the connection was cut', async () => {
    const url = await postgres.fresh();
    const [a, b] = [hintsAt(url), hintsAt(url)];
    await sayUntil(a.hints, 'st-before', b.until(1));
    const { default: pg } = await import('pg');
    const other = new pg.Client({ connectionString: url });
    await other.connect();
    await other.query(
      'select pg_terminate_backend(pid) from pg_stat_activity where datname = current_database() and pid <> pg_backend_pid()',
    );
    await other.end();
    const before = b.heard.length;
    await sayUntil(a.hints, 'st-after', b.until(before + 1));
    await sayUntil(a.hints, 'st-after', b.until(b.heard.length + 1));
    expect(b.heard.at(-1)).toBe('st-after');
  });
});
