// What one station costs the server as it grows: the built server as a process of its own, on SQLite in a folder that is
// gone afterwards, asked over HTTP as phones ask it. Without a build the rows are left out.
import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  CURSOR_START,
  MAX_BATCH_EVENTS,
  MAX_COMPARED,
  MAX_PULL_EVENTS,
  toMark,
  WIRE_HEADER,
} from '../../src/wire/sync.ts';
import { against, counted, measure, type Row } from './benchMeasure.ts';

type Say = (text: string) => void;

/** Enough that the limit of requests per phone is not what is measured. */
const PHONES = 8;
const STATION = { id: 'st-bench', name: 'Bench Radio' };

/** @param events How many the station has in the end; a tenth of them is measured on the way, as the peer. */
export async function measureServer(say: Say, root: string, events: number): Promise<Row[]> {
  const program = join(root, 'dist-node', 'server.js');
  if (!existsSync(program)) {
    say('Not measured: the server, since there is no build.');
    return [];
  }
  const data = mkdtempSync(join(tmpdir(), 'asfound-bench-server-'));
  let server: Running | null = null;
  try {
    server = await startServer(program, root, data);
    const station = await createStation(server);
    say(`Measuring the server with ${events} events …`);
    const tenth = Math.ceil(events / 10);
    await station.fillTo(tenth);
    const peer = await measureAsked(station);
    const from = performance.now();
    await station.fillTo(events);
    const filling = performance.now() - from;
    const costs = await measureAsked(station);
    const whole = await station.pullAll();
    const memory = peakMemory(server.child);
    await server.stop();
    const began = performance.now();
    server = await startServer(program, root, data);
    const start = performance.now() - began;
    await server.stop();
    const size = `${events} events`;
    const grown = Object.entries(costs).map(([name, value]) =>
      against({ name, size, value, unit: 'ms' }, 'peer', `with ${tenth} events`, peer[name] ?? 0),
    );
    const perSecond = (events - tenth) / (filling / 1000);
    const bytes = folderBytes(data);
    return [
      ...grown,
      counted({ name: 'events taken in', size, value: perSecond, unit: 'per s' }),
      counted({ name: 'everything pulled by a new phone', size, value: whole / 1000, unit: 's' }),
      counted({ name: 'start until the code is printed', size, value: start, unit: 'ms' }),
      against(
        { name: 'on disk', size, value: bytes / 1e6, unit: 'MB' },
        'peer',
        'the texts',
        station.textBytes() / 1e6,
      ),
      ...(memory === null ? [] : [counted({ name: 'most memory of the server', size, value: memory, unit: 'MB' })]),
    ];
  } finally {
    await server?.stop();
    rmSync(data, { recursive: true, force: true });
  }
}

type Running = { child: ChildProcess; origin: string; code: string; stop: () => Promise<void> };

async function startServer(program: string, root: string, data: string): Promise<Running> {
  const env = { ...process.env, PORT: '0', ASFOUND_DATA: data, DATABASE_URL: '' };
  const child = spawn(process.execPath, [program], { cwd: root, env, stdio: ['ignore', 'pipe', 'inherit'] });
  const gone = new Promise<void>((done) => child.once('close', () => done()));
  const stop = async () => {
    child.kill();
    await gone;
  };
  let text = '';
  const ready = new Promise<{ port: string; code: string }>((done) => {
    child.stdout.setEncoding('utf8').on('data', (part: string) => {
      text += part;
      const port = /http:\/\/localhost:(\d+)/.exec(text)?.[1];
      const code = /^ {4}([0-9A-Z]{5} [0-9A-Z]{5})$/m.exec(text)?.[1];
      if (port && code) done({ port, code });
    });
  });
  const failed = gone.then(() => {
    throw new Error(`The server ended before it was ready:\n${text}`);
  });
  const { port, code } = await Promise.race([ready, failed]);
  failed.catch(() => undefined);
  return { child, origin: `http://127.0.0.1:${port}`, code, stop };
}

type Pulled = { events: { number: number; text: string }[]; next: string; more: boolean };
type Station = {
  fillTo: (count: number) => Promise<void>;
  push: (texts: string[]) => Promise<void>;
  pull: (after: string) => Promise<Pulled>;
  pullAll: () => Promise<number>;
  compare: (ids: number[]) => Promise<void>;
  count: () => number;
  /** Cursor behind about half of what is there. */
  middle: () => string;
  textBytes: () => number;
};

