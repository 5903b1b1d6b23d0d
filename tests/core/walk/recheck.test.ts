// Checks after work: a right label is not called wrong because of what another jack bore before. Data invented.
import { describe, expect, it } from 'vitest';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { markAt } from '../../../src/core/report/walk/walkView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf([
  ['1003', 'CON32 NET', 'SW1 P03'],
  ['1004', 'MIO33 NET', 'SW1 P04'],
]);
const [p03, p04] = [at('SW1 P03'), at('SW1 P04')];
const crossed = () => [started(), saw('SW1 P03', '1004'), saw('SW1 P04', '1003')];
const variants = (fold: ReturnType<typeof foldAll>) => [p03, p04].map((place) => verdictAt(fold, place).variant);

describe('two plugs that were exchanged and put right', () => {
  it('are as planned one by one, and the first check names the other jack', () => {
    const before = crossed();
    const first = saw('SW1 P03', '1003', { changedSince: [before[1]!.id] });
    const half = foldAll(plan, [...before, first]);
    expect(verdictAt(half, p03)).toMatchObject({ variant: 'as-planned', word: 'as planned', second: 'Now check P04.' });
    expect([markAt(half, p03), markAt(half, p04)]).toEqual(['as-planned', 'differs']);
    // Nothing is taken off the record by it.
    expect(half.discrepancies().length).toBeGreaterThan(0);
    const second = saw('SW1 P04', '1004', { changedSince: [before[2]!.id] });
    const whole = foldAll(plan, [...before, first, second]);
    expect(variants(whole)).toEqual(['as-planned', 'as-planned']);
    expect(whole.discrepancies()).toEqual([]);
  });

  it('differ where the other jack was looked at after the work as well', () => {
    const before = crossed();
    const first = saw('SW1 P03', '1003', { changedSince: [before[1]!.id] });
    const again = saw('SW1 P04', '1003', { changedSince: [before[2]!.id] });
    expect(variants(foldAll(plan, [...before, first, again]))).toEqual(['differs', 'differs']);
  });

  it('differ where nobody said that anything was changed', () => {
    expect(variants(foldAll(plan, [started(), saw('SW1 P04', '1003'), saw('SW1 P03', '1003')]))[0]).toBe('differs');
  });

  it('differ where the jack bears something else, whatever was seen elsewhere', () => {
    const before = [started(), statement(['SW1 P03'], 'empty'), saw('SW1 P04', '1003')];
    const wrong = saw('SW1 P03', '1004', { changedSince: [before[1]!.id] });
    expect(variants(foldAll(plan, [...before, wrong]))[0]).toBe('differs');
  });
});
