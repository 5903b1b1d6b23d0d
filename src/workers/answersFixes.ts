// Answers about the work to do and the plan as amended.

import type { AuditId } from '../core/plan/identity.ts';
import { amendedView } from '../core/report/amendedView.ts';
import { fixesView } from '../core/report/fixesView.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { Station } from '../core/rules/station.ts';
import type { FixesQuestions } from '../wire/pageFixes.ts';

type Answers = { [Q in keyof FixesQuestions]: (given: FixesQuestions[Q]['ask']) => FixesQuestions[Q]['answer'] };

export function fixesAnswers(station: Station, foldOf: (audit: AuditId) => Fold | null): Answers {
  return {
    amendedPlan: ({ audit, whole }) => {
      const fold = foldOf(audit);
      const inForce = station.planInForce();
      if (!fold || !inForce?.index) return null;
      const made = amendedView(fold, { plan: inForce.index.plan, revision: inForce.revision });
      return { ...made, plan: whole ? made.plan : null };
    },
    fixes: ({ audit }) => {
      const fold = foldOf(audit);
      return fold && fixesView(fold, audit);
    },
  };
}
