// The touches of a row sweep and the sentence that states what they claim. Pure.
import type { PlaceId } from '../../core/plan/identity.ts';
import type { State } from '../../core/record/events.ts';
import type { Verdict } from '../../core/report/walk/verdict.ts';
import { list } from '../words.ts';

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

/** @param blind Nothing is said of the plan, not even how many of the jacks it fills; so where there is none. */
export function rangeToSentence(
  jacks: readonly { label: string; planned: boolean }[],
  state: State,
  blind: boolean,
): string {
  const n = jacks.length;
  if (n === 0) return '';
  const each = n === 1 ? 'this jack' : `each of these ${n} jacks`;
  if (state === 'not-visible')
    return n === 1
      ? 'You record that you could not see into this jack. That is not a check: it stays open.'
      : `You record that you could not see into these ${n} jacks. That is not a check: they stay open.`;
  const claim =
    state === 'empty'
      ? `You record that you looked into ${each} and found no plug.`
      : `You record that you looked at ${each} and found ${n === 1 ? 'a plug' : 'plugs'} without a label.`;
  if (blind) return claim;
  const planned = jacks.filter((jack) => jack.planned).map(({ label }) => label);
  if (planned.length === 0) return `${claim} In the plan ${n === 1 ? 'it is' : `all ${n} are`} empty.`;
  if (planned.length === n) return `${claim} The plan has a cable in ${n === 1 ? 'it' : `all ${n}`}.`;
  return `${claim} The plan has a cable in ${list(planned.length > 7 ? [...planned.slice(0, 6), `${planned.length - 6} more`] : planned)}.`;
}

/** One band for one act: how many of its jacks differ. It has no place of its own, so nothing replaces it. */
export function rangeToVerdict(all: readonly Verdict[]): Verdict | null {
  const [first] = all;
  const last = all.at(-1);
  if (!first || !last) return null;
  const bad = all.filter(({ variant }) => variant === 'differs' || variant === 'hazard').length;
  const many = all.length === 1 ? '1 jack' : `${all.length} jacks`;
  const told =
    bad > 0
      ? `${bad} of ${many} differ from the plan. One Undo takes them all back.`
      : `${many} recorded. One Undo takes them all back.`;
  return {
    ...first,
    variant: bad > 0 ? 'differs' : all.every(({ variant }) => variant === 'as-planned') ? 'as-planned' : 'note',
    place: '',
    jack: `${first.jack} to ${last.jack}`,
    label: null,
    word: first.word.replace(/, as planned$/, ''),
    second: told,
    brief: told,
  };
}
