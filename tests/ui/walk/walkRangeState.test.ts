// The row sweep: which jacks two touches mean, and what is claimed of them. Data invented.
import { describe, expect, it } from 'vitest';
import { touchRange } from '../../../src/ui/walk/walkRangeState.ts';
import { rangeToSentence } from '../../../src/ui/walk/walkRangeWords.ts';

describe('a row sweep', () => {
  const order = Array.from({ length: 12 }, (_, i) => `SW1/P${String(i + 1).padStart(2, '0')}`);

  it('takes two touches, then takes one inside out and back in; outside begins anew', () => {
    const first = touchRange({ first: null, last: null, without: [] }, 'SW1/P05', order);
    const both = touchRange(first, 'SW1/P09', order);
    expect(both).toEqual({ first: 'SW1/P05', last: 'SW1/P09', without: [] });
    const out = touchRange(both, 'SW1/P07', order);
    expect(out.without).toEqual(['SW1/P07']);
    expect(touchRange(out, 'SW1/P07', order).without).toEqual([]);
    expect(touchRange(out, 'SW1/P12', order)).toEqual({ first: 'SW1/P12', last: null, without: [] });
  });

  it('says what is claimed, and tells what the plan has only when it may', () => {
    const jacks = [
      { label: 'P05', planned: true },
      { label: 'P06', planned: false },
    ];
    expect(rangeToSentence(jacks, 'empty', false)).toBe(
      'You record that you looked into each of these 2 jacks and found no plug. The plan has a cable in P05.',
    );
    expect(rangeToSentence(jacks, 'empty', true)).not.toContain('plan');
    expect(rangeToSentence(jacks, 'not-visible', false)).toContain('That is not a check');
  });
});
