// The touches of a row sweep, and the one verdict on it. Pure.
import type { PlaceId } from '../../core/plan/identity.ts';
import type { Verdict } from '../../core/report/walk/verdict.ts';
import { rangeDoneToWords, rangeToWords } from './walkRangeWords.ts';

export interface RangeState {
  first: string | null;
  last: string | null;
  /** Taken out again, one by one. */
  without: string[];
}

/** First touch, second touch, then: inside takes one out or back in, outside begins anew. */
export function touchRange(range: RangeState, place: PlaceId, order: readonly string[]): RangeState {
  if (range.first === null) return { first: place, last: null, without: [] };
  if (range.last === null) return { ...range, last: place };
  const [a, b] = [order.indexOf(range.first), order.indexOf(range.last)];
  const at = order.indexOf(place);
  if (at < Math.min(a, b) || at > Math.max(a, b)) return { first: place, last: null, without: [] };
  const out = range.without.includes(place);
  return { ...range, without: out ? range.without.filter((one) => one !== place) : [...range.without, place] };
}

/** One band for one act: how many of its jacks differ. It has no place of its own, so nothing replaces it. */
export function rangeToVerdict(all: readonly Verdict[]): Verdict | null {
  const [first] = all;
  const last = all.at(-1);
  if (!first || !last) return null;
  const bad = all.filter(({ variant }) => variant === 'differs' || variant === 'hazard').length;
  const told = rangeDoneToWords(all.length, bad);
  return {
    ...first,
    variant: bad > 0 ? 'differs' : all.every(({ variant }) => variant === 'as-planned') ? 'as-planned' : 'note',
    place: '',
    jack: rangeToWords(first.jack, last.jack, []),
    label: null,
    word: first.word.replace(/, as planned$/, ''),
    second: told,
    brief: told,
  };
}
