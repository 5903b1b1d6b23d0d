// Judgements and decisions as screens and reports show them: what may be said of a cause, what is usual here, who said
// what, what is open again, and what goes into the record. Says nothing in anybody's name.

import { CAUSE_KINDS, type Cause, type CauseKind, type Judgement } from '../causes/cause.ts';
import type { Judged } from '../causes/judgements.ts';
import { storiesOf } from '../causes/judgements.ts';
import type { RecordChange } from '../fixes/amendMore.ts';
import { type Amendment, type Amendments, amendmentsOf } from '../fixes/amendments.ts';
import type { Decision } from '../fixes/decision.ts';
import { type Decisions, type SignedDecision, type Standing, usualChoice } from '../fixes/decisions.ts';
import { type EventId, type PlaceId, type RackId, slotToPlace } from '../plan/identity.ts';
import { MAX_KEYS, MAX_REASON } from '../record/eventLimits.ts';
import type { Occasion } from '../record/events.ts';
import type { Choice, JudgedEvidence } from '../record/judgedEvents.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import { fingerprint, idToFingerprint } from '../rules/fingerprints.ts';
import type { Fold } from '../rules/fold.ts';
import { isHazard } from '../trade/kinds.ts';
import { byHandToWords } from './words/amendWords.ts';
import { CAUSE_WORDS } from './words/causeWords.ts';
import { counted, listedUpTo, plural } from './words/plain.ts';

export const CHOICE_WORDS: Record<Choice, string> = {
  'fix-floor': 'Fix the wiring',
  'amend-record': 'Update the plan',
  leave: 'Leave it',
};

/** What is usual, as a sentence each. @param choice In words, as it goes on after a colon. */
const USUAL_WORDS: Record<Occasion | 'hazard', (choice: string) => string> = {
  hazard: (choice) => `Usual for a hazard: ${choice}.`,
  inherit: (choice) => `Usual in an undocumented place: ${choice}.`,
  'after-move': (choice) => `Usual after a move: ${choice}.`,
  relabel: (choice) => `Usual when relabelling: ${choice}.`,
  build: (choice) => `Usual when building: ${choice}.`,
};

/** One signed word, with the event that undo takes back. */
export interface SaidLine {
  event: EventId;
  words: string;
  by: string;
  at: number;
  reason: string | null;
}

export interface DecisionLine {
  target: Decision['target'];
  /** What the event says about it, and which differences it covers. */
  about: string;
  facts: string[];
  /** What the occasion offers, and why in words. */
  usual: Choice | null;
  usualWords: string;
  /** What amending comes to here, where that has plainer words. */
  amendWords: string | null;
  choice: Choice | null;
  disputed: boolean;
  said: SaidLine[];
}

export interface JudgingLine {
  key: string;
  about: string;
  /** Stories that may be accepted: one, or the two that one cause tells; none of somebody's own words. */
  takes: { as: CauseKind | null; words: string }[];
  evidence: JudgedEvidence;
  said: SaidLine[];
  disputed: boolean;
}

/** Judged before, and overtaken by what was seen since. */
export interface ReopenedLine extends SaidLine {
  /** "Reopened: new checks at SW1 P12" */
  why: string;
}

/** One change of the record: a cable's end, a value, a unit's height, a cable more. */
export interface AmendmentLine {
  label: string;
  isCable: boolean;
  /** Which end, value or place of it. */
  end: string;
  /** Null for what the plan does not have. */
  from: string | null;
  to: string;
}

export interface AmendmentsView {
  ends: (AmendmentLine & { by: string; reason: string })[];
  byHand: { difference: string; why: string; by: string; reason: string }[];
}

export function decisionLine(
  fold: Fold,
  one: Discrepancy | Cause,
  about: string,
  { choice, said, disputed }: Standing,
): DecisionLine {
  const isCause = 'explains' in one;
  const usual = usualChoice(fold, one);
  const occasion = isHazard(one) ? 'hazard' : fold.occasion;
  return {
    target: { type: isCause ? 'cause' : 'discrepancy', id: idToFingerprint(one.id) },
    about: about.slice(0, MAX_REASON),
    facts: (isCause ? one.explains : [one.id]).map(fingerprint).slice(0, MAX_KEYS),
    usual,
    usualWords:
      usual && occasion ? USUAL_WORDS[occasion](lower(CHOICE_WORDS[usual])) : 'There is no usual choice here: say why.',
    amendWords: one.kind === 'unplanned-cable' && one.places.length === 2 ? 'Add it to the plan' : null,
    choice,
    disputed,
    said: said.map(decisionToLine),
  };
}

export function decisionToLine({ event, choice, by, at, reason }: SignedDecision): SaidLine {
  return { event, words: CHOICE_WORDS[choice], by, at, reason: reason || null };
}

export function judgingLine(cause: Cause, title: string): JudgingLine {
  // Once one of two stories was taken the other may still be; own words are their author's alone.
  const told = CAUSE_KINDS.find((kind) => cause.id.startsWith(`${kind} `)) ?? cause.kind;
  const stories = storiesOf(told).filter((kind) => kind !== 'crossed-or-labels-exchanged' && kind !== 'other');
  return {
    key: idToFingerprint(cause.id),
    about: title.slice(0, MAX_REASON),
    takes:
      stories.length > 1
        ? stories.map((as) => ({ as, words: CAUSE_WORDS[as] }))
        : stories.map(() => ({ as: null, words: title })),
    evidence: cause.evidence,
    said: cause.judged.map(judgementToLine),
    disputed: cause.disputed,
  };
}

