// The answer about the work to do.
import type { Fold } from '../core/audit/fold.ts';
import { fixesView } from '../core/report/fixesView.ts';
import type { FixesQuestions } from '../wire/pageFixes.ts';

type Answers = { [Q in keyof FixesQuestions]: (given: FixesQuestions[Q]['ask']) => FixesQuestions[Q]['answer'] };

export function fixesAnswers(foldOf: (audit: string) => Fold | null): Answers {
  return {
    fixes: ({ audit }) => {
      const fold = foldOf(audit);
      return fold && fixesView(fold, audit);
    },
  };
}
