// What is said of a row of jacks that is recorded as one entry. Pure.
import type { State } from '../../core/record/events.ts';
import { listedUpTo, plural } from '../../core/report/words/plain.ts';
import { count, list } from '../words.ts';

/** What can be recorded of many jacks in one entry: no label and nothing that only one of them can hold. */
export type RowState = Extract<State, 'empty' | 'unlabelled' | 'not-visible'>;

export const RANGE_WORDS = {
  title: 'Record a row',
  what: 'Several jacks together: all empty, without label, or out of sight.',
  how: 'Touch the first jack and the last; touch one inside the line to take it out.',
  first: { name: 'First', back: 'First jack one back', on: 'First jack one on' },
  last: { name: 'Last', back: 'Last jack one back', on: 'Last jack one on' },
  touchBoth: 'Touch the first and the last jack',
  nothing: 'Nothing chosen',
  oneUndo: 'One Undo takes them all back',
} as const;

interface RowWords {
  button: string;
  record: (n: number) => string;
  title: (jacks: string) => string;
  /** What whoever records it states. */
  claim: (n: number) => string;
}

export const RANGE_STATES: Record<RowState, RowWords> = {
  empty: {
    button: 'Empty',
    record: (n) => `Record ${n} as empty`,
    title: (jacks) => `${jacks}: empty.`,
    claim: (n) =>
      plural(
        n,
        'You record that you looked into this jack and found no plug.',
        `You record that you looked into each of these ${n} jacks and found no plug.`,
      ),
  },
  unlabelled: {
    button: 'No label',
    record: (n) => `Record ${n} as without label`,
    title: (jacks) => `${jacks}: without label.`,
    claim: (n) =>
      plural(
        n,
        'You record that you looked at this jack and found a plug without a label.',
        `You record that you looked at each of these ${n} jacks and found plugs without a label.`,
      ),
  },
  'not-visible': {
    button: 'Can’t see',
    record: (n) => `Record ${n} as out of sight`,
    title: (jacks) => `${jacks}: out of sight.`,
    claim: (n) =>
      plural(
        n,
        'You record that you could not see into this jack. That is not a check: it stays open.',
        `You record that you could not see into these ${n} jacks. That is not a check: they stay open.`,
      ),
  },
};

/** "P17 to P23", "P17 to P23 without P19 and P20" */
export function rangeToWords(first: string, last: string, without: readonly string[]): string {
  return without.length === 0 ? `${first} to ${last}` : `${first} to ${last} without ${list(without)}`;
}

/** @param hidePlan Nothing is said of the plan, not even how many of the jacks it fills. */
export function rangeToSentence(
  jacks: readonly { label: string; planned: boolean }[],
  state: RowState,
  hidePlan: boolean,
): string {
  const n = jacks.length;
  if (n === 0) return '';
  const claim = RANGE_STATES[state].claim(n);
  return hidePlan || state === 'not-visible' ? claim : `${claim} ${planToWords(jacks)}`;
}

function planToWords(jacks: readonly { label: string; planned: boolean }[]): string {
  const n = jacks.length;
  const planned = jacks.filter((jack) => jack.planned).map(({ label }) => label);
  if (planned.length === 0) return plural(n, 'In the plan it is empty.', `In the plan all ${n} are empty.`);
  if (planned.length === n) return plural(n, 'The plan has a cable in it.', `The plan has a cable in all ${n}.`);
  return `The plan has a cable in ${listedUpTo(planned, 6)}.`;
}

export function rangeByToWords(author: string, n: number): string {
  return `By eye, ${author}. ${count(n, 'entry', 'entries')}; one Undo takes them all back.`;
}

/** How many jacks of a recorded row differ from the plan. */
export function rangeDoneToWords(n: number, bad: number): string {
  const jacks = count(n, 'jack');
  return bad > 0
    ? `${bad} of ${jacks} ${plural(bad, 'differs', 'differ')} from the plan. One Undo takes them all back.`
    : `${jacks} recorded. One Undo takes them all back.`;
}
