// Whatever network, phones, clocks and the server's disk do: in the end all phones and the server hold the same set, and
// nothing that was recorded is missing.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openDatabase } from '../../src/server/database/database.ts';
import { makeCode, pairPhone } from '../../src/server/phones/pairing.ts';
import type { TransportRequest } from '../../src/sync/ports.ts';
import { WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText, STATION, testServer } from '../server/help.ts';
import { appTransport, type Fate, HandClock, MemoryPhone, madeUp, nudged, startSync } from './memoryPhone.ts';
import { putBack, type State, stateOf } from './putBack.ts';

type Which = 0 | 1 | 2;
type Act =
  | { type: 'record'; phone: Which; id: number }
  | { type: 'photo'; phone: Which; id: number }
  | { type: 'sync'; phone: Which; fates: Fate[] }
  /** The app is killed: the round under way is never heard of again, only the database stays. */
  | { type: 'killed'; phone: Which; after: number }
  | { type: 'all' }
  | { type: 'backup' }
  /** The server is put back to the last backup; `told`: with a new history, as a restore does it. */
  | { type: 'restore'; told: boolean }
  /** The phone's clock is set anew. */
  | { type: 'clock'; phone: Which; days: number }
  /** From now on the server fails at this event, or a phone's reader throws at it; and no longer. */
  | { type: 'poison'; id: number; where: Which | 'server' }
  | { type: 'cure' };

const phone = fc.constantFrom<Which>(0, 1, 2);
const ours = { [WIRE_HEADER]: '1' };
const fate = fc.constantFrom<Fate>(
  'carry',
  'carry',
  'carry',
  'carry',
  'twice',
  'lose-request',
  'lose-answer',
  madeUp(500, 'x'),
  madeUp(500, '{"type":"failed","sentence":"x"}', ours),
  madeUp(200, '<html>'),
  madeUp(200, '{}', ours),
  madeUp(413, ''),
  madeUp(403, '<html>'),
  madeUp(302, '', { location: '/' }),
  madeUp(0, ''),
);
const one = <T extends Act['type']>(type: T) => ({ type: fc.constant(type) });
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 8, arbitrary: fc.record({ ...one('record'), phone, id: fc.nat(30) }) },
  { weight: 2, arbitrary: fc.record({ ...one('photo'), phone, id: fc.nat(5) }) },
  { weight: 6, arbitrary: fc.record({ ...one('sync'), phone, fates: fc.array(fate, { maxLength: 8 }) }) },
  { weight: 2, arbitrary: fc.record({ ...one('killed'), phone, after: fc.nat(6) }) },
  { weight: 2, arbitrary: fc.record(one('all')) },
  { weight: 1, arbitrary: fc.record(one('backup')) },
  { weight: 1, arbitrary: fc.record({ ...one('restore'), told: fc.boolean() }) },
  { weight: 1, arbitrary: fc.record({ ...one('clock'), phone, days: fc.integer({ min: -400, max: 400 }) }) },
  {
    weight: 1,
    arbitrary: fc.record({
      ...one('poison'),
      id: fc.nat(30),
      where: fc.constantFrom<Which | 'server'>(0, 1, 2, 'server'),
    }),
  },
  { weight: 1, arbitrary: fc.record(one('cure')) },
);

const DAY = 86_400_000;

