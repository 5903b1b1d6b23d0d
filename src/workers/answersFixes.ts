// Answers about the work to do, the plan as amended, and what was just read or checked.

import type { AuditId } from '../core/plan/identity.ts';
import { amendedView } from '../core/report/amendedView.ts';
import { checkDone, checkView, typedAnswer } from '../core/report/checkView.ts';
import { fixesView } from '../core/report/fixesView.ts';
import { newCableAt } from '../core/report/walk/newCableView.ts';
import { valueRead } from '../core/report/walk/valueRead.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { Station } from '../core/rules/station.ts';
import type { CheckQuestions } from '../wire/pageChecks.ts';
import type { FixesQuestions } from '../wire/pageFixes.ts';

type Asked = FixesQuestions & CheckQuestions;
type Answers = { [Q in keyof Asked]: (given: Asked[Q]['ask']) => Asked[Q]['answer'] };

export function fixesAnswers(station: Station, foldOf: (audit: AuditId) => Fold | null): Answers {
  return {
    amendedPlan: ({ audit, whole }) => {
      const fold = foldOf(audit);
      const inForce = station.planInForce();
      if (!fold || !inForce?.index) return null;
      const made = amendedView(fold, { plan: inForce.index.plan, revision: inForce.revision });
      return { ...made, plan: whole ? made.plan : null };
    },
    valueRead: ({ audit, event }) => {
      const fold = foldOf(audit);
      return fold && valueRead(fold, event);
    },
    check: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && checkView(fold, place);
    },
    checkTyped: ({ audit, place, text }) => {
      const fold = foldOf(audit);
      return fold && typedAnswer(fold, place, text);
    },
    checkDone: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && checkDone(fold, place);
    },
    newCable: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && newCableAt(fold, place);
    },
    fixes: ({ audit }) => {
      const fold = foldOf(audit);
      return fold && fixesView(fold, audit);
    },
  };
}
