// The question of the desk check: what the plan in force gets wrong by itself.
import type { DeskView } from '../core/report/deskView.ts';

export interface DeskQuestions {
  /** Null where there is no plan on this phone. */
  desk: { ask: Record<never, never>; answer: DeskView | null };
}
