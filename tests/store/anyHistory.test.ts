// Whatever two to five phones did, and in whichever order it came about: once all has been exchanged, each holds one and
// the same set, namely what the rule takes of everything there is, and shows one and the same record.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { closureOf, createWorld, foldOf, type Step } from './historyModel.ts';

const who = fc.nat({ max: 4 });
const pick = fc.nat({ max: 30 });
const some = fc.integer({ min: 1, max: 9 });
const lose = fc.boolean();

const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      type: fc.constant('record' as const),
      phone: who,
      what: fc.constantFrom('note', 'sighting', 'name', 'withdraw'),
      pick,
      times: fc.integer({ min: 1, max: 4 }),
    }),
  },
  { weight: 3, arbitrary: fc.record({ type: fc.constant('push' as const), phone: who, some, lose }) },
  { weight: 3, arbitrary: fc.record({ type: fc.constant('pull' as const), phone: who, some, lose }) },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant('bundle' as const),
      phone: who,
      to: who,
      every: fc.integer({ min: 1, max: 3 }),
      turned: fc.boolean(),
    }),
  },
  { weight: 1, arbitrary: fc.record({ type: fc.constant('reopen' as const), phone: who }) },
  { weight: 1, arbitrary: fc.record({ type: fc.constant('restore' as const), keep: fc.nat({ max: 10 }) }) },
  {
    weight: 2,
    arbitrary: fc.record({
      type: fc.constant('forge' as const),
      phone: who,
      to: who,
      how: fc.constantFrom('far', 'fork', 'gap', 'wrong-prev', 'on-top'),
      pick,
    }),
  },
);

async function expectOneRecord(count: number, steps: readonly Step[]): Promise<void> {
  const world = await createWorld(count);
  try {
    for (const one of steps) await world.run(one);
    await world.settle();
    const wanted = await closureOf(await world.everything());
    for (const text of world.saved) expect(wanted).toContain(text);
    const folds: unknown[] = [];
    for (const phone of world.phones) {
      const texts = await world.textsOf(phone);
      expect([...texts].sort()).toEqual(wanted);
      folds.push(foldOf(texts));
    }
    for (const fold of folds) expect(fold).toEqual(folds[0]);
  } finally {
    world.close();
  }
}

describe('phones that have exchanged everything', () => {
  it('hold one set and show one record, whatever happened before', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 2, max: 5 }),
        fc.array(step, { minLength: 1, maxLength: 30, size: 'max' }),
        expectOneRecord,
      ),
      { numRuns: 20 },
    );
  }, 120_000);

  it.each<[string, number, Step[]]>([
    [
      'a forged entry came by a file before the one that it follows',
      3,
      [
        { type: 'record', phone: 1, what: 'note', pick: 0, times: 1 },
        { type: 'forge', phone: 1, to: 0, how: 'fork', pick: 0 },
        { type: 'reopen', phone: 0 },
      ],
    ],
    [
      'the server went back to before what a phone had sent and half of it was passed on by a file',
      2,
      [
        { type: 'record', phone: 0, what: 'name', pick: 3, times: 4 },
        { type: 'push', phone: 0, some: 9, lose: true },
        { type: 'bundle', phone: 0, to: 1, every: 2, turned: true },
        { type: 'record', phone: 1, what: 'name', pick: 5, times: 2 },
        { type: 'restore', keep: 1 },
        { type: 'forge', phone: 0, to: 0, how: 'far', pick: 1 },
        { type: 'record', phone: 0, what: 'withdraw', pick: 1, times: 2 },
      ],
    ],
  ])('do so when %s', async (_, count, steps) => {
    await expectOneRecord(count, steps);
  });
});
