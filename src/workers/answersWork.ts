// Answers about building.

import type { AuditId } from '../core/plan/identity.ts';
import { workView } from '../core/report/workView.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { WorkQuestions } from '../wire/pageWork.ts';

type Answers = { [Q in keyof WorkQuestions]: (given: WorkQuestions[Q]['ask']) => WorkQuestions[Q]['answer'] };

export function workAnswers(foldOf: (audit: AuditId) => Fold | null): Answers {
  return {
    work: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && workView(fold, place);
    },
  };
}
