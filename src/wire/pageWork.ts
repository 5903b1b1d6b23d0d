// Questions about building: stages of ends, what is left, changes against the plan.
import type { WorkView } from '../core/report/workView.ts';

export interface WorkQuestions {
  work: { ask: { audit: string; place: string | null }; answer: WorkView | null };
}
