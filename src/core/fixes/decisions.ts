// What people decided, over the differences as they stand now: signed, beside each other where two do not agree, never
// replaced by time. It takes nothing from view; a hazard that is left stays a hazard.

import type { Cause, CauseKind } from '../causes/cause.ts';
import type { EventId } from '../plan/identity.ts';
import type { Choice } from '../record/judgedEvents.ts';
import { isConflict } from '../rules/conflicts.ts';
import type { Discrepancy, DiscrepancyKind } from '../rules/discrepancy.ts';
import { fingerprint, idToFingerprint } from '../rules/fingerprints.ts';
import type { Fold } from '../rules/foldView.ts';
import type { Severity } from '../trade/kinds.ts';
import { type Decision, defaultChoice } from './decision.ts';

export interface SignedDecision extends Decision {
  /** The event that says it; withdrawing that takes it back. */
  event: EventId;
  at: number;
  /** What it was about in words, for when that no longer differs. */
  about: string;
  /** Keys of the differences that it covers. */
  facts: readonly string[];
}

export interface Standing {
  /** Null while nobody decided, or two differ. */
  choice: Choice | null;
  /** Those that count here, by time. */
  said: SignedDecision[];
  disputed: boolean;
}

export interface Decisions {
  /** What was decided about the difference itself, else about a cause that covered it. */
  ofDifference(one: Discrepancy): Standing;
  /** What was decided about a cause as a whole; differences that came later are not in it. */
  ofCause(one: Pick<Cause, 'id' | 'explains'>): Standing;
  /** One for each difference on which nobody is at odds. */
  standing: Decision[];
  /** Decided, and no longer different. */
  past: SignedDecision[];
  /** Ids of differences without a decision that stands; a conflict wants a check and no decision. */
  open: string[];
}

/** What the occasion offers. Nobody writes a hazard into the record as how it should be: that is fixed. */
export function usualChoice(
  { occasion }: Pick<Fold, 'occasion'>,
  { kind, severity }: { kind: DiscrepancyKind | CauseKind; severity: Severity },
): Choice | null {
  return severity === 'people' || severity === 'equipment' ? 'fix-floor' : defaultChoice(occasion, kind);
}

export function decisionsOf(fold: Pick<Fold, 'of'>, differences: readonly Discrepancy[]): Decisions {
  const byTarget = new Map<string, SignedDecision[]>();
  const byFact = new Map<string, SignedDecision[]>();
  const signed = fold.of('decided').map(({ id, at, payload }): SignedDecision => {
    const { target, choice, by, reason = '', about, facts } = payload;
    return { event: id, at, target, choice, by, reason, about, facts };
  });
  const put = (map: Map<string, SignedDecision[]>, key: string, one: SignedDecision) =>
    map.set(key, [...(map.get(key) ?? []), one]);
  for (const one of signed) {
    put(byTarget, targetKey(one.target), one);
    if (one.target.type === 'cause') for (const key of one.facts) put(byFact, key, one);
  }
  const conflicts = new Set(differences.filter(isConflict).map(({ id }) => id));
  const named = new Map(differences.map((one) => [one.id, [one.id, ...(one.was ?? [])]]));
  const firstOf = (ids: readonly string[], find: (id: string) => SignedDecision[] | undefined) => {
    for (const id of ids) {
      const found = find(id);
      if (found) return found;
    }
    return undefined;
  };
  // What was said of a conflict is shown, and counts for nothing before it is checked again.
  const ofDifference = ({ id, was = [] }: Pick<Discrepancy, 'id' | 'was'>): Standing =>
    toStanding(
      firstOf([id, ...was], (one) => byTarget.get(targetKey({ type: 'discrepancy', id: idToFingerprint(one) }))) ??
        firstOf([id, ...was], (one) => byFact.get(fingerprint(one))) ??
        [],
      !conflicts.has(id),
    );
  const present = new Set([...named.values()].flat().map(fingerprint));
  const standings = differences.map((one) => ({ id: one.id, ...ofDifference(one) }));
  return {
    ofDifference,
    ofCause: ({ id, explains }) => {
      const own = byTarget.get(targetKey({ type: 'cause', id: idToFingerprint(id) }));
      if (own) return toStanding(own);
      // The story grew or has another name by now; what was decided of all of it still holds.
      const [first, ...rest] = explains.map(
        (fact) => firstOf(named.get(fact) ?? [fact], (one) => byFact.get(fingerprint(one))) ?? [],
      );
      return toStanding((first ?? []).filter((one) => rest.every((list) => list.includes(one))));
    },
    standing: standings.flatMap(({ id, choice, said }): Decision[] =>
      choice === null
        ? []
        : [
            {
              target: { type: 'discrepancy', id },
              choice,
              by: [...new Set(said.map(({ by }) => by))].join(', '),
              reason: [...new Set(said.map(({ reason }) => reason).filter(Boolean))].join(' / '),
            },
          ],
    ),
    past: signed.filter(({ facts }) => !facts.some((key) => present.has(key))),
    open: standings.filter(({ id, choice }) => choice === null && !conflicts.has(id)).map(({ id }) => id),
  };
}

function targetKey({ type, id }: Decision['target']): string {
  return `${type} ${id}`;
}

function toStanding(said: readonly SignedDecision[], counts = true): Standing {
  const choices = new Set(counts ? said.map(({ choice }) => choice) : []);
  const disputed = choices.size > 1;
  return { choice: disputed ? null : ([...choices][0] ?? null), said: [...said], disputed };
}
