// Answers about putting right and about who else walks.

import type { AuditId } from '../core/plan/identity.ts';
import { saidSince, statementsAt } from '../core/report/walk/statementsAt.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { MoveQuestions } from '../wire/pageMove.ts';

type Answers = { [Q in keyof MoveQuestions]: (given: MoveQuestions[Q]['ask']) => MoveQuestions[Q]['answer'] };

export function moveAnswers(foldOf: (audit: AuditId) => Fold | null): Answers {
  return {
    hung: ({ audit, places }) => {
      const fold = foldOf(audit);
      return fold ? statementsAt(fold, places) : [];
    },
    saidSince: ({ audit, log, since }) => {
      const fold = foldOf(audit);
      return fold ? saidSince(fold, log, since) : [];
    },
  };
}
