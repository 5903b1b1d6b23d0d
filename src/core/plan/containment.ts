// Places that are part of a place: the landings of a range (`BLK4 1-25`) and the sockets of what hangs on a jack. What
// is seen at a part counts for the whole that the plan names. Look-up only; nothing is renamed or merged here.
import { derived } from './derived.ts';
import { expandRange, jackOf, jackToPlace, type PlaceId, placeToParts } from './identity.ts';
import type { Jack } from './model.ts';
import type { PlanIndex, PlannedEnd } from './planIndex.ts';

/** One side of a panel or block, behind the numbers: `J1-J24 rear`. */
const SIDE = /-(FRONT|REAR|JUMPER)$/;

/** The landings that a place names as a range, in their order: of `BLK4/1-25` the 25. Empty where it names none. */
export function rangeToMembers(place: PlaceId): PlaceId[] {
  // Asked of every jack of a plan: most bear no separator at all.
  if (!jackOf(place).includes('-')) return [];
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return [];
  const [side = ''] = SIDE.exec(parts.jack) ?? [];
  const match = /^(.*?)(\d+)-(\D*?)(\d+)$/.exec(parts.jack.slice(0, parts.jack.length - side.length));
  if (!match) return [];
  const [, before = '', first = '', again = '', last = ''] = match;
  if (again !== '' && again !== before) return [];
  const labels = expandRange(before + first, before + last);
  return labels && labels.length > 1 ? labels.map((label) => jackToPlace(parts.unit, label + side)) : [];
}

const NO_ENDS: readonly PlannedEnd[] = [];
const NOWHERE: readonly PlaceId[] = [];
const NONE: ReadonlyMap<PlaceId, PlaceId> = new Map();

/** Member to its range on one unit. Ranges that overlap are names (slot 1-1, 1-2, 1-3) and hold nothing. */
const rangesOn = derived((jacks: readonly Jack[]): ReadonlyMap<PlaceId, PlaceId> => {
  if (!jacks.some(({ id }) => jackOf(id).includes('-'))) return NONE;
  const over = new Map<PlaceId, PlaceId>();
  const doubtful = new Set<PlaceId>();
  for (const { id } of jacks) {
    for (const member of rangeToMembers(id)) {
      const other = over.get(member);
      if (other === undefined) over.set(member, id);
      else doubtful.add(other).add(id);
    }
  }
  for (const [member, range] of over) if (doubtful.has(range)) over.delete(member);
  return over;
});

/** The planned range that holds this landing; null when none does. */
export function rangeOver(index: PlanIndex, place: PlaceId): PlaceId | null {
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return null;
  const jacks = index.jacksOf.get(parts.unit);
  return (jacks && rangesOn(jacks).get(place)) ?? null;
}

/** Every place that this one is part of, nearest first: its range, the jack its unit hangs on, and so on outward. */
export function placesOver(index: PlanIndex, place: PlaceId): readonly PlaceId[] {
  const first = partOf(index, place);
  if (first === null) return NOWHERE;
  const over = [first];
  for (let at = first; over.length < 8; ) {
    const next = partOf(index, at);
    if (next === null || next === place || over.includes(next)) break;
    over.push(next);
    at = next;
  }
  return over;
}

function partOf(index: PlanIndex, place: PlaceId): PlaceId | null {
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return null;
  return rangeOver(index, place) ?? index.units.get(parts.unit)?.at ?? null;
}

/** Ends that the plan puts here, or at the nearest place that this one is part of. */
export function endsOver(index: PlanIndex, place: PlaceId): readonly PlannedEnd[] {
  const own = index.endsAt.get(place);
  if (own) return own;
  for (const over of placesOver(index, place)) {
    const ends = index.endsAt.get(over);
    if (ends) return ends;
  }
  return NO_ENDS;
}
