// Questions about what is described on the floor and the plan that a record makes.
import type { AuditId } from '../core/plan/identity.ts';
import type { Plan } from '../core/plan/model.ts';
import type { DescribedView, LikeUnit } from '../core/report/describedView.ts';
import type { RecordCounts } from '../core/report/plan/recordToPlan.ts';

export interface DescribeQuestions {
  described: { ask: { audit: AuditId }; answer: DescribedView | null };
  like: { ask: { audit: AuditId; label: string }; answer: LikeUnit | null };
  recordCounts: { ask: { audit: AuditId }; answer: (RecordCounts & { name: string; parent: string | null }) | null };
  recordPlan: { ask: { audit: AuditId; name: string }; answer: Plan | null };
}
