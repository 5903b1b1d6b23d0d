// Answers of the walk: what is asked or recorded, what is shown after it. No rule of its own.

import type { PlanIndex } from '../core/plan/planIndex.ts';
import { fitsAt } from '../core/report/walk/fitsPattern.ts';
import { slipLeft, stated } from '../core/report/walk/stated.ts';
import type { Fold } from '../core/rules/fold.ts';
import { decide } from '../core/walk/decide.ts';
import { readingView } from '../core/walk/reading.ts';
import { saidSince, statementsAt } from '../core/walk/statementsAt.ts';
import type { WalkQuestions } from '../wire/pageWalk.ts';

type Answers = { [Q in keyof WalkQuestions]: (given: WalkQuestions[Q]['ask']) => WalkQuestions[Q]['answer'] };

export function walkAnswers(
  foldOf: (audit: string) => Fold | null,
  indexFor: (audit: string | null) => PlanIndex | null,
): Answers {
  return {
    judge: ({ audit, memory, here, input }) => {
      const fold = foldOf(audit);
      return fold ? decide(fold, memory, here, input) : { type: 'nothing' };
    },
    stated: ({ audit, places, here, memory, open }) => {
      const fold = foldOf(audit);
      return fold ? stated(fold, audit, places, here, memory, open) : { verdicts: [], view: null, slip: null };
    },
    slipLeft: ({ audit, memory }) => {
      const fold = foldOf(audit);
      return fold && slipLeft(fold, audit, memory);
    },
    reading: ({ audit, place, text }) => {
      const index = indexFor(audit);
      return index ? readingView(index, place, text) : { type: 'unknown' };
    },
    statementsAt: ({ audit, places }) => {
      const fold = foldOf(audit);
      return fold ? statementsAt(fold, places) : [];
    },
    fits: ({ audit, place }) => {
      const fold = foldOf(audit);
      return fold && fitsAt(fold, place);
    },
    saidSince: ({ audit, log, since }) => {
      const fold = foldOf(audit);
      return fold ? saidSince(fold, log, since) : [];
    },
  };
}
