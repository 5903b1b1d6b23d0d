// The exchange against the real server's routes, without sockets.
import { describe, expect, test, vi } from 'vitest';
import { makeCode } from '../../src/server/phones/pairing.ts';
import { backoff, retryAfter } from '../../src/sync/ask.ts';
import { MAX_BATCH_BYTES, WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText, OTHER, STATION } from '../server/help.ts';
import { appTransport, MemoryPhone, madeUp, nudged, restOf, startSync } from './memoryPhone.ts';
import { db, paired, server, storedIds, useServer } from './pairedPhone.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
useServer();

describe('pairing', () => {
  test('a phone without a pairing says so and asks nothing', async () => {
    let asked = 0;
    const sync = startSync(
      new MemoryPhone(STATION),
      appTransport(server.app, () => {
        asked += 1;
        return 'carry';
      }),
    );
    expect(await nudged(sync)).toEqual({ type: 'unpaired' });
    expect(asked).toBe(0);
  });

  test('each refusal of a code has its own reason', async () => {
    const { sync } = await paired();
    const { code } = await makeCode(db, server.random, server.clock.now(), STATION);
    const stranger = startSync(new MemoryPhone(OTHER), appTransport(server.app));
    expect(await stranger.pair('hello', 'X')).toMatchObject({ type: 'not-paired', why: 'not-a-code' });
    expect(await stranger.pair('2222222222', 'X')).toMatchObject({ why: 'code-unknown' });
    expect(await stranger.pair(code, 'X')).toMatchObject({ why: 'station-differs' });
    expect((await sync.pair(code, 'X')).type).toBe('paired');
    expect(await sync.pair(code, 'X')).toMatchObject({ why: 'code-used' });
    const fresh = await makeCode(db, server.random, server.clock.now(), null);
    const empty = startSync(new MemoryPhone(null), appTransport(server.app));
    expect(await empty.pair(fresh.code, 'X')).toMatchObject({ why: 'station-needed' });
    const alone = startSync(
      new MemoryPhone(null),
      appTransport(server.app, () => 'lose-request'),
    );
    expect(await alone.pair(fresh.code, 'X')).toMatchObject({ why: 'no-answer' });
  });

  test('a revoked phone keeps its work, asks for pairing, and sends on after a new code', async () => {
    const { phone, sync } = await paired();
    await db.query.updateTable('phones').set({ revoked_at: 1 }).execute();
    phone.record('kept', eventText('kept'));
    expect(await nudged(sync)).toEqual({ type: 'stopped', why: 'needs-pairing' });
    expect([...phone.waiting.keys()]).toEqual(['kept']);
    sync.nudge('record');
    expect(sync.state()).toEqual({ type: 'stopped', why: 'needs-pairing' });
    const { code } = await makeCode(db, server.random, server.clock.now(), STATION);
    const rest = restOf(sync);
    await sync.pair(code, 'Phone');
    expect((await rest).type).toBe('idle');
    expect(await storedIds()).toEqual(['kept']);
    expect(phone.startedOver).toBe(0);
  });

  test('another server gets everything, whoever recorded it', async () => {
    const { phone, sync } = await paired();
    phone.record('a', eventText('a'));
    expect((await nudged(sync)).type).toBe('idle');
    await db.query.deleteFrom('events').execute();
    await db.query.deleteFrom('phones').execute();
    await db.query.updateTable('stations').set({ history: 'h-another', next_number: 1 }).execute();
    expect(await nudged(sync)).toEqual({ type: 'stopped', why: 'needs-pairing' });
    const { code } = await makeCode(db, server.random, server.clock.now(), STATION);
    const rest = restOf(sync);
    await sync.pair(code, 'Phone');
    await rest;
    expect(await storedIds()).toEqual(['a']);
  });
});

