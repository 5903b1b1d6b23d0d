// A number given twice by two phones that never met is changed at one of the two cables, over a real record. The facts
// are those of a field scenario of the project (invented).
import { expect, it } from 'vitest';
import { emptyPlan } from '../../../../src/core/plan/model.ts';
import { twinsView } from '../../../../src/core/report/walk/twinsView.ts';
import { duplicateNumbers, twinsOf } from '../../../../src/core/rules/numbers.ts';
import { renumberTwin, stripToBlock } from '../../../../src/ui/walk/sheets/twinActs.ts';
import { at, started, statement } from '../../../core/record/build.ts';
import { walkStation } from '../walkStation.ts';

it('both ends of the changed cable bear one new number, and the other cable keeps the old one', async () => {
  const walk = walkStation(emptyPlan, started({ occasion: 'inherit', plan: null }));
  const put = (words: string, log: string, author: string) => {
    const look = walk.add('sighting', statement([words], 'unlabelled').payload, { log, author });
    walk.add('label-put', { place: at(words), text: 'U-016', upon: [look], why: 'twin' }, { log, author });
  };
  put('PP1 P17', 'a', 'I. Halloran');
  put('WP2 7', 'a', 'I. Halloran');
  put('PRO51 NET', 'b', 'R. Quill');
  put('SW1 P10', 'b', 'R. Quill');
  expect(duplicateNumbers(walk.fold()).map(({ text }) => text)).toEqual(['U-016']);

  const { next, given } = twinsView(walk.fold(), null, 'a');
  const [changed] = given[0]!.issuers;
  const events = await renumberTwin(walk.services, 'a', next, 'U-016', changed!.places);

  expect(duplicateNumbers(walk.fold())).toEqual([]);
  expect(walk.fold().discrepancies()).toEqual([]);
  expect(new Map(twinsOf(walk.fold()).map(({ text, places }) => [text, [...places].sort()]))).toEqual(
    new Map([
      // As many labels are stuck on both, so the one given later is changed.
      ['U-016', [at('PP1 P17'), at('WP2 7')].sort()],
      [next.text, [at('PRO51 NET'), at('SW1 P10')].sort()],
    ]),
  );
  expect(walk.recorded.filter(({ kind }) => kind === 'numbers-taken')).toHaveLength(1);

  // All of it is one act: taken back, the number stands twice again.
  expect(events).toHaveLength(4);
  for (const event of events) walk.add('withdrawn', { target: { event }, why: 'undo' });
  expect(duplicateNumbers(walk.fold()).map(({ text }) => text)).toEqual(['U-016']);
});

it('a strip begins at the number that is printed on it, and nowhere else', () => {
  const block = { prefix: 'U-', first: 351, last: 400, digits: 3 };
  expect(['351', ' 351 ', 'U-351', 'u 351'].map(stripToBlock)).toEqual([block, block, block, block]);
  expect(['', '0', 'U-', '35.1', '-351', '1e3', '9999999', '351 to 400'].map(stripToBlock)).toEqual(
    Array.from({ length: 8 }, () => null),
  );
});
