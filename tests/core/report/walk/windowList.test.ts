// What waits for a window, and the next question for a helper far away. Data invented.
import { describe, expect, it } from 'vitest';
import { verdictAt } from '../../../../src/core/report/walk/verdict.ts';
import { nextFarQuestion, windowList } from '../../../../src/core/report/walk/windowList.ts';
import { foldAll } from '../../../../src/core/rules/fold.ts';
import { at, planOf, saw, started, statement } from '../../record/build.ts';

const plan = planOf([
  ['1', 'A 1', 'B 1'],
  ['2', 'A 2', 'C 2'],
]);

describe('for the window', () => {
  it('is what could not be seen, not opened or bears nothing, each with its reason', () => {
    const events = [
      started(),
      statement(['A 1'], 'refused', { reason: 'Needs touch' }),
      statement(['A 2'], 'unlabelled'),
      statement(['B 1'], 'not-visible'),
      saw('C 2', '2'),
    ];
    expect(windowList(foldAll(plan, events)).map(({ words, owed, why }) => [words, owed, why])).toEqual([
      ['A 1', 'A check', 'Needs touch'],
      ['A 2', 'A label', 'the plug has none'],
      ['B 1', 'A check', 'could not be seen'],
    ]);
  });
});

describe('a helper far away', () => {
  it('is asked first about the other end of what was seen here, never about the unit in hand', () => {
    const fold = foldAll(plan, [started(), saw('A 2', '2')]);
    expect(nextFarQuestion(fold, at('A 1'), [])).toEqual({ place: at('C 2'), words: 'C 2', plan: '2' });
    expect(nextFarQuestion(fold, at('A 1'), [at('C 2')])?.words).toBe('B 1');
    expect(nextFarQuestion(fold, at('A 1'), [at('C 2'), at('B 1')])).toBeNull();
  });
  it('hears no expected label in a blind audit', () => {
    expect(nextFarQuestion(foldAll(plan, [started({ blind: true })]), null, [])?.plan).toBeNull();
  });
  it('stands by name beside what was told', () => {
    const told = saw('C 2', '2', { basis: 'told', teller: 'Robin' });
    expect(verdictAt(foldAll(plan, [started(), told]), at('C 2')).second).toContain('Told by Robin.');
  });
});
