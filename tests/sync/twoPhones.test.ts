// Whatever the network and the phones do: in the end both phones and the server hold the same set, and nothing that
// was recorded is missing.
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { openDatabase } from '../../src/server/database.ts';
import { makeCode, pairPhone } from '../../src/server/pairing.ts';
import { eventText, STATION, testServer } from '../server/help.ts';
import { appTransport, type Fate, MemoryPhone, madeUp, nudged, startSync } from './memoryPhone.ts';

type Act =
  | { type: 'record'; phone: 0 | 1; id: number }
  | { type: 'photo'; phone: 0 | 1; id: number }
  | { type: 'sync'; phone: 0 | 1; fates: Fate[] }
  /** The app is killed: the round under way is never heard of again, only the database stays. */
  | { type: 'killed'; phone: 0 | 1; after: number }
  | { type: 'both' };

const phone = fc.constantFrom<0 | 1>(0, 1);
const fate = fc.constantFrom<Fate>(
  'carry',
  'carry',
  'carry',
  'twice',
  'lose-request',
  'lose-answer',
  madeUp(500, 'x'),
  madeUp(200, '<html>'),
  madeUp(413, ''),
);
const act: fc.Arbitrary<Act> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ type: fc.constant('record' as const), phone, id: fc.nat(30) }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant('photo' as const), phone, id: fc.nat(5) }) },
  {
    weight: 3,
    arbitrary: fc.record({ type: fc.constant('sync' as const), phone, fates: fc.array(fate, { maxLength: 6 }) }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant('killed' as const), phone, after: fc.nat(5) }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant('both' as const) }) },
);

test('any interleaving of two phones with losses, repeats and kills ends with one and the same set', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(act, { maxLength: 25 }), async (acts) => {
      const db = await openDatabase({ type: 'sqlite', file: ':memory:' });
      try {
        const server = testServer(db);
        const phones = [new MemoryPhone(STATION), new MemoryPhone(STATION)];
        for (const [i, one] of phones.entries()) {
          const { code } = await makeCode(db, server.random, server.clock.now(), i === 0 ? null : STATION);
          const paired = await pairPhone(db, server.random, 0, { code, phone: `Phone ${i}`, station: STATION });
          if (paired.type !== 'paired') throw new Error(paired.type);
          await one.keep(paired.answer);
        }
        const good = appTransport(server.app);
        const recorded = new Map<string, string>();
        const photos = new Set<string>();
        const syncWith = async (which: 0 | 1, fates: Fate[]) => {
          const left = [...fates];
          const sync = startSync(
            phones[which],
            appTransport(server.app, () => left.shift() ?? 'carry'),
          );
          await nudged(sync);
          sync.stop();
          expect(sync.failures).toEqual([]);
        };
        for (const one of acts) {
          if (one.type === 'record') {
            // Overlap: the two phones may hold the very same event, as after a hand-over by file.
            const text = eventText(`e${one.id}`);
            if (!phones[one.phone].events.has(`e${one.id}`)) phones[one.phone].record(`e${one.id}`, text);
            recorded.set(`e${one.id}`, text);
          } else if (one.type === 'photo') {
            const bytes = new Uint8Array([0xff, 0xd8, 0xff, one.id]);
            photos.add(phones[one.phone].addDocument(bytes, 'image/jpeg'));
          } else if (one.type === 'sync') {
            await syncWith(one.phone, one.fates);
          } else if (one.type === 'both') {
            await Promise.all([syncWith(0, []), syncWith(1, [])]);
          } else {
            let left = one.after;
            await new Promise<void>((resolve) => {
              const sync = startSync(phones[one.phone], {
                cancel: () => undefined,
                send: async (request) => {
                  left -= 1;
                  const answer = await good.send(request);
                  if (left >= 0) return answer;
                  resolve();
                  return await new Promise<never>(() => undefined);
                },
              });
              void nudged(sync).then(() => resolve());
            });
          }
        }
        // One event alone may have met a made-up 413 and be refused; a person sends it again.
        for (const one of phones) one.sendAgain();
        for (const which of [0, 1, 0] as const) await syncWith(which, []);
        for (const one of phones) {
          expect(new Map([...one.events].sort())).toEqual(new Map([...recorded].sort()));
          expect(one.waiting.size + one.waitingDocuments.size).toBe(0);
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
    { numRuns: 120 },
  );
});
