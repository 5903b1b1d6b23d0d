// The stream of news as the phone holds it: what counts as alive, what as dead, and how soon it is tried again.
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { createLive, type Live, type LiveAnswer, type LiveState } from '../../src/sync/live.ts';
import { LIVE_PING_MS, type LiveMessage, WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText, pairedPhone, testServer } from '../server/help.ts';
import { HandTimers } from '../server/liveHelp.ts';
import { HandClock } from './memoryPhone.ts';

const OURS = { [WIRE_HEADER]: '1', 'content-type': 'text/event-stream; charset=utf-8' };
const PING: LiveMessage = { type: 'ping', now: 1, history: 'h-1' };
const line = (message: unknown) => `data: ${JSON.stringify(message)}\n\n`;

/** One question for the stream, answered by the test. */
class Way {
  aborted = false;
  answer: Promise<LiveAnswer | null>;
  private arrive: (answer: LiveAnswer | null) => void = () => undefined;
  private pieces: (string | null)[] = [];
  private wake: () => void = () => undefined;

  constructor(readonly token: string) {
    this.answer = new Promise((arrive) => {
      this.arrive = arrive;
    });
  }
  answers(status: number, headers: Record<string, string> = OURS): void {
    this.arrive({
      status,
      header: (name) => headers[name] ?? null,
      read: async () => {
        while (this.pieces.length === 0) {
          await new Promise<void>((wake) => {
            this.wake = wake;
          });
        }
        return this.pieces.shift() ?? null;
      },
    });
  }
  nobody(): void {
    this.arrive(null);
  }
  brings(...pieces: (string | null)[]): void {
    this.pieces.push(...pieces);
    this.wake();
  }
}

let clock: HandClock;
let ways: Way[];
let heard: LiveMessage[];
let states: LiveState[];
let live: Live;
beforeEach(() => {
  clock = new HandClock();
  [ways, heard, states] = [[], [], []];
  live = createLive({
    open: (token) => {
      const way = new Way(token);
      ways.push(way);
      const abort = () => {
        way.aborted = true;
      };
      return { answer: way.answer, abort };
    },
    clock,
    random: () => 0.5,
    onMessage: (message) => heard.push(message),
    onState: (state) => states.push(state),
  });
});

/** Lets everything run that needs no timer. */
const settled = async () => await new Promise<void>((done) => setImmediate(done));
const last = () => ways.at(-1) as Way;
async function opened(): Promise<Way> {
  live.start('token-1');
  last().answers(200);
  last().brings(line(PING));
  await settled();
  return last();
}

test('messages are read however the way cuts them, and only the first sign of life makes the way a live one', async () => {
  live.start('token-1');
  expect(last().token).toBe('token-1');
  last().answers(200);
  await settled();
  expect(states).toEqual([]);
  const text = line(PING) + line({ type: 'events', top: 7 }) + line({ type: 'present', present: [] });
  for (const char of text) last().brings(char);
  await settled();
  expect(states).toEqual(['live']);
  expect(heard).toEqual([PING, { type: 'events', top: 7 }, { type: 'present', present: [] }]);
});

test('kinds of a newer server, comments and damaged lines are passed over', async () => {
  const way = await opened();
  way.brings(': a comment\n\n', line({ type: 'not-invented-yet' }), 'data: {"type":"ev\n\n', 'event: x\n');
  way.brings(line({ type: 'events', top: 1 }));
  await settled();
  expect(heard).toEqual([PING, { type: 'events', top: 1 }]);
  expect(states).toEqual(['live']);
});

test('a way that is silent for twice the longest silence is dead, and is opened anew', async () => {
  const way = await opened();
  clock.at += LIVE_PING_MS;
  way.brings(line(PING));
  await settled();
  expect(clock.waits).toEqual([2 * LIVE_PING_MS]);
  clock.skip();
  expect(way.aborted).toBe(true);
  expect(states).toEqual(['live', 'none']);
  clock.skip();
  expect(ways).toHaveLength(2);
  // What the old one still brings counts for nothing.
  way.brings(line({ type: 'events', top: 99 }));
  await settled();
  expect(heard).toEqual([PING, PING]);
});

test('a proxy that lets headers through and holds the stream back is no live way', async () => {
  live.start('token-1');
  last().answers(200);
  await settled();
  clock.skip();
  expect(last().aborted).toBe(true);
  expect(states).toEqual([]);
  expect(clock.waits).toEqual([1500]);
});

