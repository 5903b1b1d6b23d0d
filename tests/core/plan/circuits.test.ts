// Circuits that a list runs over cables: main and standby are two ways of one service. Data invented.
import { describe, expect, it } from 'vitest';
import { impactOf } from '../../../src/core/impact/impact.ts';
import { plannedLinks } from '../../../src/core/impact/links.ts';
import { circuitOf, circuitsOver } from '../../../src/core/plan/circuits.ts';
import type { Circuit } from '../../../src/core/plan/model.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { planOf, started, withSignal } from '../record/build.ts';

const circuits: Circuit[] = [
  { name: 'PGM 1', role: 'main', carrier: 'K-2201', hops: ['2006', '2007', 'carrier line'] },
  { name: 'PGM 1', role: 'standby', hops: ['2050'] },
  { name: 'Return', hops: ['9001'] },
];
const air = withSignal('aes3', { circuit: 'PGM 1', onAir: true });
const plan = planOf(
  [
    ['2006', 'DIO O4', 'PRO IN', air],
    ['2007', 'PRO OUT', 'STL IN', air],
    ['2050', 'DIO O5', 'STL B', air],
    ['2051', 'DIO O6', 'CUE IN', withSignal('aes3')],
    ['9001', 'X 1', 'X 2'],
    ['9001', 'Y 1', 'Y 2'],
  ],
  [],
  { circuits },
);
const { index } = foldAll(plan, [started()]);
const cable = (id: string) => index.cables.get(id)!;

describe('a list of circuits', () => {
  it('is found by each cable that it names, and not by a number that two cables bear', () => {
    expect(circuitsOver(index, '2007').map(({ role, carrier }) => [role, carrier])).toEqual([['main', 'K-2201']]);
    expect(circuitsOver(index, '2051')).toEqual([]);
    expect(circuitsOver(index, '9001')).toEqual([]);
    expect(circuitOf(index, cable('2050'))).toBe('PGM 1, standby');
    expect(circuitOf(index, cable('2051'))).toBeNull();
  });
  it('says which other path a service has when one of its ways is opened', () => {
    const fold = foldAll(plan, [started()]);
    const links = plannedLinks(fold);
    const paths = (id: string) => impactOf(fold, links, links.ofCable(id)).otherPaths.map(({ label }) => label);
    expect(paths('2006')).toEqual(['2050']);
    expect(paths('2050').sort()).toEqual(['2006', '2007']);
    // Without the list both are one circuit of one name: nothing says that there are two ways.
    const unlisted = foldAll({ ...plan, circuits: [] }, [started()]);
    const same = plannedLinks(unlisted);
    expect(impactOf(unlisted, same, same.ofCable('2006')).otherPaths).toEqual([]);
  });
});
