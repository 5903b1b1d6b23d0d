// What was said on closing stands in the report beside the notes. Data invented.
import { expect, it } from 'vitest';
import { reconciliation } from '../../../src/core/report/reconciliation.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { event, planOf, started } from '../record/build.ts';

it('tells the remark of the closing, and nothing where none was made', () => {
  const plan = planOf([['1', 'A 1', 'B 1']]);
  const remarksOf = (remark: string) =>
    reconciliation(foldAll(plan, [started(), event('audit-closed', { remark })]), 'audit', 'S').remarks;
  expect(remarksOf('the rest on Monday').map(({ place, text }) => [place, text])).toEqual([
    ['on closing', 'the rest on Monday'],
  ]);
  expect(remarksOf('')).toEqual([]);
});
