// Questions about building: stages of ends, what is left, changes against the plan.
import type { AuditId, PlaceId } from '../core/plan/identity.ts';
import type { WorkView } from '../core/report/workView.ts';

export interface WorkQuestions {
  work: { ask: { audit: AuditId; place: PlaceId | null }; answer: WorkView | null };
}
