// What somebody decided about a difference or a cause, and what the occasion decides where nobody did. Data and rules
// only; how a decision is recorded and by whom it may be made stands elsewhere.
import type { Cause, CauseKind } from '../causes/cause.ts';
import type { Occasion } from '../record/events.ts';
import type { Choice } from '../record/judgedEvents.ts';
import type { Discrepancy, DiscrepancyKind } from '../rules/discrepancy.ts';

export interface Decision {
  /** Id of a difference, or of a cause: then it holds for all that the cause explains. */
  target: { type: 'discrepancy' | 'cause'; id: string };
  choice: Choice;
  by: string;
  reason: string;
}

/**
 * Is it known what happened, so that somebody may decide what to do? Until it is, one look is owed and no plug moves.
 * A story of plugs needs more than labels: something followed, or a jack that was left free.
 *
 * @param explained The differences that the cause explains.
 */
export function isSettled(cause: Cause, explained: readonly Discrepancy[]): boolean {
  if (cause.disputed) return false;
  // Somebody answers for it by name.
  if (cause.judged.some(({ judgement }) => judgement === 'accepted')) return true;
  if (cause.rivals.length > 0 || cause.certainty === 'possible' || cause.certainty === 'unknown') return false;
  if (cause.certainty === 'confirmed' || cause.severity === 'record') return true;
  if (LEAVES_A_FREE_JACK.has(cause.kind)) return true;
  return cause.severity !== 'undecided' && explained.every(({ severity }) => severity !== 'undecided');
}

const LEAVES_A_FREE_JACK: ReadonlySet<CauseKind> = new Set<CauseKind>(['chain-moved', 'row-shifted']);

/** What these explain is right on the floor; the sheet is what has to follow. */
const OF_THE_RECORD: ReadonlySet<DiscrepancyKind | CauseKind> = new Set<DiscrepancyKind | CauseKind>([
  'sheet-slipped',
  'place-renamed',
  'hop-not-on-sheet',
  'unit-moved',
  'unit-replaced',
  'group-reversed',
]);
/** A test is made or passed, whatever the occasion: no plan can be brought to say so. */
const OF_TESTS: ReadonlySet<DiscrepancyKind | CauseKind> = new Set<DiscrepancyKind | CauseKind>([
  'test-failed',
  'not-tested',
]);
/** Differences and causes that a label puts right. */
const OF_LABELS: ReadonlySet<DiscrepancyKind | CauseKind> = new Set<DiscrepancyKind | CauseKind>([
  'unlabelled-cable',
  'illegible-label',
  'duplicate-label',
  'one-end-labelled',
  'ends-differ',
  'ends-reversed',
  'old-label-left',
  'labels-exchanged',
  'half-renamed',
  'template-copied',
]);

/**
 * What is done where nobody decided otherwise: after a move and in building the plan is what holds, unless the cause is
 * in the sheet; in an inherited place the floor is; in relabelling a label is finished and nothing else is touched.
 * Null: somebody has to say.
 */
export function defaultChoice(occasion: Occasion | null, kind: DiscrepancyKind | CauseKind): Choice | null {
  if (occasion !== null && OF_TESTS.has(kind)) return 'fix-floor';
  switch (occasion) {
    case 'after-move':
    case 'build':
      return OF_THE_RECORD.has(kind) ? 'amend-record' : 'fix-floor';
    case 'inherit':
      return 'amend-record';
    case 'relabel':
      return OF_LABELS.has(kind) ? 'fix-floor' : null;
    case null:
      return null;
  }
}

interface Chosen {
  choice: Choice | null;
  /** Who decided; null where the occasion did. */
  decision: Decision | null;
}

/**
 * What holds for a difference: what was decided about itself, else about its cause, else what the occasion says.
 * Nothing here asks whether it is settled.
 */
export function chosenFor(
  decisions: readonly Decision[],
  occasion: Occasion | null,
  difference: Discrepancy,
  cause: Cause | null,
): Chosen {
  const about = (type: Decision['target']['type'], id: string | undefined) =>
    decisions.findLast(({ target }) => target.type === type && target.id === id);
  const decision = about('discrepancy', difference.id) ?? (cause ? about('cause', cause.id) : undefined) ?? null;
  return { choice: decision?.choice ?? defaultChoice(occasion, cause?.kind ?? difference.kind), decision };
}
