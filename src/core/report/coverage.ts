// One count of one fold: every number on a screen and in a report comes from here.

import type { Fold } from '../rules/fold.ts';
import type { CableStatus } from '../rules/foldView.ts';
import { isLookedAt } from '../rules/planDiscrepancies.ts';

export interface Coverage {
  /** Places owed a look, and how many of them were looked at. */
  places: number;
  seen: number;
  /** Said to be not visible or refused: no looks. */
  notVerified: number;
  /** Cables with at least one end in scope. */
  cables: number;
  bothEnds: number;
  oneEnd: number;
  differ: number;
  notSeen: number;
  cablesNotVerified: number;
}

export interface CableLine {
  id: string;
  label: string;
  status: CableStatus;
}

/** Cables that the audit speaks about: those with an end in scope, in plan order. */
export function cablesInScope(fold: Fold): CableLine[] {
  return fold.index.plan.cables
    .filter((cable) => cable.ends.some((end) => end.place !== null && fold.scope.has(end.place)))
    .map((cable) => ({ id: cable.id, label: cable.label, status: fold.statusOf(cable.id) }));
}

export function coverageOf(fold: Fold, lines = cablesInScope(fold)): Coverage {
  let seen = 0;
  let notVerified = 0;
  for (const place of fold.scope.owed) {
    if (isLookedAt(fold, place)) seen += 1;
    else if (fold.stateAt(place).type === 'not-verified') notVerified += 1;
  }
  const count = (type: CableStatus['type']) => lines.filter(({ status }) => status.type === type).length;
  return {
    places: fold.scope.owed.size,
    seen,
    notVerified,
    cables: lines.length,
    bothEnds: count('confirmed'),
    oneEnd: count('one-end-seen'),
    differ: count('differs'),
    notSeen: count('not-seen'),
    cablesNotVerified: count('not-verified'),
  };
}
