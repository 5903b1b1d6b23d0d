// Answers about the scope of a running audit.
import { scopeMore } from '../core/report/walk/scopeView.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { ScopeQuestions } from '../wire/pageScope.ts';

type Answers = { [Q in keyof ScopeQuestions]: (given: ScopeQuestions[Q]['ask']) => ScopeQuestions[Q]['answer'] };

export function scopeAnswers(foldOf: (audit: string) => Fold | null): Answers {
  return {
    scopeMore: ({ audit, text }) => {
      const fold = foldOf(audit);
      return fold && scopeMore(fold, text);
    },
  };
}
