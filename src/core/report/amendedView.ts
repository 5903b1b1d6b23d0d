// What the plan in force becomes by what was decided to amend: each change in words, what is in it already, what is left
// out and why. Adopts nothing.

import { explain } from '../causes/explain.ts';
import { amendedPlan, amendmentsOf } from '../fixes/amendments.ts';
import { decisionsOf } from '../fixes/decisions.ts';
import type { Plan } from '../plan/model.ts';
import type { Fold } from '../rules/foldView.ts';
import { type AmendmentLine, changeLine, endLine } from './decisionsView.ts';
import { notTakenToWords } from './words/amendWords.ts';

export interface AmendedView {
  changes: AmendmentLine[];
  done: number;
  left: (AmendmentLine & { why: string })[];
  byHand: number;
}

/** @param inForce The plan that the station goes by now, which need not be the one the audit was walked by. */
export function amendedView(fold: Fold, inForce: { plan: Plan; revision: string }): AmendedView & { plan: Plan } {
  const differences = fold.discrepancies();
  const { causes } = explain(fold, differences);
  const { ends, more, byHand } = amendmentsOf(fold, differences, causes, decisionsOf(fold, differences));
  const changes = more.map(({ change }) => change);
  const made = amendedPlan(inForce.plan, inForce.revision, ends, changes);
  return {
    plan: made.plan,
    changes: [...made.ends.map((one) => endLine(fold, one)), ...made.more.map((one) => changeLine(fold, one))],
    done: made.done,
    left: made.left.map(({ amendment, why }) => ({
      ...('type' in amendment ? changeLine(fold, amendment) : endLine(fold, amendment)),
      why: notTakenToWords(why),
    })),
    byHand: byHand.length,
  };
}
