// Each difference goes to one of these: told, owed a look, asked about, put right, amended in the record, or left.

import type { Cause, CauseKind } from '../causes/cause.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Fold } from '../rules/foldView.ts';
import { chosenFor, isSettled } from './decision.ts';
import type { FixInput } from './input.ts';
import { decide, decideCause, settleCause, settleDifference } from './looks.ts';
import { jobOf, type PlugJob } from './plugs.ts';
import type { Group } from './step.ts';

/** Causes that say which plug is where: moved back they are cured. */
const PLUG_STORIES: ReadonlySet<CauseKind> = new Set<CauseKind>([
  'crossed',
  'chain-moved',
  'rotated',
  'row-shifted',
  'row-mirrored',
  'odd-even-exchanged',
  'groups-exchanged',
  'units-exchanged',
]);

export const isHazard = ({ severity }: Discrepancy) => severity === 'people' || severity === 'equipment';

export type Sorted = {
  /** Plugs that move. */
  jobs: PlugJob[];
  looks: Group[];
  /** Causes that are put right as a whole, with the differences they explain. */
  whole: { cause: Cause; all: Discrepancy[] }[];
  alone: Discrepancy[];
  record: string[];
  left: string[];
};

export function sortOut(fold: Fold, input: FixInput): Sorted {
  const { differences, causes, rank } = input;
  const found: Sorted = { jobs: [], looks: [], whole: [], alone: [], record: [], left: [] };
  const causeOf = new Map<string, Cause>();
  for (const cause of causes) for (const id of cause.explains) if (!causeOf.has(id)) causeOf.set(id, cause);
  const byId = new Map(differences.map((one) => [one.id, one]));
  const isOwed = (cause: Cause) =>
    !isSettled(
      cause,
      cause.explains.flatMap((id) => byId.get(id) ?? []),
    );
  const byCause = new Map<Cause, Discrepancy[]>();
  const asked = new Set<Cause>();
  for (const one of differences) {
    const cause = causeOf.get(one.id) ?? null;
    const chosen = chosenFor(input.decisions, fold.occasion, one, cause);
    const choice = input.disputed?.has(one.id) ? null : chosen.choice;
    // Whoever leaves a hazard as it is takes it out of no list.
    if (isHazard(one)) continue;
    if (choice === 'leave' && chosen.decision) found.left.push(one.id);
    else if (cause) sortExplained(fold, causes, one, cause, { choice, isOwed, asked, byCause, found });
    else if (one.severity === 'undecided') {
      // Where a hazard is told at the same plug, that comes first and says the same.
      if (!isBesideHazard(differences, one)) found.looks.push(settleDifference(fold, one));
    } else if (choice === 'fix-floor') found.alone.push(one);
    else if (choice === null) found.looks.push(decide(fold, one));
    else found.record.push(one.id);
  }
  const addJob = (one: Discrepancy, about: string[]): boolean => {
    const job = jobOf(fold, one, about);
    if (job) found.jobs.push(job);
    return job !== null;
  };
  for (const [cause, all] of byCause) {
    if (PLUG_STORIES.has(cause.kind)) {
      const settled = !isOwed(cause);
      for (const one of all) if (one.kind === 'wrong-jack') addJob(one, [settled ? cause.id : one.id]);
      // Units seen in each other's place have no plugs in their story.
      if (!all.some(({ kind }) => kind === 'wrong-jack')) found.whole.push({ cause, all });
    } else found.whole.push({ cause, all });
  }
  found.alone = found.alone.filter((one) => {
    if (one.kind !== 'wrong-jack' && one.kind !== 'not-landed') return true;
    return !addJob(one, [one.id]);
  });
  const placeOf = ({ from, to }: PlugJob) => from ?? to;
  found.jobs.sort((a, b) => rank(placeOf(a)) - rank(placeOf(b)) || (a.plug < b.plug ? -1 : 1));
  return found;
}

type Sorting = {
  choice: ReturnType<typeof chosenFor>['choice'];
  isOwed: (cause: Cause) => boolean;
  /** Causes that somebody is asked about: once each. */
  asked: Set<Cause>;
  /** Differences that are put right by way of their cause. */
  byCause: Map<Cause, Discrepancy[]>;
  found: Sorted;
};

/** One difference that a cause explains. */
function sortExplained(
  fold: Fold,
  causes: readonly Cause[],
  one: Discrepancy,
  cause: Cause,
  { choice, isOwed, asked, byCause, found }: Sorting,
): void {
  // A plug that was followed is in the wrong jack, whatever story holds for its neighbours.
  const isOpen = cause.disputed || cause.rivals.length > 0 || one.severity === 'undecided';
  const proven = PLUG_STORIES.has(cause.kind) && !isOpen;
  const put = () => byCause.set(cause, [...(byCause.get(cause) ?? []), one]);
  if (isOwed(cause) && !proven) {
    if (!asked.has(cause)) found.looks.push(settleCause(fold, withLook(causes, cause)));
    asked.add(cause);
  } else if (choice === 'fix-floor') put();
  else if (choice === null) {
    if (!asked.has(cause)) found.looks.push(decideCause(fold, cause));
    asked.add(cause);
  } else {
    found.record.push(one.id);
    if (cause.kind === 'hop-not-on-sheet') put();
  }
}

/** Of stories that fit the same facts, the one that knows which look tells them apart. */
function withLook(causes: readonly Cause[], cause: Cause): Cause {
  if (cause.nextLook) return cause;
  return causes.find(({ id, nextLook }) => nextLook !== null && cause.rivals.includes(id)) ?? cause;
}

/** Unlabelled or unplanned, and followed into a jack that it harms: told as that. */
function isBesideHazard(differences: readonly Discrepancy[], { kind, places }: Discrepancy): boolean {
  if (kind !== 'unlabelled-cable' && kind !== 'unplanned-cable') return false;
  return differences.some(
    (one) => isHazard(one) && one.kind === 'signal-clash' && one.places.some((place) => places.includes(place)),
  );
}
