// Answers about temporary numbers.
import type { Fold } from '../core/audit/fold.ts';
import { twinsView } from '../core/report/twinsView.ts';
import type { TwinQuestions } from '../wire/pageTwins.ts';

type Answers = { [Q in keyof TwinQuestions]: (given: TwinQuestions[Q]['ask']) => TwinQuestions[Q]['answer'] };

export function twinAnswers(foldOf: (audit: string) => Fold | null): Answers {
  return {
    twins: ({ audit, place, log }) => {
      const fold = foldOf(audit);
      return fold && twinsView(fold, place, log);
    },
  };
}
