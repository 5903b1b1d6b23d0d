// Answers about renamings from the station's folds. One function per question, no rule of its own.

import { extendIndex } from '../core/plan/extendIndex.ts';
import type { AuditId } from '../core/plan/identity.ts';
import type { PlanIndex } from '../core/plan/planIndex.ts';
import { renamedPlan } from '../core/renaming/renamedPlan.ts';
import { halfDone, listedRenames, renamings } from '../core/renaming/renaming.ts';
import { checkRenames } from '../core/renaming/renamingCheck.ts';
import { ruleToPairs } from '../core/renaming/renamingRead.ts';
import { renamingLabels, renamingView } from '../core/report/renamingView.ts';
import type { Fold } from '../core/rules/fold.ts';
import type { Station } from '../core/rules/station.ts';
import type { RenamingQuestions } from '../wire/pageRenaming.ts';

type Answers = {
  [Q in keyof RenamingQuestions]: (given: RenamingQuestions[Q]['ask']) => RenamingQuestions[Q]['answer'];
};

export function renamingAnswers(station: Station): Answers {
  const foldOf = (audit: AuditId): Fold | null => station.audit(audit)?.fold ?? null;
  return {
    renaming: ({ audit, from }) => {
      const fold = foldOf(audit);
      return fold && renamingView(fold, audit, from);
    },
    renamingHalf: ({ audit }) => {
      const fold = foldOf(audit);
      if (!fold?.index.renames) return { half: [], left: [], listed: 0 };
      const half = halfDone(fold);
      const left = half.filter(({ handedOver }) => handedOver === null);
      return { half: half.map((one) => one.old), left: left.map((one) => one.old), listed: listedRenames(fold).length };
    },
    renamingCheck: ({ audit, pairs, answers }) => {
      const fold = foldOf(audit);
      if (!fold) return [];
      const { index, scope } = fold;
      const listed = listedRenames(fold);
      return checkRenames({ index, pairs, answers, listed, inScope: scope.has, unknownAt: fold.placesOfUnknown });
    },
    renamingRule: ({ audit, rule }) => {
      const fold = foldOf(audit);
      const inScope = fold?.index.plan.cables.filter((cable) =>
        cable.ends.some(({ place }) => place !== null && fold.scope.has(place)),
      );
      return inScope ? ruleToPairs(inScope, rule) : [];
    },
    renamingPlan: ({ audit, whole }) => {
      const fold = foldOf(audit);
      const inForce = station.planInForce();
      if (!fold || !inForce?.index) return null;
      const made = renamedPlan(inForce.index.plan, inForce.revision, renamings(fold));
      return { ...made, plan: whole ? made.plan : null };
    },
    renamingLabels: ({ audit }) => {
      const fold = foldOf(audit);
      return fold ? renamingLabels(fold) : [];
    },
  };
}

/** The plan in force with the names that open audits are giving: a search finds both meanings of an exchanged one. */
export function indexWithNewNames(station: Station): PlanIndex | null {
  const index = station.planInForce()?.index;
  if (!index) return null;
  const given = station.audits().flatMap(({ fold }) => (fold && !fold.closed ? listedRenames(fold) : []));
  const open = given.filter((one) => index.cables.get(one.cable)?.label === one.old);
  return extendIndex(index, { racks: [], units: [], jacks: [], cableNames: open });
}