test('waits grow while nobody answers, and begin anew only after a stream that stood a while', async () => {
  live.start('token-1');
  const waits: (number | undefined)[] = [];
  for (let turn = 0; turn < 5; turn += 1) {
    last().nobody();
    await settled();
    waits.push(clock.waits[0]);
    clock.skip();
  }
  expect(waits).toEqual([1500, 3000, 6000, 12_000, 24_000]);
  last().answers(200);
  last().brings(line(PING), null);
  await settled();
  expect(clock.waits).toEqual([48_000]);
  clock.skip();
  last().answers(200);
  last().brings(line(PING));
  await settled();
  clock.at += 2 * LIVE_PING_MS;
  last().brings(null);
  await settled();
  expect(clock.waits).toEqual([1500]);
  expect(states).toEqual(['live', 'none', 'live', 'none']);
});

test.each([
  ['a log-in page', 200, { 'content-type': 'text/html' }, 1500],
  ['a stream of somebody else', 200, { 'content-type': 'text/event-stream' }, 1500],
  ['an older server', 404, { [WIRE_HEADER]: '1' }, 3_600_000],
  ['a proxy that finds nothing', 404, {}, 1500],
  ['a server with too many streams', 429, { [WIRE_HEADER]: '1', 'retry-after': '60' }, 60_000],
  ['a refused token', 401, { [WIRE_HEADER]: '1' }, 1500],
])('%s is no stream', async (_who, status, headers, wait) => {
  live.start('token-1');
  last().answers(status, headers);
  last().brings(line(PING));
  await settled();
  expect([states, heard, clock.waits, last().aborted]).toEqual([[], [], [wait], true]);
});

test('a line without an end is cut off', async () => {
  const way = await opened();
  for (let turn = 0; turn < 17; turn += 1) way.brings(`data: ${'x'.repeat(70_000)}`);
  await settled();
  expect(way.aborted).toBe(true);
  expect(states).toEqual(['live', 'none']);
});

test('coming online cuts a wait short, but not one that the server asked for', async () => {
  live.start('token-1');
  last().nobody();
  await settled();
  live.retry();
  expect(ways).toHaveLength(2);
  live.retry();
  expect(ways).toHaveLength(2);
  last().answers(429, { [WIRE_HEADER]: '1', 'retry-after': '60' });
  await settled();
  live.retry();
  expect(ways).toHaveLength(2);
  clock.at += 60_000;
  live.retry();
  expect(ways).toHaveLength(3);
});

test('after a sleep in which no timer went off the way is opened anew, otherwise left as it is', async () => {
  const way = await opened();
  live.retry();
  expect(ways).toHaveLength(1);
  clock.at += 2 * LIVE_PING_MS + 1;
  live.retry();
  expect(way.aborted).toBe(true);
  expect(ways).toHaveLength(2);
  expect(states).toEqual(['live', 'none']);
});

test('another token ends the old stream; after stop nothing is asked, told or waited for', async () => {
  const way = await opened();
  live.start('token-1');
  expect(ways).toHaveLength(1);
  live.start('token-2');
  expect(way.aborted).toBe(true);
  expect(last().token).toBe('token-2');
  live.stop();
  last().answers(200);
  last().brings(line({ type: 'events', top: 5 }));
  await settled();
  live.retry();
  expect([heard, clock.waits, ways.length]).toEqual([[PING], [], 2]);
  expect(states).toEqual(['live', 'none']);
});

let db: Database | undefined;
afterEach(async () => {
  await db?.close();
  db = undefined;
});

test('the real server is heard: alive at once, and told of a push', async () => {
  const held = await openDatabase({ type: 'sqlite', file: ':memory:' });
  db = held;
  const ends = new AbortController();
  const timers = new HandTimers();
  const server = testServer(held, { after: timers.after, ends: ends.signal });
  const token = await pairedPhone(held, server);
  let tell: () => void = () => undefined;
  const until = async (type: LiveMessage['type'], n: number) => {
    while (heard.filter((one) => one.type === type).length < n) {
      await new Promise<void>((told) => {
        tell = told;
      });
    }
  };
  const real = createLive({
    open: (given) => ({
      abort: () => undefined,
      answer: server.ask('GET', '/api/live', { token: given }).then((answer) => {
        const reader = answer.body?.pipeThrough(new TextDecoderStream()).getReader();
        return {
          status: answer.status,
          header: (name: string) => answer.headers.get(name),
          read: async () => (await reader?.read())?.value ?? null,
        };
      }),
    }),
    clock,
    random: () => 0.5,
    onMessage: (message) => {
      heard.push(message);
      tell();
    },
    onState: (state) => states.push(state),
  });
  real.start(token);
  await until('events', 1);
  await server.ask('POST', '/api/events', { token, json: { texts: [eventText('a')] } });
  timers.fire();
  await until('events', 2);
  expect(heard.map((one) => (one.type === 'events' ? one.top : one.type))).toEqual(['ping', 0, 1]);
  expect(states).toEqual(['live']);
  real.stop();
  ends.abort();
});
