// Answers about what is described on the floor and about the plan that a record makes.

import type { AuditId } from '../core/plan/identity.ts';
import { describedView, likeUnit } from '../core/report/describedView.ts';
import { recordToPlan } from '../core/report/plan/recordToPlan.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { DescribeQuestions } from '../wire/pageDescribe.ts';

type Answers = {
  [Q in keyof DescribeQuestions]: (given: DescribeQuestions[Q]['ask']) => DescribeQuestions[Q]['answer'];
};

export function describeAnswers(foldOf: (audit: AuditId) => Fold | null): Answers {
  return {
    described: ({ audit }) => {
      const fold = foldOf(audit);
      return fold && describedView(fold, audit);
    },
    like: ({ audit, label }) => {
      const fold = foldOf(audit);
      return fold && likeUnit(fold, label);
    },
    recordCounts: ({ audit }) => {
      const fold = foldOf(audit);
      if (!fold?.started) return null;
      const { name } = fold.started.payload;
      return { ...recordToPlan(fold, name, fold.revision).counts, name, parent: fold.revision };
    },
    recordPlan: ({ audit, name }) => {
      const fold = foldOf(audit);
      return fold?.started ? recordToPlan(fold, name, fold.revision).plan : null;
    },
  };
}
