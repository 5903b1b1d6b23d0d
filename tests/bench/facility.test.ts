// The made-up facility of the measurements: the same from the same seed, of the promised size; and the counted work of
// one sighting, which must not grow with the plan.
import { describe, expect, it } from 'vitest';
import { foldAll } from '../../src/core/rules/fold.ts';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { createFacility } from './benchFacility.ts';
import { against, counted, isOver, median, percentile, rowsToTable } from './benchMeasure.ts';

describe('the facility', () => {
  it('is the same from the same seed, and another from another', () => {
    const [a, b, c] = [createFacility(100, 1), createFacility(100, 1), createFacility(100, 2)];
    expect(JSON.stringify(b)).toBe(JSON.stringify(a));
    expect(JSON.stringify(c)).not.toBe(JSON.stringify(a));
  });

  it('has four jacks for each cable, no jack planned twice, and one sighting for each end', () => {
    const { plan, events } = createFacility(200);
    const places = plan.cables.flatMap((cable) => cable.ends.map((end) => end.place));
    expect(plan.jacks).toHaveLength(800);
    expect(new Set(places).size).toBe(400);
    expect(events.filter((event) => event.kind === 'sighting')).toHaveLength(400);
  });

  it('is read from its rows as the same cables at the same places', () => {
    const { plan, rows } = createFacility(200);
    const read = readTables([{ name: 'Cables', rows }], { name: 'x' });
    if (read.type !== 'plan') throw new Error(read.why);
    const ends = (one: typeof plan) => one.cables.map((cable) => [cable.id, ...cable.ends.map((end) => end.place)]);
    expect(ends(read.plan)).toEqual(ends(plan));
  });
});

describe('one more sighting', () => {
  it('touches one place and at most four cables, at any size', () => {
    for (const cables of [200, 1_000]) {
      const facility = createFacility(cables);
      const fold = foldAll(facility.plan, facility.events);
      const touched = Array.from({ length: 100 }, (_, i) => fold.add([facility.another(i)]));
      expect(new Set(touched.map(({ places }) => places.size))).toEqual(new Set([1]));
      expect(Math.max(...touched.map((one) => one.cables.size))).toBeLessThanOrEqual(4);
    }
  });
});

describe('the table of measurements', () => {
  it('shows each value with its ratio and says which goal is missed', () => {
    const base = { size: 's', unit: 'ms' };
    const rows = [
      against({ ...base, name: 'slow', value: 10 }, 'goal', '5 ms', 5),
      against({ ...base, name: 'quick', value: 2 }, 'goal', '5 ms', 5),
      against({ ...base, name: 'beside', value: 20 }, 'peer', 'other', 5),
      counted({ ...base, name: 'count', value: 3 }),
    ];
    expect(rows.map(isOver)).toEqual([true, false, false, false]);
    const lines = rowsToTable(rows).split('\n');
    expect(lines[1]).toMatch(/slow .*10\.00 ms .*goal: 5 ms .*2\.00 ×\s+OVER$/);
    expect(lines[2]).toMatch(/held$/);
    expect(lines[3]).toMatch(/peer: other .*4\.00 ×$/);
    expect(median([9, 1, 5])).toBe(5);
    expect([50, 95].map((share) => percentile([9, 1, 5, 7], share))).toEqual([5, 9]);
  });
});