async function createStation({ origin, code }: Running): Promise<Station> {
  const tokens: string[] = [];
  let turn = 0;
  const ask = async <T>(method: string, path: string, json?: unknown): Promise<T> => {
    turn += 1;
    const token = tokens[turn % tokens.length];
    const answer = await fetch(`${origin}/api${path}`, {
      method,
      headers: { [WIRE_HEADER]: '1', ...(token ? { authorization: `Bearer ${token}` } : {}) },
      ...(json === undefined ? {} : { body: JSON.stringify(json) }),
    });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
    return (await answer.json()) as T;
  };
  const pair = async (with_: string, station: typeof STATION | null) =>
    tokens.push((await ask<{ token: string }>('POST', '/pair', { code: with_, phone: 'Bench', station })).token);
  await pair(code, STATION);
  while (tokens.length < PHONES) await pair((await ask<{ code: string }>('POST', '/codes')).code, null);

  let made = 0;
  let held = 0;
  let bytes = 0;
  const cursors: string[] = [];
  const push = async (texts: string[]) => {
    const { answers } = await ask<{ answers: { type: string; number: number }[] }>('POST', '/events', { texts });
    const last = answers.at(-1);
    if (answers.some(({ type }) => type !== 'stored') || !last) throw new Error('The server did not take an event.');
    cursors.push(toMark(last.number, toHash(texts.at(-1) ?? '')));
    held += texts.length;
    bytes += texts.reduce((sum, text) => sum + text.length, 0);
  };
  const next = (count: number) => {
    made += count;
    return Array.from({ length: count }, (_, i) => eventText(made - count + i));
  };
  const pull = async (after: string) =>
    await ask<Pulled>('GET', `/events?after=${encodeURIComponent(after)}&limit=${MAX_PULL_EVENTS}`);
  return {
    push,
    fillTo: async (count) => {
      const one = async () => {
        while (made < count) await push(next(Math.min(MAX_BATCH_EVENTS, count - made)));
      };
      await Promise.all(Array.from({ length: 4 }, one));
    },
    pull,
    pullAll: async () => {
      const from = performance.now();
      let seen = 0;
      for (let after = CURSOR_START, more = true; more; ) {
        const pulled = await pull(after);
        seen += pulled.events.length;
        ({ next: after, more } = pulled);
      }
      if (seen !== held) throw new Error(`Of ${held} events ${seen} came.`);
      return performance.now() - from;
    },
    compare: async (ids) => {
      const events = ids.map((id) => ({ id: `e-${id}`, hash: toHash(eventText(id)) }));
      const missing = await ask<{ events: string[] }>('POST', '/compare', { events, documents: [] });
      if (missing.events.length > 0) throw new Error('The server does not hold what it took.');
    },
    count: () => made,
    middle: () => cursors[Math.floor(cursors.length / 2)] ?? CURSOR_START,
    textBytes: () => bytes,
  };
}

async function measureAsked(station: Station): Promise<Record<string, number>> {
  const count = station.count();
  const spread = Array.from({ length: MAX_COMPARED }, (_, i) => Math.floor((i * count) / MAX_COMPARED));
  let extra = 0;
  const fresh = () => {
    extra += 1;
    return Array.from({ length: MAX_BATCH_EVENTS }, (_, i) => eventText(count, `x${count}-${extra}-${i}`));
  };
  return {
    'first page pulled': await measure(
      () => CURSOR_START,
      (after) => station.pull(after),
    ),
    'page pulled from the middle': await measure(
      () => station.middle(),
      (after) => station.pull(after),
    ),
    [`${MAX_COMPARED} events compared`]: await measure(
      () => spread,
      (ids) => station.compare(ids),
    ),
    [`${MAX_BATCH_EVENTS} events pushed`]: await measure(fresh, (texts) => station.push(texts)),
  };
}

/** As long as a statement of the walk is. */
function eventText(n: number, id = `e-${n}`): string {
  const place = `jack:room-${n % 7}|rack-${n % 90}|sw-${n % 400}|p${n % 48}`;
  const payload = {
    places: [place],
    said: [`SW${n % 400} P${n % 48}`],
    state: 'label',
    plugs: [{ labels: [{ text: String(1000 + (n % 25_000)) }] }],
    basis: 'seen',
    by: 'camera',
  };
  const log = `log-${n % PHONES}`;
  const prev = createHash('sha256').update(String(n)).digest('hex');
  const at = 1_800_000_000_000 + n * 1000;
  const head = { v: 1, id, station: STATION.id, audit: 'a-1', log, seq: Math.floor(n / PHONES) + 1, prev };
  return JSON.stringify({ ...head, author: 'Ines', at, zone: 60, kind: 'sighting', payload });
}

function toHash(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

function folderBytes(folder: string): number {
  const sizes = readdirSync(folder).map((name) => statSync(join(folder, name)));
  return sizes.reduce((sum, about) => sum + (about.isFile() ? about.size : 0), 0);
}

/** In MB; null where the system does not tell. */
export function peakMemory({ pid }: ChildProcess): number | null {
  const file = `/proc/${pid}/status`;
  const peak = existsSync(file) ? /^VmHWM:\s+(\d+) kB$/m.exec(readFileSync(file, 'utf8'))?.[1] : undefined;
  return peak === undefined ? null : Number(peak) / 1000;
}