describe('events', () => {
  test('go out in batches within both limits, in order', async () => {
    const bodies: number[] = [];
    const { phone, sync } = await paired((request) => {
      if (request.method === 'POST')
        bodies.push((JSON.parse(String(request.body)) as { texts: string[] }).texts.length);
      return 'carry';
    });
    const ids = Array.from({ length: 450 }, (_, i) => `e${i}`);
    for (const id of ids) phone.record(id, eventText(id));
    const big = Array.from({ length: 10 }, (_, i) => `big${i}`);
    for (const id of big) phone.record(id, eventText(id, { payload: { text: '“'.repeat(40_000) } }));
    expect((await nudged(sync)).type).toBe('idle');
    expect(await storedIds()).toEqual([...ids, ...big]);
    // 40,000 characters of three bytes each: four of them fit beside nothing else.
    expect(Math.floor(MAX_BATCH_BYTES / 120_000)).toBe(4);
    expect(Math.max(...bodies)).toBe(200);
    expect(bodies.slice(3)).toEqual([4, 2]);
    expect(bodies[2]).toBe(54);
  });

  test('one that the server refuses stays in view and stops no other', async () => {
    const { phone, sync } = await paired();
    phone.record('bad', 'not json');
    phone.record('good', eventText('good'));
    expect((await nudged(sync)).type).toBe('idle');
    expect(phone.unsettled.get('bad')?.answer).toMatchObject({ type: 'refused', why: 'unreadable' });
    expect(await storedIds()).toEqual(['good']);
  });

  test('a batch that is too large for the way is halved until the one that spoils it is found', async () => {
    const { phone, sync } = await paired((request) =>
      String(request.body).includes('spoil') ? madeUp(413, '<html>Request Entity Too Large</html>') : 'carry',
    );
    for (let i = 0; i < 20; i += 1) phone.record(i === 13 ? 'spoil' : `e${i}`, eventText(i === 13 ? 'spoil' : `e${i}`));
    expect((await nudged(sync)).type).toBe('idle');
    expect([...phone.unsettled.keys()]).toEqual(['spoil']);
    expect(phone.unsettled.get('spoil')?.answer).toMatchObject({ type: 'refused', why: 'way' });
    expect(await storedIds()).toHaveLength(19);
  });

  test('a lost answer costs nothing: the same batch is answered with already', async () => {
    let lost = false;
    const { phone, sync } = await paired((request) => {
      if (request.method !== 'POST' || lost) return 'carry';
      lost = true;
      return 'lose-answer';
    });
    phone.record('once', eventText('once'));
    expect(await nudged(sync)).toMatchObject({ type: 'waiting', why: 'timeout', tries: 1 });
    expect(phone.waiting.size).toBe(1);
    const rest = restOf(sync);
    sync.clock.skip();
    expect((await rest).type).toBe('idle');
    expect(phone.settled.map((one) => one.answer.type)).toEqual(['already']);
    expect(await storedIds()).toEqual(['once']);
  });

  test('a server that was put back to an older copy gets everything once more', async () => {
    const { phone, sync } = await paired();
    phone.record('a', eventText('a'));
    phone.record('b', eventText('b'));
    await nudged(sync);
    await db.query.deleteFrom('events').where('id', '=', 'b').execute();
    await db.query.updateTable('stations').set({ next_number: 2 }).execute();
    expect((await nudged(sync)).type).toBe('idle');
    expect(await storedIds()).toEqual(['a', 'b']);
    expect(phone.waiting.size).toBe(0);
  });
});

describe('documents', () => {
  const json = (text: string) => new TextEncoder().encode(JSON.stringify({ text }));

  test('go out after the events, are not sent where they are already, and reach the phone that wants them', async () => {
    const puts: string[] = [];
    const { phone, sync } = await paired((request) => {
      if (request.method === 'PUT') puts.push(request.path);
      return 'carry';
    });
    const name = phone.addDocument(json('plan'), 'application/json');
    await nudged(sync);
    phone.addDocument(json('plan'), 'application/json');
    expect((await nudged(sync)).type).toBe('idle');
    expect(puts).toEqual([`/api/documents/${name}`]);
    const other = await paired();
    other.phone.want(name);
    other.phone.want('0'.repeat(64));
    expect((await nudged(other.sync)).type).toBe('idle');
    expect(other.phone.documents.get(name)).toEqual({ bytes: json('plan'), mime: 'application/json' });
    expect([...other.phone.wanted.keys()]).toEqual(['0'.repeat(64)]);
  });

  test('of a refused kind stay in view; one damaged on the way is sent again', async () => {
    let damage = true;
    const { phone, sync } = await paired((request) => {
      if (request.method !== 'PUT' || !damage || request.headers['content-type'] !== 'application/json') return 'carry';
      damage = false;
      const text = JSON.stringify({ type: 'hash-differs', sentence: 'Differs.' });
      return madeUp(422, text, { [WIRE_HEADER]: '1' });
    });
    phone.addDocument(new TextEncoder().encode('<svg onload="x()"/>'), 'image/svg+xml');
    const good = phone.addDocument(json('good'), 'application/json');
    expect((await nudged(sync)).type).toBe('idle');
    expect(phone.settledDocuments.map((one) => one.settlement.type)).toEqual(['refused', 'later']);
    const rest = restOf(sync);
    sync.clock.skip();
    expect((await rest).type).toBe('idle');
    expect(phone.settledDocuments.at(-1)).toMatchObject({ sha: good, settlement: { type: 'stored' } });
  });
});

test('what is recorded during a round goes out without another nudge from a person', async () => {
  const { phone, sync } = await paired((request) => {
    if (request.method === 'GET' && !phone.events.has('late')) {
      phone.record('late', eventText('late'));
      sync.nudge('record');
    }
    return 'carry';
  });
  phone.record('early', eventText('early'));
  expect((await nudged(sync)).type).toBe('idle');
  expect(await storedIds()).toEqual(['early', 'late']);
});

test('the wait is read from seconds or from a date, as RFC 9110 section 10.2.3 has both', () => {
  const now = Date.parse('2026-03-01T10:00:00Z');
  expect(retryAfter('120', now)).toBe(now + 120_000);
  expect(retryAfter('Sun, 01 Mar 2026 10:00:30 GMT', now)).toBe(now + 30_000);
  expect(retryAfter('999999999', now)).toBe(now + 3_600_000);
  expect([retryAfter('soon', now), retryAfter(null, now)]).toEqual([0, 0]);
  expect([1, 2, 3, 40].map((tries) => backoff(tries, () => 0))).toEqual([1000, 2000, 4000, 150_000]);
});
