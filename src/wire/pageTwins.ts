// Questions about temporary numbers and labels that no plan has.
import type { AuditId, PlaceId } from '../core/plan/identity.ts';
import type { FloorHit } from '../core/report/walk/floorSearch.ts';
import type { TwinsView } from '../core/report/walk/twinsView.ts';

export interface TwinQuestions {
  twins: { ask: { audit: AuditId; place: PlaceId | null; log: string }; answer: TwinsView | null };
  searchFloor: { ask: { text: string }; answer: FloorHit[] };
}
