// Questions about what is described on the floor and the plan that a record makes.
import type { Plan } from '../core/plan/model.ts';
import type { DescribedView, LikeUnit } from '../core/report/describedView.ts';
import type { RecordCounts } from '../core/report/plan/recordToPlan.ts';

export interface DescribeQuestions {
  described: { ask: { audit: string }; answer: DescribedView | null };
  like: { ask: { audit: string; label: string }; answer: LikeUnit | null };
  recordCounts: { ask: { audit: string }; answer: (RecordCounts & { name: string; parent: string | null }) | null };
  recordPlan: { ask: { audit: string; name: string }; answer: Plan | null };
}
