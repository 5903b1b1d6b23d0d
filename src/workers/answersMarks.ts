// Answers about jackets and metre marks.

import type { AuditId } from '../core/plan/identity.ts';
import { marksView } from '../core/report/walk/marksView.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { MarkQuestions } from '../wire/pageMarks.ts';

type Answers = { [Q in keyof MarkQuestions]: (given: MarkQuestions[Q]['ask']) => MarkQuestions[Q]['answer'] };

export function markAnswers(foldOf: (audit: AuditId) => Fold | null): Answers {
  return {
    marks: ({ audit, places }) => {
      const fold = foldOf(audit);
      return fold && marksView(fold, places);
    },
  };
}
