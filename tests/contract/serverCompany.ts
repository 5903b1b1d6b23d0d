// What phones of one station may expect of each other's company, whichever database is below and however many processes
// serve it: news, presence, who may remove whom, and limits that do not multiply.
import { afterEach, beforeEach, expect, test } from 'vitest';
import * as z from 'zod/mini';
import type { AppParts } from '../../src/server/app.ts';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { createLive, LIVE_LIFE_MS } from '../../src/server/live/live.ts';
import { makeCode, pairPhone } from '../../src/server/phones/pairing.ts';
import { errorSchema, LIVE_PING_MS, PRESENCE_LIFE_MS, phonesAnswerSchema, WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText, OTHER, pairedPhone, STATION, type TestServer, testServer } from '../server/help.ts';
import { HandTimers, hear } from '../server/liveHelp.ts';

type Process = TestServer & { db: Database; timers: HandTimers };

/** Longer than news is gathered, shorter than the time between two looks. */
const SOON_MS = 500;

const AT = { name: 'Ilse', audit: 'audit-1', unit: 'FR-2', place: 'FR-2/P05' };

export function describeServerCompany(fresh: () => Promise<DatabaseAddress>): void {
  let at: DatabaseAddress;
  let processes: Process[] = [];
  let ending: AbortController;

  async function process(parts: Partial<AppParts> = {}): Promise<Process> {
    const db = await openDatabase(at);
    const timers = new HandTimers();
    const server = testServer(db, { after: timers.after, ends: ending.signal, ...parts });
    const one = { ...server, db, timers };
    processes.push(one);
    return one;
  }

  beforeEach(async () => {
    at = await fresh();
    ending = new AbortController();
  });
  afterEach(async () => {
    ending.abort();
    for (const { db, failures } of processes) {
      await db.close();
      expect(failures).toEqual([]);
    }
    processes = [];
  });

  async function refusal(answer: Response): Promise<string> {
    expect(answer.headers.get(WIRE_HEADER)).toBe('1');
    return `${answer.status} ${z.parse(errorSchema, await answer.json()).type}`;
  }
  const push = async (on: Process, token: string, id: string) =>
    await on.ask('POST', '/api/events', { token, json: { texts: [eventText(id)] } });
  const say = async (on: Process, token: string, where: unknown) =>
    await on.ask('PUT', '/api/presence', { token, json: { at: where } });

  /** A phone let in by a code of another one, or of the terminal. */
  async function letIn(on: Process, by: string | null, name: string): Promise<{ token: string; phoneId: string }> {
    const made =
      by === null
        ? await makeCode(on.db, on.random, on.clock.now(), STATION)
        : ((await (await on.ask('POST', '/api/codes', { token: by })).json()) as { code: string });
    const paired = await pairPhone(on.db, on.random, on.clock.now(), { code: made.code, phone: name, station: null });
    if (paired.type !== 'paired') throw new Error(paired.type);
    return paired.answer;
  }

  test('a phone that listens is told at once that the way is alive, and of every push', async () => {
    const one = await process();
    const token = await pairedPhone(one.db, one);
    await push(one, token, 'before');
    const live = await hear(one, token);
    expect(live.answer.headers.get('content-type')).toBe('text/event-stream; charset=utf-8');
    expect(live.answer.headers.get('cache-control')).toBe('no-store, no-transform');
    expect(live.answer.headers.get('x-accel-buffering')).toBe('no');
    const station = await one.db.query.selectFrom('stations').select('history').executeTakeFirstOrThrow();
    expect(await live.next()).toEqual({ type: 'ping', now: one.clock.now(), history: station.history });
    expect(await live.next()).toEqual({ type: 'events', top: 1 });
    await push(one, token, 'a');
    await push(one, token, 'b');
    one.timers.fire();
    expect(await live.next()).toEqual({ type: 'events', top: 3 });
    // Sent again, it is no news; the next is.
    await push(one, token, 'b');
    await push(one, token, 'c');
    one.timers.fire();
    expect(await live.next()).toEqual({ type: 'events', top: 4 });
  });

  test('what another process took in is told within a look, to its station alone', async () => {
    const [one, two] = [await process(), await process()];
    const token = await pairedPhone(one.db, one);
    const stranger = await pairedPhone(one.db, one, OTHER);
    const live = await hear(one, token);
    const far = await hear(one, stranger);
    expect([await live.next(), await far.next()]).toMatchObject([{ type: 'ping' }, { type: 'ping' }]);
    expect([await live.next(), await far.next()]).toEqual([
      { type: 'events', top: 0 },
      { type: 'events', top: 0 },
    ]);
    await push(two, token, 'a');
    one.timers.fire();
    expect(await live.next()).toEqual({ type: 'events', top: 1 });
    one.clock.move(LIVE_PING_MS);
    one.timers.fire();
    expect(await far.next()).toMatchObject({ type: 'ping' });
  });

  test('a hint of another process makes one look sooner, and a hint without news is none', async () => {
    const ears: ((station: string) => void)[] = [];
    const hints = {
      tell: (station: string) => {
        for (const ear of ears) ear(station);
      },
      listen: (ear: (typeof ears)[number]) => void ears.push(ear),
    };
    const [one, two] = [await process({ hints }), await process({ hints })];
    const token = await pairedPhone(one.db, one);
    const live = await hear(one, token);
    expect(await live.until('events')).toEqual({ type: 'events', top: 0 });
    hints.tell(STATION.id);
    hints.tell('st-unknown');
    one.timers.fire(SOON_MS);
    await push(two, token, 'a');
    // Neither of them comes to its regular look.
    two.timers.fire(SOON_MS);
    one.timers.fire(SOON_MS);
    expect(await live.next()).toEqual({ type: 'events', top: 1 });
  });

  test('a new numbering of the station is told at once, with its own top', async () => {
    const one = await process();
    const token = await pairedPhone(one.db, one);
    await push(one, token, 'a');
    await push(one, token, 'b');
    const live = await hear(one, token);
    expect(await live.until('events')).toEqual({ type: 'events', top: 2 });
    await one.db.query.updateTable('stations').set({ history: 'h-restored', next_number: 2 }).execute();
    one.timers.fire();
    expect(await live.next()).toEqual({ type: 'ping', now: one.clock.now(), history: 'h-restored' });
    expect(await live.next()).toEqual({ type: 'events', top: 1 });
  });

  test('silence is broken before a phone takes the way for dead', async () => {
    const one = await process();
    const live = await hear(one, await pairedPhone(one.db, one));
    await live.until('events');
    for (let turn = 0; turn < 3; turn += 1) {
      one.clock.move(LIVE_PING_MS);
      one.timers.fire();
      expect(await live.next()).toMatchObject({ type: 'ping', now: one.clock.now() });
    }
  });

  test('a stream ends after an hour, when its phone is removed in any process, and when the server stops', async () => {
    const [one, two] = [await process(), await process()];
    const token = await pairedPhone(one.db, one);
    const old = await hear(one, token);
    await old.until('events');
    one.clock.move(LIVE_LIFE_MS);
    one.timers.fire();
    expect(await old.next()).toBeNull();

    const guest = await letIn(one, token, 'Guest');
    const other = await letIn(one, token, 'Other');
    const [here, there] = [await hear(one, guest.token), await hear(one, other.token)];
    await Promise.all([here.until('events'), there.until('events')]);
    expect((await one.ask('DELETE', `/api/phones/${guest.phoneId}`, { token })).status).toBe(204);
    expect(await here.next()).toBeNull();
    expect((await two.ask('DELETE', `/api/phones/${other.phoneId}`, { token })).status).toBe(204);
    one.timers.fire();
    expect(await there.next()).toBeNull();

    const last = await hear(one, token);
    await last.until('events');
    ending.abort();
    expect(await last.next()).toBeNull();
    expect(one.timers.count).toBe(0);
  });

  test('streams are bounded: the oldest of a phone makes room, and too many in all are sent back to polling', async () => {
    const one = await process({ limits: { streamsInAll: 3 } });
    const token = await pairedPhone(one.db, one);
    const mine = [await hear(one, token), await hear(one, token), await hear(one, token)];
    for (const live of mine) await live.until('events');
    expect(await mine[0]?.next()).toBeNull();
    const guest = await hear(one, (await letIn(one, token, 'Guest')).token);
    await guest.until('events');
    const refused = await one.ask('GET', '/api/live', { token: (await letIn(one, token, 'Late')).token });
    expect(refused.headers.get('retry-after')).toBe('60');
    expect(await refusal(refused)).toBe('429 too-many');
    await guest.leave();
    await (await hear(one, (await letIn(one, token, 'Next')).token)).until('events');
  });

  test('a phone that does not read what is sent to it is dropped, and nothing piles up for it', async () => {
    const one = await process();
    await pairedPhone(one.db, one);
    const { id } = await one.db.query.selectFrom('phones').select('id').executeTakeFirstOrThrow();
    const limits = { streamsPerPhone: 1, streamsInAll: 1 };
    const live = createLive({
      ...one,
      now: one.clock.now,
      after: one.timers.after,
      limits,
      onFailure: () => undefined,
    });
    const stream = await live.open({ id, station: STATION.id });
    const reader = stream?.getReader();
    for (let top = 1; top < 2000; top += 1) {
      live.notify(STATION.id, top);
      one.timers.fire();
    }
    let bytes = 0;
    for (let part = await reader?.read(); part && !part.done; part = await reader?.read()) {
      bytes += part.value.byteLength;
    }
    expect(bytes).toBeGreaterThan(10_000);
    expect(bytes).toBeLessThan(20_000);
    expect(await live.open({ id, station: STATION.id })).not.toBeNull();
    live.close();
  });

  test('where a person is, is told to the others in every process, and forgotten when it is not said again', async () => {
    const [one, two] = [await process(), await process()];
    const token = await pairedPhone(one.db, one);
    const ilse = await letIn(one, token, 'Phone of Ilse');
    const live = await hear(one, token);
    await live.until('events');
    const said = await say(two, ilse.token, AT);
    expect(await said.json()).toEqual({ present: [] });
    one.timers.fire();
    const since = two.clock.now();
    const present = [{ ...AT, phone: ilse.phoneId, since }];
    expect(await live.next()).toEqual({ type: 'present', present });
    // Said again, since when stays and nothing is told anew; at the next jack it is.
    two.clock.move(30_000);
    one.clock.move(30_000);
    await say(two, ilse.token, AT);
    const mine = await say(one, token, { ...AT, name: 'Tom', place: 'FR-2/P06' });
    expect(await mine.json()).toEqual({ present });
    await say(two, ilse.token, { ...AT, place: 'FR-2/P06' });
    one.timers.fire();
    const moved = { ...AT, place: 'FR-2/P06', phone: ilse.phoneId, since: two.clock.now() };
    expect(await live.until('present')).toEqual({ type: 'present', present: [moved] });
    one.clock.move(PRESENCE_LIFE_MS);
    one.timers.fire();
    expect(await live.until('present')).toEqual({ type: 'present', present: [] });
  });

  test('nobody is told of who has left, was removed or belongs to another station', async () => {
    const one = await process();
    const token = await pairedPhone(one.db, one);
    const stranger = await pairedPhone(one.db, one, OTHER);
    const [a, b] = [await letIn(one, token, 'A'), await letIn(one, token, 'B')];
    for (const phone of [a.token, b.token, stranger]) await say(one, phone, AT);
    const asked = async () => ((await (await say(one, token, AT)).json()) as { present: unknown[] }).present;
    expect(await asked()).toHaveLength(2);
    await say(one, a.token, null);
    expect(await asked()).toMatchObject([{ phone: b.phoneId }]);
    await one.ask('DELETE', `/api/phones/${b.phoneId}`, { token });
    expect(await asked()).toEqual([]);
    expect(await one.db.query.selectFrom('presence').select('station').orderBy('station').execute()).toEqual([
      { station: OTHER.id },
      { station: STATION.id },
    ]);
  });

  test('presence is judged by its form and slowed down', async () => {
    const one = await process({ limits: { presence: { capacity: 4, perSecond: 1 } } });
    const token = await pairedPhone(one.db, one);
    expect(await refusal(await say(one, token, { ...AT, name: 'a\u0000b' }))).toBe('400 bad-request');
    expect(await refusal(await say(one, token, { ...AT, unit: 'x'.repeat(401) }))).toBe('400 bad-request');
    expect(await refusal(await say(one, token, { ...AT, audit: '../x' }))).toBe('400 bad-request');
    expect((await say(one, token, { name: 'Ilse', audit: null, unit: null, place: null })).status).toBe(200);
    const slowed = await say(one, token, AT);
    expect(slowed.headers.get('retry-after')).toBe('1');
    expect(await refusal(slowed)).toBe('429 too-many');
  });

  test('a code made in one process works once in any', async () => {
    const [one, two] = [await process(), await process()];
    const token = await pairedPhone(one.db, one);
    const made = (await (await one.ask('POST', '/api/codes', { token })).json()) as { code: string };
    const json = { code: made.code, phone: 'B', station: null };
    expect((await two.ask('POST', '/api/pair', { json })).status).toBe(201);
    expect(await refusal(await one.ask('POST', '/api/pair', { json }))).toBe('403 code-used');
  });

  test('guesses of one address count once for all processes, and the limit of all is not drained by one', async () => {
    const [one, two] = [await process(), await process()];
    const json = { code: '2222222222', phone: 'A', station: null };
    for (let turn = 0; turn < 10; turn += 1) {
      const on = turn % 2 === 0 ? one : two;
      expect(await refusal(await on.ask('POST', '/api/pair', { json }))).toBe('403 code-unknown');
    }
    for (const on of [one, two]) {
      const slowed = await on.ask('POST', '/api/pair', { json });
      expect(slowed.headers.get('retry-after')).toBe('6');
      expect(await refusal(slowed)).toBe('429 too-many');
    }
    const inAll = await one.db.query.selectFrom('rates').select('level').where('key', '=', 'pair').execute();
    expect(inAll).toEqual([{ level: 50 }]);
    one.clock.move(6000);
    two.clock.move(6000);
    expect(await refusal(await two.ask('POST', '/api/pair', { json }))).toBe('403 code-unknown');
    expect(await refusal(await one.ask('POST', '/api/pair', { json }))).toBe('429 too-many');
  });

  test('a name that no phone can have is not found, without a failure', async () => {
    const one = await process();
    const token = await pairedPhone(one.db, one);
    for (const id of ['%00', 'p-a%00', '%2e%2e%2f', '%22', 'p-none']) {
      expect(await refusal(await one.ask('DELETE', `/api/phones/${id}`, { token }))).toBe('404 not-found');
    }
  });

  test('a phone removes itself and those it let in; the one that began the station removes every other', async () => {
    const one = await process();
    const keeper = await pairedPhone(one.db, one);
    const a = await letIn(one, keeper, 'A');
    const b = await letIn(one, a.token, 'B');
    const c = await letIn(one, null, 'C');
    const remove = async (token: string, id: string) => {
      const answer = await one.ask('DELETE', `/api/phones/${id}`, { token });
      return answer.status === 204 ? 'removed' : await refusal(answer);
    };
    const may = async (token: string) => {
      const listed = z.parse(phonesAnswerSchema, await (await one.ask('GET', '/api/phones', { token })).json());
      return Object.fromEntries(listed.phones.map((phone) => [phone.name, phone.mayRemove]));
    };
    expect(await may(keeper)).toEqual({ Phone: true, A: true, B: true, C: true });
    expect(await may(a.token)).toEqual({ Phone: false, A: true, B: true, C: false });
    expect(await may(c.token)).toEqual({ Phone: false, A: false, B: false, C: true });
    expect(await remove(c.token, a.phoneId)).toBe('403 not-allowed');
    expect(await remove(b.token, a.phoneId)).toBe('403 not-allowed');
    expect(await remove(a.token, b.phoneId)).toBe('removed');
    expect(await remove(c.token, c.phoneId)).toBe('removed');
    // Its codes go with it: whoever was struck off must not let anybody in any more.
    const left = (await (await one.ask('POST', '/api/codes', { token: a.token })).json()) as { code: string };
    expect(await remove(keeper, a.phoneId)).toBe('removed');
    const late = await one.ask('POST', '/api/pair', { json: { code: left.code, phone: 'D', station: null } });
    expect(await refusal(late)).toBe('403 code-unknown');
  });
}
