// The verdict's second line never says again what the first has said. The sentences come from the record itself, so that a
// change of its wording shows here. Data invented.
import { describe, expect, it } from 'vitest';
import { verdictAt } from '../../../src/core/report/walk/verdict.ts';
import { markAt } from '../../../src/core/report/walk/walkView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

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
  return [verdict.word, verdict.brief];
};

describe('what the second line leaves to the first', () => {
  it.each([
    ['SW1 P07', saw('SW1 P07', '1012'), ['differs', 'Plan 1007. 1012 belongs in P12.']],
    ['SW1 P08', saw('SW1 P08', '1012'), ['differs', 'Plan has nothing there. 1012 belongs in P12.']],
    ['SW1 P07', statement(['SW1 P07'], 'empty'), ['empty', 'Plan 1007.']],
    ['SW1 P07', statement(['SW1 P07'], 'unlabelled'), ['no label', 'Plan has 1007 here; not confirmed.']],
    ['SW1 P08', statement(['SW1 P08'], 'unlabelled'), ['no label', 'Plan has nothing here.']],
    ['SW1 P08', saw('SW1 P08', 'X9'), ['differs', 'Not in the plan.']],
    ['SW1 P07', saw('SW1 P07', '1007'), ['as planned', 'By eye. From end CON32 NET: not seen yet.']],
  ])('%s', (place, look, words) => {
    expect(said(recordOf(look), place)).toEqual(words);
  });

  it('calls nothing as planned where there is no plan', () => {
    const none = foldAll(plan, [started({ plan: null, occasion: 'build' }), statement(['SW1 P08'], 'empty')]);
    expect(verdictAt(none, at('SW1 P08'))).toMatchObject({ word: 'empty', variant: 'note', brief: 'By eye.' });
    expect(markAt(none, at('SW1 P08'))).toBeUndefined();
    const planned = recordOf(statement(['SW1 P08'], 'empty'));
    expect(verdictAt(planned, at('SW1 P08'))).toMatchObject({ word: 'empty, as planned', variant: 'as-planned' });
    expect(markAt(planned, at('SW1 P08'))).toBe('as-planned');
  });

  it('keeps a pattern to the first line', () => {
    const look = statement(['SW1 P07'], 'illegible');
    const plugs = [{ labels: [], pattern: '10.7' }];
    const verdict = verdictAt(
      foldAll(plan, [started(), event('sighting', { ...(look.payload as { places: string[] }), plugs } as never)]),
      at('SW1 P07'),
    );
    expect(verdict).toMatchObject({ word: 'cannot be read', label: '10.7' });
    expect(verdict.brief).toBe('Plan 1007.');
  });

  it('names a temporary number once', () => {
    const look = statement(['SW1 P08'], 'unlabelled');
    const put = event('label-put', { place: at('SW1 P08'), text: 'U-014', upon: [look.id], why: 'twin' });
    expect(said(recordOf(look, put), 'SW1 P08')).toEqual(['differs', 'Other end not seen yet. Not in the plan.']);
  });

  it('names a jack with marks of its own in its name nowhere', () => {
    const odd = planOf([['7', 'SW1 (P.8+', 'CON32 NET']]);
    const fold = foldAll(odd, [started(), statement(['SW1 (P.8+'], 'empty')]);
    expect(verdictAt(fold, at('SW1 (P.8+'))).toMatchObject({ word: 'empty', brief: 'Plan 7.' });
  });

  it('does not tell in a blind audit where else a label belongs, which is what a later jack is asked', () => {
    const blind = foldAll(plan, [started({ blind: true }), saw('SW1 P07', '1012')]);
    expect(verdictAt(blind, at('SW1 P07')).brief).toBe('Plan 1007.');
    expect(verdictAt(blind, at('SW1 P07')).second).toBe('SW1 P07: 1012 is here, plan 1007.');
    const open = foldAll(plan, [started(), saw('SW1 P07', '1012')]);
    expect(verdictAt(open, at('SW1 P07')).second).toBe('SW1 P07: 1012 is here, plan 1007. 1012 belongs in SW1 P12.');
  });
});
