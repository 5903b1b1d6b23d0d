// As found beside as left: what was changed during an audit, whatever the order of arrival. Data invented.
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AuditEvent } from '../../../src/core/record/events.ts';
import { leftLines } from '../../../src/core/report/leftView.ts';
import { foldAll } from '../../../src/core/rules/fold.ts';
import { at, event, planOf, saw, started, statement } from '../record/build.ts';

const plan = planOf(
  [
    ['1003', 'A 3', 'SW1 P03'],
    ['1004', 'A 4', 'SW1 P04'],
  ],
  [{ at: 'SW1 P05' }],
  { settings: [{ unit: 'MIO31', name: 'Gain', value: '50' }] },
);
const short = (events: AuditEvent[]) =>
  leftLines(foldAll(plan, events)).map((one) => [one.words, one.plan, one.found.words, one.left.words, one.outcome]);
const fixed = (words: string, label: string, earlier: AuditEvent) => saw(words, label, { changedSince: [earlier.id] });

describe('as found and as left', () => {
  it('stand side by side once a plug was moved, with what is so now', () => {
    const [p3, p4] = [saw('SW1 P03', '1004'), saw('SW1 P04', '1003')];
    const events = [started(), p3, p4, fixed('SW1 P03', '1003', p3)];
    // The number still stands at P04 too: one of the two differs, and nobody knows which.
    expect(short(events)).toEqual([['SW1 P03', '1003', '1004', '1003', 'differs']]);
    expect(short([...events, fixed('SW1 P04', '1004', p4)])).toEqual([
      ['SW1 P03', '1003', '1004', '1003', 'as-planned'],
      ['SW1 P04', '1004', '1003', '1004', 'as-planned'],
    ]);
  });
  it('leave out what was misread, what was only looked at twice, and what stayed the same', () => {
    const p3 = saw('SW1 P03', '1004');
    const again = saw('SW1 P04', '1004');
    expect(short([started(), p3, saw('SW1 P03', '1003', { withdraws: [{ event: p3.id }] })])).toEqual([]);
    expect(short([started(), again, fixed('SW1 P04', '1004', again)])).toEqual([]);
    expect(short([started(), p3])).toEqual([]);
  });
  it('keep the first state where a place was changed twice', () => {
    const first = saw('SW1 P03', '1004');
    const second = statement(['SW1 P03'], 'empty', { changedSince: [first.id] });
    const last = fixed('SW1 P03', '1003', second);
    expect(short([started(), first, second, last])).toEqual([['SW1 P03', '1003', '1004', '1003', 'as-planned']]);
  });
  it('tell a label put on since as a change of what the plug bears', () => {
    const bare = statement(['SW1 P04'], 'unlabelled');
    const put = event('label-put', { place: at('SW1 P04'), text: '1004', upon: [bare.id], why: 'new' });
    expect(short([started(), bare, put])).toEqual([['SW1 P04', '1004', 'plugged, no label', '1004', 'as-planned']]);
  });
  it('tell a cleared spare as empty, and a value set anew', () => {
    const stray = saw('SW1 P05', '9001');
    const read = (value: string) =>
      event('setting-read', { unit: 'MIO31', place: undefined, name: 'Gain', value, basis: 'page' });
    const events = [started(), stray, statement(['SW1 P05'], 'empty', { changedSince: [stray.id] })];
    expect(short([...events, read('38'), read('50')])).toEqual([
      ['MIO31, Gain', '50', '38', '50', 'as-planned'],
      ['SW1 P05', 'empty', '9001', 'empty', 'as-planned'],
    ]);
  });
  it('do not depend on the order of arrival', () => {
    const p3 = saw('SW1 P03', '1004');
    const empty = statement(['SW1 P03'], 'empty', { changedSince: [p3.id] });
    const events = [started(), p3, empty, fixed('SW1 P03', '1003', empty), saw('SW1 P04', '1004')];
    const whole = leftLines(foldAll(plan, events));
    expect(whole).toHaveLength(1);
    fc.assert(
      fc.property(fc.shuffledSubarray(events, { minLength: events.length }), (shuffled) => {
        expect(leftLines(foldAll(plan, shuffled))).toEqual(whole);
      }),
    );
  });
});
