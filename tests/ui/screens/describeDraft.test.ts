// What is typed about a rack or a unit becomes an event, and comes back from one. Data invented.
import { describe, expect, it } from 'vitest';
import { parseJacks } from '../../../src/core/plan/jackNotation.ts';
import { withGroup } from '../../../src/ui/screens/describeDraft.ts';

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
