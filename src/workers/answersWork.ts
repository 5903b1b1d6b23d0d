// Answers about building.

import { workView } from '../core/report/workView.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { WorkQuestions } from '../wire/pageWork.ts';

type Answers = { [Q in keyof WorkQuestions]: (given: WorkQuestions[Q]['ask']) => WorkQuestions[Q]['answer'] };

export function workAnswers(foldOf: (audit: string) => Fold | null): Answers {
  return {
    work: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && workView(fold, place);
    },
  };
}
