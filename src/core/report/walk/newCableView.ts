// A cable off the plan whose two ends were both read: what the walk offers to do about it. Where its jacks must not meet
// nothing is offered; that is a hazard first.

import { decisionsOf } from '../../fixes/decisions.ts';
import type { PlaceId } from '../../plan/identity.ts';
import type { Fold } from '../../rules/fold.ts';
import { type DecisionLine, decisionLine } from '../decisionsView.ts';
import { discrepancyToWords } from '../words/words.ts';

export interface NewCable {
  label: string;
  /** "7778 runs from SW1 P20 to SW2 P15, not in the plan." */
  line: string;
  /** Both jacks, in words. */
  ends: string[];
  decision: DecisionLine;
}

export function newCableAt(fold: Fold, place: PlaceId): NewCable | null {
  const here = fold.discrepanciesAt(place);
  const one = here.find(({ kind, places }) => kind === 'unplanned-cable' && places.length === 2);
  if (!one || here.some(({ severity }) => severity === 'people' || severity === 'equipment')) return null;
  const { line } = discrepancyToWords(fold.index, one);
  const decision = decisionLine(fold, one, line, decisionsOf(fold, fold.discrepancies()).ofDifference(one));
  if (decision.said.length > 0) return null;
  return { label: one.labels[0] ?? '', line, ends: one.places.map((end) => fold.wordsOf(end)), decision };
}