async function makeWorld() {
  const db = await openDatabase({ type: 'sqlite', file: ':memory:' });
  const server = testServer(db);
  const phones = [new MemoryPhone(STATION), new MemoryPhone(STATION), new MemoryPhone(STATION)] as const;
  const clocks = phones.map(() => new HandClock().at);
  const poison = new Set<string>();
  let histories = 0;
  for (const [i, phone] of phones.entries()) {
    const { code } = await makeCode(db, server.random, server.clock.now(), i === 0 ? null : STATION);
    const paired = await pairPhone(db, server.random, 0, { code, phone: `Phone ${i}`, station: STATION });
    if (paired.type !== 'paired') throw new Error(paired.type);
    await phone.keep(paired.answer);
  }
  const carry = (request: TransportRequest, fates: Fate[]): Fate => {
    // As it stands in the body, where the quotation marks of the text are escaped.
    const met = [...poison].some((id) => String(request.body).includes(`note of ${id}\\"`));
    if (met && request.path === '/api/events') return madeUp(500, '{"type":"failed","sentence":"x"}', ours);
    return fates.shift() ?? 'carry';
  };
  const good = appTransport(server.app, (request) => carry(request, []));
  const clockOf = (which: Which) => {
    const clock = new HandClock();
    clock.at = clocks[which] ?? clock.at;
    return clock;
  };

  return {
    db,
    phones,
    clocks,
    poison,
    async sync(which: Which, fates: Fate[]): Promise<void> {
      const left = [...fates];
      const transport = appTransport(server.app, (request) => carry(request, left));
      const sync = startSync(phones[which], transport, clockOf(which));
      await nudged(sync);
      sync.stop();
      expect(sync.failures).toEqual([]);
    },
    async kill(which: Which, after: number): Promise<void> {
      let left = after;
      await new Promise<void>((resolve) => {
        const sync = startSync(
          phones[which],
          {
            cancel: () => undefined,
            send: async (request) => {
              left -= 1;
              const answer = await good.send(request);
              if (left >= 0) return answer;
              resolve();
              return await new Promise<never>(() => undefined);
            },
          },
          clockOf(which),
        );
        void nudged(sync).then(() => resolve());
      });
    },
    restore: (state: State, told: boolean) => {
      histories += 1;
      return putBack(db, state, told ? `h-restored-${histories}` : null);
    },
  };
}

type World = Awaited<ReturnType<typeof makeWorld>>;

/** All poison gone, a person presses "Send all again", and a day goes by: then each exchanges until all have seen all. */
async function settle(world: World): Promise<void> {
  world.poison.clear();
  for (const [i, phone] of world.phones.entries()) {
    phone.chokes = () => false;
    phone.sendAgain();
    world.clocks[i] = Math.max(new HandClock().at, phone.comparedAt ?? 0) + DAY;
  }
  for (const which of [0, 1, 2, 0, 1, 2] as const) await world.sync(which, []);
}

test('any interleaving ends with one and the same set', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(act, { maxLength: 30 }), async (acts) => {
      const world = await makeWorld();
      const { db, phones, clocks, poison } = world;
      try {
        const recorded = new Map<string, string>();
        const photos = new Set<string>();
        let backup = await stateOf(db);
        for (const one of acts) {
          if (one.type === 'record') {
            // Overlap: two phones may hold the very same event, as after a hand-over by file.
            const id = `e${one.id}`;
            const text = eventText(id);
            if (!phones[one.phone].events.has(id)) phones[one.phone].record(id, text);
            recorded.set(id, text);
          } else if (one.type === 'photo') {
            photos.add(phones[one.phone].addDocument(new Uint8Array([0xff, 0xd8, 0xff, one.id]), 'image/jpeg'));
          } else if (one.type === 'sync') await world.sync(one.phone, one.fates);
          else if (one.type === 'killed') await world.kill(one.phone, one.after);
          else if (one.type === 'all') await Promise.all(([0, 1, 2] as const).map((which) => world.sync(which, [])));
          else if (one.type === 'backup') backup = await stateOf(db);
          else if (one.type === 'restore') await world.restore(backup, one.told);
          else if (one.type === 'clock') clocks[one.phone] = new HandClock().at + one.days * DAY;
          else if (one.type === 'poison') {
            if (one.where === 'server') poison.add(`e${one.id}`);
            else phones[one.where].chokes = (text) => text === eventText(`e${one.id}`);
          } else {
            poison.clear();
            for (const phone of phones) phone.chokes = () => false;
          }
        }
        await settle(world);
        for (const phone of phones) {
          expect(new Map([...phone.events].sort())).toEqual(new Map([...recorded].sort()));
          expect(phone.waiting.size + phone.waitingDocuments.size + phone.untaken.size).toBe(0);
        }
        const held = await db.query.selectFrom('events').select(['id', 'text']).execute();
        expect(new Map(held.map((row) => [row.id, row.text] as const).sort())).toEqual(new Map([...recorded].sort()));
        const kept = await db.query.selectFrom('documents').select('sha').where('complete', '=', 1).execute();
        expect(new Set(kept.map((row) => row.sha))).toEqual(photos);
        expect(await db.query.selectFrom('set_aside').select('id').execute()).toEqual([]);
      } finally {
        await db.close();
      }
    }),
    { numRuns: 100 },
  );
}, 300_000);
