// Places as the links of a floor see them: which unit, which side of a panel's hole. Names only; it asks no record.
import type { PlaceId } from '../plan/identity.ts';

const SIDE = /^(.*?)-?(FRONT|REAR)$/;

/** Front and rear of one hole of a panel; null where a place is no side of one. */
export function otherSide(place: PlaceId): PlaceId | null {
  const match = SIDE.exec(place);
  return match ? `${match[1]}-${match[2] === 'FRONT' ? 'REAR' : 'FRONT'}` : null;
}

/** The hole that a place is a side of; the place itself where it is none. */
export function holeOf(place: PlaceId): PlaceId {
  return SIDE.exec(place)?.[1] ?? place;
}
