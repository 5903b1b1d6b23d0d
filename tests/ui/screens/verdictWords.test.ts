// The verdict's second line never says again what the first has said. The sentences come from the record itself, so that a
// change of its wording shows here. Data invented.
import { describe, expect, it } from 'vitest';
import { foldAll } from '../../../src/core/audit/fold.ts';
import { verdictAt } from '../../../src/core/report/verdict.ts';
import { secondLine } from '../../../src/ui/screens/verdictWords.ts';
import { at, event, planOf, saw, started, statement } from '../../core/audit/build.ts';

const plan = planOf(
  [
    ['1007', 'CON32 NET', 'SW1 P07'],
    ['1012', 'CON33 NET', 'SW1 P12'],
  ],
  [{ at: 'SW1 P08' }],
);
const recordOf = (...events: ReturnType<typeof saw>[]) => foldAll(plan, [started(), ...events]);
const said = (fold: ReturnType<typeof recordOf>, place: string) => {
  const verdict = verdictAt(fold, at(place));
  return [verdict.word, secondLine(verdict)];
};

describe('what the second line leaves to the first', () => {
  it.each([
    ['SW1 P07', saw('SW1 P07', '1012'), ['differs', 'Plan 1007. 1012 belongs in P12.']],
    ['SW1 P08', saw('SW1 P08', '1012'), ['differs', 'Plan has nothing there. 1012 belongs in P12.']],
    ['SW1 P07', statement(['SW1 P07'], 'empty'), ['empty', 'Plan 1007.']],
    ['SW1 P07', statement(['SW1 P07'], 'unlabelled'), ['no label', 'By plan it would be 1007; not proven.']],
    ['SW1 P08', statement(['SW1 P08'], 'unlabelled'), ['no label', 'Plan has nothing here.']],
    ['SW1 P08', saw('SW1 P08', 'X9'), ['differs', 'Not in the plan.']],
    ['SW1 P07', saw('SW1 P07', '1007'), ['as planned', 'By eye. From end CON32 NET: not seen yet.']],
  ])('%s', (place, look, words) => {
    expect(said(recordOf(look), place)).toEqual(words);
  });

  it('keeps a pattern to the first line', () => {
    const look = statement(['SW1 P07'], 'illegible');
    const plugs = [{ labels: [], pattern: '10.7' }];
    const verdict = verdictAt(
      foldAll(plan, [started(), event('sighting', { ...(look.payload as { places: string[] }), plugs } as never)]),
      at('SW1 P07'),
    );
    expect(verdict).toMatchObject({ word: 'cannot be read', label: '10.7' });
    expect(secondLine(verdict)).toBe('Plan 1007.');
  });

  it('names a temporary number once', () => {
    const look = statement(['SW1 P08'], 'unlabelled');
    const put = event('label-put', { place: at('SW1 P08'), text: 'U-014', upon: [look.id], why: 'twin' });
    expect(said(recordOf(look, put), 'SW1 P08')).toEqual(['differs', 'Other end not seen yet. Not in the plan.']);
  });

  it('leaves a jack with marks of its own in its name alone', () => {
    const odd = {
      ...verdictAt(recordOf(), at('SW1 P08')),
      word: 'empty',
      jack: '(P.8+',
      second: 'SW1 (P.8+ is empty. Plan 7.',
    };
    expect(secondLine(odd)).toBe('Plan 7.');
  });
});
