// Questions about the revisions of the plan and their answers. Types alone; answers are made in workers/answersRevisions.ts.

import type { AuditId } from '../core/plan/identity.ts';
import type { BoundView, MoveEffects } from '../core/report/plan/boundView.ts';

export interface RevisionQuestions {
  /** Named by the last adoption, whether or not its document is here. */
  planInForce: { ask: Record<never, never>; answer: { revision: string; name: string } | null };
  /** Which plan an audit counts over, and where it may be moved. */
  bound: { ask: { audit: AuditId }; answer: BoundView | null };
  /** What changes in its verdicts over that revision; null while one of the two is not here. */
  moveEffects: { ask: { audit: AuditId; revision: string }; answer: MoveEffects | null };
}
