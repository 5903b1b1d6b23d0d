// Where a temporary number is wanted, and what a number read there means: the label to put on that plug.

import type { PlaceId } from '../plan/identity.ts';
import { isSlot } from '../plan/identity.ts';
import { lookUp } from '../plan/lookUp.ts';
import { needsNoLabel } from '../rules/adapters.ts';
import type { Fold } from '../rules/fold.ts';
import { duplicateNumbers, numberToText, TWIN_DIGITS, TWIN_PREFIX, twinsOf, twinToNumber } from '../rules/numbers.ts';
import type { LabelStatement } from './question.ts';

export function looksUpon(fold: Fold, place: PlaceId): string[] {
  return fold.stateAt(place).looks.map(({ event }) => event);
}

/** The plug bears nothing that can be read, and no label at a far end that was followed tells its cable. */
export function isBare(fold: Fold, place: PlaceId): boolean {
  const state = fold.stateAt(place);
  if (isSlot(place) || (state.type !== 'unlabelled' && state.type !== 'illegible')) return false;
  return !needsNoLabel(fold, place, state) && fold.joined(place).every((far) => fold.readingsAt(far).length === 0);
}

/** Null where the number is no temporary one here: the plan has it, no label may be put, or nothing is wanted. */
export function twinOnto(fold: Fold, place: PlaceId, text: string, log: string): LabelStatement | null {
  const n = twinToNumber(text);
  if (n === null || fold.permission === 'look' || !isBare(fold, place)) return null;
  if (lookUp(fold.index.names, text, 'cable').type !== 'none') return null;
  const written = numberToText({ prefix: TWIN_PREFIX, digits: TWIN_DIGITS }, n);
  const ends = twinsOf(fold).filter((twin) => twinToNumber(twin.text) === n);
  const twice = duplicateNumbers(fold).find((one) => twinToNumber(one.text) === n);
  // Of two cables with one number it can only be the one that this phone gave.
  const own = twice ? twice.issuers.find((giver) => giver.log === log)?.places : ends[0]?.places;
  const other = own?.[0];
  const put = { place, text: ends[0]?.text ?? written, upon: looksUpon(fold, place), why: 'twin' as const };
  return { kind: 'label-put', payload: other === undefined ? put : { ...put, other } };
}
