// The question of the work to do: the punch list of one audit.
import type { FixesView } from '../core/report/fixesView.ts';

export interface FixesQuestions {
  fixes: { ask: { audit: string }; answer: FixesView | null };
}
