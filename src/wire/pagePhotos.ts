// What the page asks about photos, their pins, and labels that are read off them later.
import type { AuditId, PlaceId, UnitId } from '../core/plan/identity.ts';
import type { PhotosView, PhotoView, PinChoice, ReadingList } from '../core/report/photosView.ts';

export interface PhotoQuestions {
  /** Photos and voice notes of one place, or of the whole audit when it is null. */
  photos: { ask: { audit: AuditId; place: PlaceId | null }; answer: PhotosView | null };
  photo: {
    ask: { audit: AuditId; document: string };
    /** With the events that one undo takes back. */
    answer: { photo: PhotoView; lastMark: string | null; lastPin: string | null } | null;
  };
  /** Jacks that a tap may mean; of the photo's own unit when `unit` is null. */
  pinChoice: { ask: { audit: AuditId; document: string; unit: UnitId | null }; answer: PinChoice | null };
  toRead: { ask: { audit: AuditId }; answer: ReadingList | null };
}
