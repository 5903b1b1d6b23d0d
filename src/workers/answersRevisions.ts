// Answers about the revisions of the plan. One function per question, no rule of its own.

import { boundView, moveEffects } from '../core/report/plan/boundView.ts';
import type { Station } from '../core/rules/station.ts';
import type { RevisionQuestions } from '../wire/pageRevisions.ts';

type Answers = {
  [Q in keyof RevisionQuestions]: (given: RevisionQuestions[Q]['ask']) => RevisionQuestions[Q]['answer'];
};

export function revisionAnswers(station: Station): Answers {
  return {
    planInForce: () => {
      const force = station.planInForce();
      return force && { revision: force.revision, name: force.name };
    },
    bound: ({ audit }) => boundView(station, audit),
    moveEffects: ({ audit, revision }) => moveEffects(station, audit, revision),
  };
}
