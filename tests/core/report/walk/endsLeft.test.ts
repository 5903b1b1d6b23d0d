// Ends that are left, nearest first, and the pace so far. Data invented.
import { describe, expect, it } from 'vitest';
import { endsLeft } from '../../../../src/core/report/walk/endsLeft.ts';
import { BREAK_MS, paceOf } from '../../../../src/core/report/walk/pace.ts';
import { paceToWords } from '../../../../src/core/report/words/openWords.ts';
import { foldAll } from '../../../../src/core/rules/fold.ts';
import { at, planOf, saw, started } from '../../record/build.ts';

describe('the pace so far', () => {
  const every = (seconds: number, n: number) => Array.from({ length: n }, (_, i) => i * seconds * 1000);
  it('is the middle of the times between statements, and breaks are none of them', () => {
    const times = [...every(20, 9), 8 * 20_000 + BREAK_MS + 1];
    expect(paceOf(times)).toEqual({ each: 20_000, statements: 10 });
    expect(paceToWords(paceOf(times), 120)).toBe('About 40 min at the pace so far, an estimate from 10 entries.');
    expect(paceToWords(paceOf(times), 900)).toContain('About 5 h');
  });
  it('says nothing from a handful of statements, nor when nothing is left', () => {
    expect(paceOf(every(20, 7))).toBeNull();
    expect(paceToWords(null, 100)).toBeNull();
    expect(paceToWords(paceOf(every(20, 20)), 0)).toBeNull();
  });
});

describe('ends that are left', () => {
  const plan = planOf([
    ['1', 'A 1', 'B 1'],
    ['2', 'A 2', 'C 2'],
    ['3', 'A 3', 'B 3', { status: 'spare' }],
  ]);
  it('come nearest first, and those whose other end was seen before their neighbours', () => {
    const left = endsLeft(foldAll(plan, [started(), saw('A 2', '2')]), at('A 1'), 'nobody');
    expect(left.ends.map(({ words, otherSeen }) => [words, otherSeen])).toEqual([
      ['A 1', false],
      ['A 3', false],
      ['C 2', true],
      ['B 1', false],
      ['B 3', false],
    ]);
    expect(left).toMatchObject({ count: 5, jacksLeft: 5, pace: null });
  });
  it('are told to nobody in a blind audit', () => {
    expect(endsLeft(foldAll(plan, [started({ blind: true })]), null, 'x')).toMatchObject({
      blind: true,
      ends: [],
      count: 0,
    });
  });
});
