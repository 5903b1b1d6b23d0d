// Questions about jackets and metre marks.
import type { AuditId, PlaceId } from '../core/plan/identity.ts';
import type { MarksView } from '../core/report/walk/marksView.ts';

export interface MarkQuestions {
  /** `places`: the jack in hand and the one just spoken about. */
  marks: { ask: { audit: AuditId; places: PlaceId[] }; answer: MarksView | null };
}
