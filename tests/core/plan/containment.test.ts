// A place whose label is a range holds its landings; what hangs on a jack is part of it. Plans invented.
import { describe, expect, it } from 'vitest';
import { endsOver, placesOver, rangeOver, rangeToMembers } from '../../../src/core/plan/containment.ts';
import { indexPlan } from '../../../src/core/plan/planIndex.ts';
import { at, planOf } from '../record/build.ts';

describe('ranges', () => {
  it('name their members, with or without the letters again', () => {
    expect(rangeToMembers(at('BLK4 1-25'))).toHaveLength(25);
    expect(rangeToMembers(at('BLK4 1–25')).at(-1)).toBe(at('BLK4 25'));
    expect(rangeToMembers(at('PB1 J1-J3'))).toEqual([at('PB1 J1'), at('PB1 J2'), at('PB1 J3')]);
    expect(rangeToMembers(at('BLK4 ROW 2 01-03'))).toEqual([
      at('BLK4 ROW 2 01'),
      at('BLK4 ROW 2 02'),
      at('BLK4 ROW 2 03'),
    ]);
  });
  it('are none where a name only looks like one', () => {
    for (const name of ['R1-R2-A6', '12-10', '3-3', 'IN', 'A1-B4']) expect(rangeToMembers(at(`X ${name}`))).toEqual([]);
  });
  it('hold the landings that their unit has, and overlapping ones are names of slots', () => {
    const block = indexPlan(planOf([['6001', 'BLK4 1-25', 'BLK1 1-25']]));
    expect(rangeOver(block, at('BLK4 6'))).toBe(at('BLK4 1-25'));
    expect(rangeOver(block, at('BLK4 26'))).toBeNull();
    expect(endsOver(block, at('BLK4 6')).map(({ cable }) => cable.label)).toEqual(['6001']);
    const slots = indexPlan(
      planOf([
        ['1001', 'SW1 1-1', 'A 1'],
        ['1002', 'SW1 1-2', 'A 2'],
        ['1003', 'SW1 1-3', 'A 3'],
      ]),
    );
    expect(rangeOver(slots, at('SW1 2'))).toBeNull();
  });
});

describe('what hangs on a jack', () => {
  it('is part of it, through a second one too, and a circle ends', () => {
    const plan = planOf([['2001', 'SAT1 OUT', 'AIO21 I1']], [{ at: 'T07 L' }, { at: 'PAD IN' }]);
    const units = plan.units.map((unit) =>
      unit.id === 'T07' ? { ...unit, at: at('AIO21 I1') } : unit.id === 'PAD' ? { ...unit, at: at('T07 L') } : unit,
    );
    const index = indexPlan({ ...plan, units });
    expect(placesOver(index, at('PAD IN'))).toEqual([at('T07 L'), at('AIO21 I1')]);
    expect(endsOver(index, at('PAD IN'))[0]?.cable.label).toBe('2001');
    const circle = indexPlan({ ...plan, units: units.map((u) => (u.id === 'T07' ? { ...u, at: at('PAD IN') } : u)) });
    expect(placesOver(circle, at('PAD IN')).length).toBeLessThan(3);
  });
});
