// Which known labels a worn one fits. Plan and labels invented.
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../../src/core/plan/model.ts';
import { fitsAt } from '../../../../src/core/report/walk/fitsPattern.ts';
import { foldAll } from '../../../../src/core/rules/fold.ts';
import { at, planOf, saw, started, statement } from '../../record/build.ts';

const plan = planOf([
  ['1002', 'X1 1', 'SW1 P01'],
  ['1012', 'X2 1', 'SW1 P02'],
  ['1112', 'X3 1', 'SW1 P03'],
]);
const worn = (pattern: string) => statement(['SW1 P04'], 'illegible', { plugs: [{ labels: [], pattern }] });
const fits = (pattern: string, blind = false) =>
  fitsAt(foldAll(plan, [started({ blind }), saw('SW1 P05', '1032'), worn(pattern)]), at('SW1 P04'));

describe('a worn label', () => {
  it('fits what the plan has and what was read elsewhere, in order', () => {
    expect(fits('10?2')).toEqual({ pattern: '10?2', labels: ['1002', '1012', '1032'], more: 0 });
    expect(fits('9?')).toEqual({ pattern: '9?', labels: [], more: 0 });
  });

  it('tells nothing of the plan in a blind audit', () => {
    expect(fits('10?2', true)?.labels).toEqual(['1032']);
  });

  it('of which no character can be read says nothing, and a long list is counted', () => {
    expect(fits('????')).toBeNull();
    expect(fitsAt(foldAll(plan, [started()]), at('SW1 P04'))).toBeNull();
    const many = Array.from({ length: 9 }, (_, i) => saw(`DA1 ${i}`, `A10${i}`));
    const found = fitsAt(foldAll(emptyPlan, [started({ occasion: 'inherit' }), ...many, worn('A10?')]), at('SW1 P04'));
    expect(found).toMatchObject({ labels: ['A100', 'A101', 'A102', 'A103', 'A104', 'A105'], more: 3 });
  });
});
