// Everything that may answer in the server's place, or not at all: nothing leaves the outbox, and all goes out once
// it ends.
import { describe, expect, test, vi } from 'vitest';
import { WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText } from '../server/help.ts';
import { type Fate, madeUp, nudged, restOf } from './memoryPhone.ts';
import { paired, storedIds, useServer } from './pairedPhone.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
useServer();

describe('what may answer instead', () => {
  const ours = { [WIRE_HEADER]: '1' };
  const cases: [string, Fate, object][] = [
    ['a log-in page with 200', madeUp(200, '<html>Welcome</html>'), { type: 'waiting', why: 'not-our-server' }],
    ['a log-in page with 401', madeUp(401, '<html>Log in</html>'), { type: 'waiting', why: 'not-our-server' }],
    [
      'a failing server',
      madeUp(500, '{"type":"failed","sentence":"x"}', ours),
      { type: 'waiting', why: 'server-failed' },
    ],
    ['a proxy without a server behind it', madeUp(502, '<html>'), { type: 'waiting', why: 'server-failed' }],
    ['a busy server', madeUp(429, '{}', { ...ours, 'retry-after': '90' }), { type: 'waiting', why: 'server-busy' }],
    ['nothing', { type: 'nothing', why: 'unreachable' }, { type: 'waiting', why: 'no-answer' }],
    ['nothing in time', { type: 'nothing', why: 'timeout' }, { type: 'waiting', why: 'timeout' }],
    ['our server in no known form', madeUp(200, '{"answers":[]}', ours), { type: 'waiting', why: 'answer-unreadable' }],
    ['an older server', madeUp(200, '{}', { [WIRE_HEADER]: '0' }), { type: 'stopped', why: 'server-too-old' }],
    [
      'a server that has left this phone behind',
      madeUp(426, '{"type":"phone-too-old","sentence":"x"}', { [WIRE_HEADER]: '7' }),
      { type: 'stopped', why: 'phone-too-old' },
    ],
    ['the same without a body', madeUp(426, '', { [WIRE_HEADER]: '7' }), { type: 'stopped', why: 'phone-too-old' }],
  ];
  test.each(cases)('%s takes nothing from the outbox, and all goes out once it ends', async (_name, fate, state) => {
    let broken = true;
    const { phone, sync } = await paired(() => (broken ? fate : 'carry'));
    phone.record('kept', eventText('kept'));
    expect(await nudged(sync)).toMatchObject(state);
    expect(phone.waiting.size).toBe(1);
    expect(phone.paired).not.toBeNull();
    broken = false;
    if (sync.state().type === 'waiting') {
      const rest = restOf(sync);
      sync.clock.skip();
      expect((await rest).type).toBe('idle');
    } else {
      expect((await nudged(sync)).type).toBe('idle');
    }
    expect(await storedIds()).toEqual(['kept']);
    expect(sync.failures).toEqual([]);
  });

  test('waits grow, keep within five minutes, and never come before the time the server asked for', async () => {
    let header: Record<string, string> = {};
    const { sync } = await paired(() => madeUp(503, '', { ...ours, ...header }));
    const waits: number[] = [];
    await nudged(sync);
    for (let i = 0; i < 12; i += 1) {
      waits.push(Math.min(...sync.clock.waits));
      if (i === 10) header = { 'retry-after': '1200' };
      const rest = restOf(sync);
      sync.clock.skip();
      await rest;
    }
    expect(waits.slice(0, 4)).toEqual([1500, 3000, 6000, 12_000]);
    expect(waits[10]).toBe(225_000);
    expect(waits[11]).toBe(1_200_000);
    sync.nudge('person');
    expect(sync.state().type).toBe('waiting');
  });

  test('a sighting recorded while waiting does not wake the radio, but coming online does', async () => {
    let asked = 0;
    const { phone, sync } = await paired(() => {
      asked += 1;
      return 'lose-request';
    });
    await nudged(sync);
    const before = asked;
    phone.record('x', eventText('x'));
    sync.nudge('record');
    expect(asked).toBe(before);
    const rest = restOf(sync);
    sync.nudge('online');
    await rest;
    expect(asked).toBe(before + 1);
  });

  test('a phone whose database fails says so and tries again', async () => {
    const { phone, sync } = await paired();
    phone.record('x', eventText('x'));
    const settle = phone.settleEvents;
    phone.settleEvents = async () => {
      throw new Error('quota');
    };
    expect(await nudged(sync)).toMatchObject({ type: 'waiting', why: 'phone-failed' });
    expect(sync.failures).toHaveLength(1);
    phone.settleEvents = settle;
    const rest = restOf(sync);
    sync.clock.skip();
    expect((await rest).type).toBe('idle');
    expect(phone.settled.map((one) => one.answer.type)).toEqual(['already']);
  });

  test('after stop nothing is asked any more', async () => {
    let asked = 0;
    const { phone, sync } = await paired(() => {
      asked += 1;
      return 'carry';
    });
    phone.record('x', eventText('x'));
    sync.stop();
    sync.nudge('person');
    expect(sync.clock.waits).toEqual([]);
    expect(asked).toBe(0);
    expect(await storedIds()).toEqual([]);
  });
});
