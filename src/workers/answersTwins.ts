// Answers about temporary numbers and labels that no plan has.

import type { AuditId } from '../core/plan/identity.ts';
import { searchFloor } from '../core/report/walk/floorSearch.ts';
import { twinsView } from '../core/report/walk/twinsView.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { Station } from '../core/rules/station.ts';
import type { TwinQuestions } from '../wire/pageTwins.ts';

type Answers = { [Q in keyof TwinQuestions]: (given: TwinQuestions[Q]['ask']) => TwinQuestions[Q]['answer'] };

export function twinAnswers(station: Station, foldOf: (audit: AuditId) => Fold | null): Answers {
  return {
    searchFloor: ({ text }) => searchFloor(station, text),
    twins: ({ audit, place, log }) => {
      const fold = foldOf(audit);
      return (
        fold &&
        twinsView(
          fold,
          place,
          log,
          station.audits().flatMap((one) => one.fold ?? []),
        )
      );
    },
  };
}
