// Questions about temporary numbers.
import type { TwinsView } from '../core/report/twinsView.ts';

export interface TwinQuestions {
  twins: { ask: { audit: string; place: string | null; log: string }; answer: TwinsView | null };
}
