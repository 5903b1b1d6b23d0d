// After hands were at work: a label that is right again is not called wrong because of what was seen elsewhere before.
// It takes nothing off the record: the difference stands until the other place was looked at again.
import type { PlaceId } from '../plan/identity.ts';
import type { Fold } from '../rules/fold.ts';

/** The places to check next, where nothing else differs at this one; none where it is no check after work. */
export function checkNext(fold: Fold, place: PlaceId): PlaceId[] {
  const now = fold.stateAt(place).looks.at(-1);
  const [reading, ...more] = fold.readingsAt(place);
  const cable = reading?.cable ?? null;
  if (!now?.asLeft || cable === null || more.length > 0) return [];
  const planned = fold.index.cables.get(cable)?.ends.flatMap((end) => end.place ?? []) ?? [];
  if (!planned.includes(place)) return [];
  const isBefore = (other: PlaceId) => fold.stateAt(other).looks.every(({ asLeft, at }) => !asLeft && at < now.at);
  const before = fold.placesOfCable(cable).filter((other) => !planned.includes(other) && isBefore(other));
  const found = fold.discrepanciesAt(place);
  const isOld = (places: readonly PlaceId[]) => places.some((other) => before.includes(other));
  return found.length > 0 && found.every((one) => one.cable === cable && isOld(one.places)) ? before : [];
}
