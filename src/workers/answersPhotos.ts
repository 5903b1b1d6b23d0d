// Answers about photos, voice notes and pins. Slices of the fold and nothing of their own.

import type { AuditId } from '../core/plan/identity.ts';
import { lastOnPhoto, photosView, photoView, pinChoice, readingList } from '../core/report/photosView.ts';
import type { Station } from '../core/rules/station.ts';
import type { PhotoQuestions } from '../wire/pagePhotos.ts';

type Answers = { [Q in keyof PhotoQuestions]: (given: PhotoQuestions[Q]['ask']) => PhotoQuestions[Q]['answer'] };

export function photoAnswers(station: Station): Answers {
  const foldOf = (audit: AuditId) => station.audit(audit)?.fold ?? null;
  return {
    photos: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && photosView(fold, place);
    },
    photo: ({ audit, document }) => {
      const fold = foldOf(audit);
      const photo = fold && photoView(fold, document);
      if (!fold || !photo) return null;
      const [lastMark, lastPin] = [
        lastOnPhoto(fold, document, 'photo-marked'),
        lastOnPhoto(fold, document, 'photo-pinned'),
      ];
      return { photo, lastMark, lastPin };
    },
    pinChoice: ({ audit, document, unit }) => {
      const fold = foldOf(audit);
      return fold && pinChoice(fold, document, unit);
    },
    toRead: ({ audit }) => {
      const fold = foldOf(audit);
      return fold && readingList(fold);
    },
  };
}
