// Questions about the work of one audit: the punch list, and the plan with what was decided to amend in it.
import type { AuditId } from '../core/plan/identity.ts';
import type { Plan } from '../core/plan/model.ts';
import type { AmendedView } from '../core/report/amendedView.ts';
import type { FixesView } from '../core/report/fixesView.ts';

export interface FixesQuestions {
  /** With `whole` the plan itself comes along, to be adopted; without it only what would change. */
  amendedPlan: { ask: { audit: AuditId; whole: boolean }; answer: (AmendedView & { plan: Plan | null }) | null };
  fixes: { ask: { audit: AuditId }; answer: FixesView | null };
}
