// What is typed about a rack or a unit becomes an event, and comes back from one. Data invented.
import { describe, expect, it } from 'vitest';
import { parseJacks } from '../../../src/core/record/jackNotation.ts';
import type { DescribedRack, DescribedUnit, DescribedView } from '../../../src/core/report/describedView.ts';
import { NEW_UNIT, unitToPayload, unitTrouble, whereOf, withGroup } from '../../../src/ui/describe/describeDraft.ts';
import { undoneToWords } from '../../../src/ui/describe/describeKept.tsx';

const labels = (notation: string) => parseJacks(notation).jacks.map(({ label }) => label);

describe('a group of like jacks', () => {
  const group = { count: 2, connector: 'XLR', direction: 'in' };
  it.each([
    ['IN, L', ['IN, L 1', 'IN, L 2']],
    ['XLR 1', ['XLR 1', 'XLR 2']],
    ['A/B', ['A/B 1', 'A/B 2']],
    ['IN L/R', ['IN L', 'IN R']],
    ['1', ['1', '2']],
    ['P 07', ['P 07', 'P 08']],
    ['8 x', ['8 x 1', '8 x 2']],
  ])('named %s is as many jacks as were said, whatever the name holds', (label, expected) => {
    const notation = withGroup('1 x BNC REF', { ...group, label });
    expect(parseJacks(notation).problems).toEqual([]);
    expect(labels(notation)).toEqual(['REF', ...expected]);
    expect(parseJacks(notation).jacks[2]).toMatchObject({ connector: 'XLR', direction: 'in' });
  });
});

const sits = (label: string, u: number, more: Partial<DescribedUnit> = {}): DescribedUnit => ({
  ...{ id: label, label, u, heightU: 1, face: 'front', jacks: 0, said: 0, at: null, events: ['e1'] },
  ...more,
});
const rackOf = (units: DescribedUnit[]): DescribedRack => ({
  ...{ id: 'R9', label: 'R9', room: null, heightU: 12, numbering: 'bottom-up', units, events: ['e0'] },
  ...{ last: null, photos: { front: 0, rear: 0 } },
});
const viewOf = (racks: DescribedRack[]): DescribedView => ({
  ...{ audit: 'a', name: 'As inherited', racks, usual: null, elsewhere: [], byPlan: 0, units: [] },
});

describe('where a unit is kept', () => {
  const draft = { ...NEW_UNIT, label: 'AMP', rack: 'R9' };
  const troubleIn = (rack: DescribedRack, change: object = {}) =>
    unitTrouble({ ...draft, ...change }, { type: 'rack', rack }, null, 'AMP');

  it('waits for a rack that is not in the record yet, and never turns it into a room', () => {
    const where = whereOf(draft, viewOf([]), null);
    expect(where).toEqual({ type: 'missing', rack: 'R9' });
    expect(unitTrouble(draft, where, null, '')).toContain('Rack R9 is not in the record yet.');
    expect(unitToPayload({ ...draft, room: 'Hall' }, where, null, [])).toMatchObject({ rack: 'R9' });
    const arrived = whereOf(draft, viewOf([rackOf([])]), null);
    expect(unitTrouble(draft, arrived, null, '')).toBeNull();
  });

  it('is refused where another unit sits, by that unit’s name, on that side alone', () => {
    const rack = rackOf([sits('SW-4', 4, { heightU: 2 })]);
    expect(troubleIn(rack, { u: '5' })).toContain('SW-4 is already at U4 (2 U high).');
    expect(troubleIn(rack, { u: '3', heightU: 2 })).toContain('SW-4');
    expect(troubleIn(rack, { u: '6' })).toBeNull();
    expect(troubleIn(rack, { u: '5', mounted: 'rear' })).toBeNull();
    expect(unitTrouble({ ...draft, u: '5' }, { type: 'rack', rack }, null, 'SW-4')).toBeNull();
  });

  it('is not refused for what only the plan puts there: the plan may be wrong', () => {
    expect(troubleIn(rackOf([sits('SW-4', 4, { events: [] })]), { u: '4' })).toBeNull();
  });

  it('says that a rack is full, and what is no U at all', () => {
    expect(troubleIn(rackOf([sits('BIG', 1, { heightU: 12 })]))).toContain('has no free 1 U at the front');
    expect(troubleIn(rackOf([]), { u: '13' })).toContain('outside R9');
    expect(troubleIn(rackOf([]), { u: 'four' })).toContain('a whole number');
  });
});

describe('the line after an undo', () => {
  it('tells what is back and what stays', () => {
    expect(undoneToWords('AMP at U4', false, 0)).toBe('Undone: AMP at U4.');
    expect(undoneToWords('AMP at U4', true, 2)).toBe(
      'Undone: AMP at U4. The earlier description stands again. Entries at 2 jacks of it stay in the record.',
    );
  });
});
