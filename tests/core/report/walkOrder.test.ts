// Whichever way a person goes, every jack is met once and no other. Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldAll } from '../../../src/core/audit/fold.ts';
import { emptyPlan, type Plan, type Unit } from '../../../src/core/plan/model.ts';
import { type Direction, planToWalk, USUAL_WAY } from '../../../src/core/report/walkOrder.ts';
import { nextOpen, setWay, walkOf } from '../../../src/core/report/walkView.ts';
import { started } from '../audit/build.ts';

const jacksOf = (unit: string, n: number) => Array.from({ length: n }, (_, i) => `${unit}/P${i + 1}`);
const unit = (id: string, rack: string, u: number, rows: string[][], face: 'front' | 'rear' = 'front'): Unit => ({
  id,
  label: id,
  rack,
  u,
  heightU: 1,
  mounted: 'front',
  faces: [{ face, through: false, rows }],
  implied: false,
});
const [odd, even] = [
  ['SW1/P1', 'SW1/P3'],
  ['SW1/P2', 'SW1/P4'],
];
const units = [
  unit('SW1', 'R1', 40, [odd, even]),
  unit('AX2', 'R1', 20, [jacksOf('AX2', 3)], 'rear'),
  unit('BX3', 'R2', 30, [jacksOf('BX3', 2)]),
];
const plan: Plan = {
  ...emptyPlan,
  racks: ['R1', 'R2'].map((id) => ({ id, label: id, heightU: 42, numbering: 'bottom-up', implied: false })),
  units,
  jacks: [...jacksOf('SW1', 4), ...jacksOf('AX2', 3), ...jacksOf('BX3', 2)].map((id) => ({
    id,
    unit: id.split('/')[0]!,
    label: id.split('/')[1]!,
    mult: false,
    spare: false,
    implied: false,
  })),
};
const fold = foldAll(plan, [started()]);
const way = (change: Partial<Direction>) =>
  planToWalk(fold.index, fold.scope.owed, { ...USUAL_WAY, ...change }).flatMap(({ places }) => places);

describe('which way', () => {
  it('usually goes column by column from the left, from the top, front before rear', () => {
    expect(way({})).toEqual(['SW1/P1', 'SW1/P2', 'SW1/P3', 'SW1/P4', ...jacksOf('AX2', 3), ...jacksOf('BX3', 2)]);
  });
  it('turns what it is told to turn and nothing else', () => {
    expect(way({ rows: 'rows' }).slice(0, 4)).toEqual([...odd, ...even]);
    expect(way({ jacks: 'right-left' }).slice(0, 4)).toEqual(['SW1/P3', 'SW1/P4', 'SW1/P1', 'SW1/P2']);
    expect(way({ sides: 'rear-first' })[0]).toBe('AX2/P1');
    expect(way({ racks: 'falling' })[0]).toBe('BX3/P1');
  });
  it('meets every jack once, whatever was chosen', () => {
    const any = fc.record({
      racks: fc.constantFrom('rising', 'falling'),
      sides: fc.constantFrom('front-first', 'rear-first'),
      units: fc.constantFrom('top-down', 'bottom-up'),
      jacks: fc.constantFrom('left-right', 'right-left'),
      rows: fc.constantFrom('columns', 'rows'),
    }) as fc.Arbitrary<Direction>;
    fc.assert(
      fc.property(any, (chosen) => {
        expect(way(chosen).sort()).toEqual(plan.jacks.map(({ id }) => id).sort());
      }),
    );
  });
  it('is followed by the walk from the moment it is set', () => {
    expect(nextOpen(fold, null)).toBe('SW1/P1');
    setWay(fold, { ...USUAL_WAY, racks: 'falling' });
    expect(nextOpen(fold, null)).toBe('BX3/P1');
    expect(walkOf(fold)[0]?.unit).toBe('BX3');
  });
});