export function judgementToLine({ event, judgement, as, words, about, by, at, reason }: Judgement): SaidLine {
  const what = {
    accepted: `Accepted: ${lower(as ? CAUSE_WORDS[as] : about)}`,
    rejected: `Rejected: ${lower(about)}`,
    other: `Not ${lower(about)}; instead: ${words}`,
  }[judgement];
  return { event, words: what, by, at, reason };
}

export function reopenedLine(fold: Fold, { judgement, newLooks }: Judged): ReopenedLine {
  const why =
    newLooks.length > 0
      ? `new checks at ${listedUpTo(
          newLooks.map((place) => fold.wordsOf(place)),
          4,
        )}`
      : 'its evidence has changed since';
  return { ...judgementToLine(judgement), why: `Reopened: ${why}` };
}

export function amendmentsView(
  fold: Fold,
  differences: readonly Discrepancy[],
  causes: readonly Cause[],
  decisions: Decisions,
): AmendmentsView {
  const { ends, more, byHand } = amendmentsOf(fold, differences, causes, decisions);
  return {
    ends: [
      ...ends.map((one) => ({ ...endLine(fold, one), ...whoAndWhy(one.said) })),
      ...more.map(({ change, said }) => ({ ...changeLine(fold, change), ...whoAndWhy(said) })),
    ],
    byHand: byHand.map(({ difference, why, said }) => ({ difference, why: byHandToWords(why), ...whoAndWhy(said) })),
  };
}

export function endLine(
  fold: Pick<Fold, 'wordsOf'>,
  { label, end, from, to }: Pick<Amendment, 'label' | 'end' | 'from' | 'to'>,
): AmendmentLine {
  const where = (place: PlaceId | null) => (place === null ? 'place not known' : fold.wordsOf(place));
  return { label, isCable: true, end: endToWords(end), from: where(from), to: where(to) };
}

export function changeLine(fold: Pick<Fold, 'wordsOf' | 'index'>, change: RecordChange): AmendmentLine {
  if (change.type === 'cable') {
    const to = change.places.map((place) => fold.wordsOf(place)).join(' and ');
    return { label: change.label, isCable: true, end: 'new cable', from: null, to };
  }
  const label = fold.index.units.get(change.unit)?.label ?? change.unit;
  if (change.type === 'setting') {
    const { place, name, from, to } = change;
    return { label: place === undefined ? label : fold.wordsOf(place), isCable: false, end: name, from, to };
  }
  const slot = ({ rack, u }: { rack?: RackId; u?: number }) =>
    rack === undefined || u === undefined ? 'place not known' : fold.wordsOf(slotToPlace(rack, u));
  return { label, isCable: false, end: 'place', from: slot(change.from), to: slot(change.to) };
}

function whoAndWhy(said: Amendments['ends'][number]['said']): { by: string; reason: string } {
  const unique = (list: string[]) => [...new Set(list.filter(Boolean))];
  return { by: unique(said.map(({ by }) => by)).join(', '), reason: unique(said.map((one) => one.reason)).join(' / ') };
}

export function endToWords(end: string): string {
  return { A: 'from end', B: 'to end' }[end] ?? `end ${end}`;
}

function lower(words: string): string {
  return `${words[0]?.toLowerCase() ?? ''}${words.slice(1)}`;
}

/** "Accepted: row shifted. M. Okafor, 26 Nov, 02:10: I counted them." */
export function saidToWords({ words, by, reason }: SaidLine, when: string): string {
  return `${words}. ${by}, ${when}${reason ? `: ${reason}` : '.'}`;
}

/** One signed decision with the differences that it covers: a cause is decided once, not cable by cable. */
export interface DecidedRow extends SaidLine {
  numbers: number[];
  about: string;
  disputed: boolean;
}

export function decidedRows(lines: readonly { number: number; line: string; decision: DecisionLine }[]): DecidedRow[] {
  const rows = new Map<string, DecidedRow>();
  for (const { number, line, decision } of lines)
    for (const said of decision.said) {
      const row = rows.get(said.event) ?? { ...said, numbers: [], about: line, disputed: false };
      row.numbers.push(number);
      row.disputed ||= decision.disputed;
      rows.set(said.event, row);
    }
  return [...rows.values()];
}

/** "4 of 10 differences are decided. 6 have no decision yet, 1 of them because two people do not agree." */
export function decidedToWords(
  lines: readonly { decision: DecisionLine; conflict: readonly object[] | null }[],
  undecided: number,
): string {
  const conflicts = lines.filter(({ conflict }) => conflict !== null).length;
  const [all, done] = [lines.length - conflicts, lines.length - conflicts - undecided];
  const disputed = lines.filter(({ decision }) => decision.disputed).length;
  const why = disputed > 0 ? `, ${disputed} of them because two people do not agree` : '';
  const check = conflicts > 0 ? ` ${counted(conflicts, 'conflict')} to check again first.` : '';
  if (all === 0) return check.trim();
  if (done === 0) return `No decision yet on ${counted(all, 'difference')}${why}.${check}`;
  const first = `${done} of ${counted(all, 'difference')} ${plural(done, 'is', 'are')} decided.`;
  if (undecided === 0) return `${first}${check}`;
  return `${first} ${counted(undecided, 'has', 'have')} no decision yet${why}.${check}`;
}
