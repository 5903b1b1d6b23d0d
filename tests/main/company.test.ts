// When the phone says where its person is, and how long it believes what it heard of others.
import { signal } from '@preact/signals';
import { beforeEach, expect, test } from 'vitest';
import { safeParse } from 'zod/mini';
import { createCompany, type PresenceAt } from '../../src/main/company.ts';
import { PRESENCE_LIFE_MS, type Presence, type PresenceSaid, presenceRequestSchema } from '../../src/wire/sync.ts';
import { HandClock } from '../sync/memoryPhone.ts';

const AT: PresenceAt = { audit: 'a-1', unit: 'FR-2', place: 'FR-2/P05' };
const ILSE: Presence = { phone: 'p-ilse', name: 'Ilse', since: 1, audit: 'a-1', unit: 'FR-2', place: 'FR-2/P06' };

let clock: HandClock;
let said: (PresenceSaid | null)[];
let answer: Presence[] | 'unknown' | null;
let visible: boolean;
let name: string;
const others = signal<Presence[]>([]);
let company: ReturnType<typeof createCompany>;
beforeEach(() => {
  clock = new HandClock();
  [said, answer, visible, name] = [[], [], true, 'Tom'];
  others.value = [];
  company = createCompany({
    others,
    put: async (at) => {
      said.push(at);
      return answer;
    },
    clock,
    name: () => name,
    visible: () => visible,
  });
});

/** Goes to the next timer and lets what it starts come to its end. */
async function skip(): Promise<void> {
  clock.skip();
  await new Promise<void>((done) => setImmediate(done));
}

test('steps through a row are told as one, the place that was reached, and repeated every half minute', async () => {
  for (const jack of ['P01', 'P02', 'P03']) company.say({ ...AT, place: `FR-2/${jack}` });
  expect(said).toEqual([]);
  await skip();
  expect(said).toEqual([{ ...AT, place: 'FR-2/P03', name: 'Tom' }]);
  company.say({ ...AT, place: 'FR-2/P03' });
  expect(clock.waits).toEqual([30_000]);
  await skip();
  expect(said).toHaveLength(2);
});

test('leaving is told once, and not at all by one who never was anywhere', async () => {
  company.say(AT);
  company.say(null);
  expect(clock.waits).toEqual([]);
  company.say(AT);
  await skip();
  company.say(null);
  await skip();
  expect(said).toEqual([{ ...AT, name: 'Tom' }, null]);
  expect(clock.waits).toEqual([]);
});

test('a phone in a pocket says nothing, and says at once where it is when it comes out', async () => {
  company.say(AT);
  await skip();
  visible = false;
  await skip();
  expect(said).toHaveLength(1);
  expect(clock.waits).toEqual([]);
  visible = true;
  company.seen();
  await skip();
  expect(said).toHaveLength(2);
});

test('the others are those heard last, from either way, and are forgotten when no word comes any more', async () => {
  answer = [ILSE];
  company.say(AT);
  await skip();
  expect(others.value).toEqual([ILSE]);
  company.heard([]);
  expect(others.value).toEqual([]);
  company.heard([{ ...ILSE, place: null }]);
  expect(others.value).toEqual([{ ...ILSE, place: null }]);
  answer = null;
  const until = clock.at + PRESENCE_LIFE_MS;
  while (others.value.length > 0) await skip();
  expect(clock.at).toBe(until);
  // Not heard is not gone: this phone goes on saying where it is.
  expect(clock.waits.length).toBe(1);
});

test('a server that knows no company is asked once', async () => {
  answer = 'unknown';
  company.say(AT);
  await skip();
  company.say({ ...AT, place: null });
  company.say(null);
  expect(clock.waits).toEqual([]);
  expect(said).toHaveLength(1);
});

test.each(['', '   ', 'a\u0000b', '\ud83d', 'x'.repeat(500), '🎚'.repeat(300)])(
  'whatever the person is called, the server can read it',
  async (typed) => {
    name = typed;
    company.say(AT);
    await skip();
    expect(said[0]?.name.trim()).not.toBe('');
    expect(safeParse(presenceRequestSchema, { at: said[0] }).success).toBe(true);
  },
);
