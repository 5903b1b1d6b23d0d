// The choice among stories is a weighted set covering: held against the solver HiGHS on random small cases and on the
// groups that planted facilities give. The numbers are made up; the reference is the solver.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Candidate, COST_ALONE, candidateToCost, type Story } from '../../../src/core/causes/cause.ts';
import {
  choiceToCost,
  choose,
  chooseExactly,
  chooseGreedily,
  EXACT_UP_TO,
  groupsOf,
  leastPossible,
} from '../../../src/core/causes/choose.ts';
import { candidatesOf } from '../../../src/core/causes/solve.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { plant } from '../../bench/benchCauses.ts';
import { PLANTABLE } from '../../bench/benchMistakes.ts';
import { solve } from '../record/solver.ts';

const STORIES = {
  crossed: { kind: 'crossed', by: 'followed' },
  rotated: { kind: 'rotated', jacks: 3 },
  'row-shifted': { kind: 'row-shifted', offset: 1 },
  'row-mirrored': { kind: 'row-mirrored', unit: 'SW1' },
  'odd-even-exchanged': { kind: 'odd-even-exchanged', unit: 'SW1' },
  'sheet-slipped': { kind: 'sheet-slipped', rows: [2, 5], offset: 1 },
} as const satisfies Record<string, Story>;
type Kind = keyof typeof STORIES;
const KINDS = Object.keys(STORIES) as Kind[];

const story = (kind: Kind, covers: readonly number[], against: number, unseen: number): Candidate => ({
  ...(STORIES[kind] as Story),
  certainty: 'probable',
  places: [`${kind} ${covers.join()}`],
  labels: [],
  covers: new Set(covers.map((n) => `fact ${n}`)),
  against: Array.from({ length: against }, (_, i) => `a${i}`),
  predicts: Array.from({ length: unseen }, (_, i) => ({ place: `p${i}`, label: null })),
  nextLook: null,
});

/** Stories over up to a dozen facts, dear and cheap, overlapping at will. */
const stories = (most: number) =>
  fc.array(
    fc
      .record({
        kind: fc.constantFrom(...KINDS),
        covers: fc.uniqueArray(fc.integer({ min: 0, max: 11 }), { minLength: 1, maxLength: 6 }),
        against: fc.integer({ min: 0, max: 2 }),
        unseen: fc.integer({ min: 0, max: 4 }),
      })
      .map(({ kind, covers, against, unseen }) => story(kind, covers, against, unseen)),
    { minLength: 1, maxLength: most, size: 'max' },
  );

const factsOf = (group: readonly Candidate[]) => new Set(group.flatMap(({ covers }) => [...covers]));

/** Each fact by one story at least, or alone at its price. */
function cheapest(group: readonly Candidate[]): number {
  const facts = [...factsOf(group)];
  return solve({
    costs: [
      ...group.map((one, i) => ({ name: `s${i}`, by: candidateToCost(one, null) })),
      ...facts.map((_, i) => ({ name: `alone${i}`, by: COST_ALONE })),
    ],
    rows: facts.map((fact, i) => ({
      terms: [
        { name: `alone${i}`, by: 1 },
        ...group.flatMap(({ covers }, j) => (covers.has(fact) ? [{ name: `s${j}`, by: 1 }] : [])),
      ],
      relation: '>=' as const,
      than: 1,
    })),
  }).cost;
}

const harmonic = (n: number) => Array.from({ length: n }, (_, i) => 1 / (i + 1)).reduce((a, b) => a + b, 0);

describe('the choice among stories', () => {
  it('is the cheapest there is where every combination is weighed', () => {
    fc.assert(
      fc.property(stories(EXACT_UP_TO), (group) => {
        const ours = choiceToCost(chooseExactly(group, null), factsOf(group), null);
        expect(ours).toBeCloseTo(cheapest(group), 6);
      }),
      { numRuns: 100 },
    );
  });

  it('is within its stated bound where a group is large', () => {
    let large = 0;
    fc.assert(
      fc.property(stories(60), (group) => {
        const facts = factsOf(group);
        const best = cheapest(group);
        const ours = choiceToCost(chooseGreedily(group, null), facts, null);
        const most = Math.max(...group.map(({ covers }) => covers.size));
        expect(ours).toBeGreaterThanOrEqual(best - 1e-6);
        expect(ours).toBeLessThanOrEqual(best * harmonic(most) + 1e-6);
        expect(leastPossible(group, null)).toBeLessThanOrEqual(best + 1e-6);
        const { chosen, gap, exact } = choose(group, null);
        const whole = choiceToCost(chosen, facts, null);
        expect(whole - best).toBeLessThanOrEqual(gap + 1e-6);
        if (exact) expect(whole).toBeCloseTo(best, 6);
        if (groupsOf(group).some(({ length }) => length > EXACT_UP_TO)) large += 1;
      }),
      { numRuns: 100 },
    );
    expect(large).toBeGreaterThan(50);
  });

  it.each([0, 0.15])('is the cheapest over every group of planted facilities, %f of the places unseen', (unseen) => {
    let groups = 0;
    for (const seed of [1, 2, 3]) {
      const { plan, events } = plant({ cables: 1000, seed, kinds: PLANTABLE, times: 2, unseen, misread: 0.01 });
      const fold = foldAll(plan, events);
      const all = candidatesOf(fold, fold.discrepancies());
      for (const group of groupsOf(all)) {
        groups += 1;
        const { chosen, gap } = choose(group, null);
        const ours = choiceToCost(chosen, factsOf(group), null);
        const best = cheapest(group);
        expect(ours).toBeGreaterThanOrEqual(best - 1e-6);
        expect(ours - best).toBeLessThanOrEqual(gap + 1e-6);
        if (group.length <= EXACT_UP_TO) expect(ours).toBeCloseTo(best, 6);
      }
    }
    expect(groups).toBeGreaterThan(40);
  });
});
