// Names and labels with the signs in them by which lists are written: no sentence may take them apart again.
import { describe, expect, it } from 'vitest';
import { emptyPlan } from '../../../src/core/plan/model.ts';
import { differencesView } from '../../../src/core/report/reconciliation.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const put = (words: string, log: string, author: string) => {
  const look = statement([words], 'unlabelled');
  const payload = { place: at(words), text: 'U-016', upon: [look.id], why: 'twin' as const };
  return [look, event('label-put', payload, { log, author })];
};

describe('a number given twice', () => {
  it.each(['Halloran, I.', 'a; b, c, d', '', ', , ; 1'])(
    'is told with the name of whoever gave it, be it "%s"',
    (author) => {
      const begin = started({ occasion: 'inherit', plan: null });
      const events = [
        begin,
        ...put('PP1 P17', 'a', author),
        ...put('WP2 7', 'a', author),
        ...put('SW1 P10', 'b', 'R. Quill'),
      ];
      const { lines } = differencesView(foldAll(emptyPlan, events), 'a');
      const line = lines.find(({ kind }) => kind === 'duplicate-label')?.line ?? '';
      expect(line.startsWith(`U-016 was given twice: by ${author}, `)).toBe(true);
      expect(line).toMatch(
        /, \d\d:\d\d UTC, at PP1 P17 and WP2 7; by R\. Quill, \d\d:\d\d UTC, at SW1 P10\. Two cables, not one\.$/,
      );
    },
  );
});

describe('a text that may be several cables', () => {
  it('keeps each candidate whole, whatever signs its label has', () => {
    const plan = planOf([
      ['MIC, 1O', 'A 1', 'SW1 P01'],
      ['MIC, 10', 'A 2', 'SW1 P02'],
    ]);
    const { lines } = differencesView(foldAll(plan, [started(), saw('SW1 P05', 'MIC, lO')]), 'a');
    const line = lines.find(({ kind }) => kind === 'unplanned-cable')?.line ?? '';
    expect(line).toContain('It may be MIC, 1O or MIC, 10: say which.');
  });
});
