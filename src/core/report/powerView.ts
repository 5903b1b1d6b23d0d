// What is known of the power at one unit: outlets that were described, where its cords go, what was derived. Words only
// tell; none says that a cord may be moved.

import { type PlaceId, unitOf } from '../plan/identity.ts';
import { factsAt } from '../plan/planIndex.ts';
import type { Fold } from '../rules/fold.ts';
import { powerDiscrepancies, supplyPaths } from '../rules/power.ts';
import { cautionFor } from '../trade/hazards.ts';
import { compareLabels } from './walk/walkOrder.ts';
import { discrepancyToWords } from './words/words.ts';

export interface PowerHere {
  caution: string;
  /** May the cord of this jack lead to an outlet? Not where the plan has another signal. */
  isInlet: boolean;
  outlets: { place: PlaceId; words: string }[];
  /** "AC A: ST1 OUT 1, FEED-A." for each cord of the unit in hand that was told. */
  paths: string[];
  remarks: { title: string; line: string }[];
}

export function powerView(fold: Fold, place: PlaceId): PowerHere {
  const { index } = fold;
  const outlets = index.plan.units
    .filter(({ form }) => form === 'feed' || form === 'strip')
    .flatMap(({ id }) => index.jacksOf.get(id) ?? [])
    .map((jack) => ({ place: jack.id, words: fold.wordsOf(jack.id) }))
    .sort((a, b) => compareLabels(a.words, b.words));
  return {
    caution: cautionFor('mains')!,
    isInlet: [undefined, 'mains', 'dc'].includes(factsAt(index, place).signal),
    outlets,
    paths: supplyPaths(fold, unitOf(place)).map(({ inlet, outlet, through, feed }) => {
      const by = through.slice(1).map((id) => index.units.get(id)?.label ?? id);
      const way = [fold.wordsOf(outlet), ...by].join(', ');
      return `${fold.wordsOf(inlet)}: ${way}.${feed === null ? ' Its feed is not known.' : ''}`;
    }),
    remarks: powerDiscrepancies(fold).map((one) => {
      const { title, line } = discrepancyToWords(index, one);
      return { title, line };
    }),
  };
}
