// Questions about jackets and metre marks.
import type { MarksView } from '../core/report/walk/marksView.ts';

export interface MarkQuestions {
  /** `places`: the jack in hand and the one just spoken about. */
  marks: { ask: { audit: string; places: string[] }; answer: MarksView | null };
}
