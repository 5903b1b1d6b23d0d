// Whichever way a person goes, every jack is met once and no other. Data invented.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyPlan, type Plan, type Unit } from '../../../../src/core/plan/model.ts';
import { planToWalk, USUAL_WAY, type WalkOrder } from '../../../../src/core/report/walk/walkOrder.ts';
import { nextOpen, setWay, stopsView, walkOf } from '../../../../src/core/report/walk/walkStops.ts';
import { walkView } from '../../../../src/core/report/walk/walkView.ts';
import { foldAll } from '../../../../src/core/rules/fold.ts';
import { at, planOf, saw, started, statement } from '../../record/build.ts';

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
const way = (change: Partial<WalkOrder>) =>
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
      along: fc.constantFrom('jacks', 'cables'),
    }) as fc.Arbitrary<WalkOrder>;
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

describe('along the cables', () => {
  const cables = planOf([
    ['1', 'A 1', 'B 1'],
    ['2', 'A 3', 'B 2'],
    ['3', 'B 3', 'C 1'],
  ]);
  const spare = { unit: 'A', label: '2', mult: false, spare: false, implied: false };
  const floor: Plan = { ...cables, jacks: [...cables.jacks, { ...spare, id: at('A 2') }] };
  const walkAlong = (events: Parameters<typeof foldAll>[1], more = {}) => {
    const walk = foldAll(floor, [started(more), ...events]);
    setWay(walk, { ...USUAL_WAY, along: 'cables' });
    return walk;
  };

  it('goes to the nearest open end, first to one whose cable was met elsewhere, then past the jacks without any', () => {
    const said: string[] = [];
    let here: string | null = null;
    for (let i = 0; i < 7; i++) {
      const events = said.map((place) => statement([place.replace('/', ' ')], 'empty'));
      here = nextOpen(walkAlong(events), here);
      said.push(here!);
    }
    // From A 3 on to unit B: 2 before 3, because 1 and 2 were met at A; the jack without a cable comes last of all.
    expect(said).toEqual(['A 1', 'A 3', 'B 1', 'B 2', 'B 3', 'C 1', 'A 2'].map(at));
  });
  it('meets every jack once and ends, whatever was said before', () => {
    const places = floor.jacks.map(({ id }) => id);
    fc.assert(
      fc.property(fc.subarray(places), fc.constantFrom(...places), (before, start) => {
        const said = [...before];
        let here: string | null = start;
        for (let i = said.length; i < places.length; i++) {
          here = nextOpen(walkAlong(said.map((place) => statement([place.replace('/', ' ')], 'empty'))), here);
          expect(said).not.toContain(here);
          said.push(here!);
        }
        expect(said.sort()).toEqual([...places].sort());
      }),
    );
  });
  it('tells how the other end stands, and nothing of all this in a blind audit', () => {
    const view = (events: Parameters<typeof foldAll>[1], more = {}) =>
      walkView(walkAlong(events, more), 'a', at('B 1'));
    expect(view([saw('A 1', '1')])?.along).toBe('Along the cables: 1; its other end A 1 has an entry.');
    expect(view([])?.along).toBe('Along the cables: 1; its other end A 1 is still open.');
    expect(view([], { blind: true })?.along).toBeNull();
    expect(nextOpen(walkAlong([]), at('A 3'))).toBe(at('A 1'));
    expect(nextOpen(walkAlong([], { blind: true }), at('A 3'))).toBe(at('A 2'));
  });
});

describe('who else walks', () => {
  it('stands at the unit where their latest statement was made, by name', () => {
    const plan = planOf([['1', 'A 1', 'B 1']]);
    const look = (words: string, author: string, when: number) => ({ ...saw(words, '1'), author, at: when });
    const walk = foldAll(plan, [started(), look('A 1', 'Robin', 5), look('B 1', 'Robin', 9), look('A 1', 'Sam', 7)]);
    expect(stopsView(walk).map(({ unit, people }) => [unit, people])).toEqual([
      ['A', [{ author: 'Sam', at: 7 }]],
      ['B', [{ author: 'Robin', at: 9 }]],
    ]);
  });
});
