// What the recognisers ask of plan and floor: where a plug should be and where its label is, how jacks count along a
// row, what joins with what. Read only; judges nothing.
import { type CableId, type PlaceId, placeToParts, type UnitId, unitOf } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import { unitsWithMac } from '../plan/settingSpot.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import { HARDWARE_ADDRESS } from '../trade/settingNames.ts';

/** A label that stands elsewhere than planned: one plug, from its planned place to where it was found. */
export interface Displacement {
  cable: CableId;
  label: string;
  home: PlaceId;
  found: PlaceId;
  /** The difference that says so. */
  id: string;
}

/** Differences by id and by place, with the displacements among them. */
export interface Floor {
  view: FoldView;
  differences: ReadonlyMap<string, Discrepancy>;
  at(place: PlaceId): readonly Discrepancy[];
  displacements: readonly Displacement[];
}

export function floorOf(view: FoldView, differences: readonly Discrepancy[]): Floor {
  const byPlace = new Map<PlaceId, Discrepancy[]>();
  for (const one of differences) {
    for (const place of one.places) {
      const list = byPlace.get(place);
      if (list) list.push(one);
      else byPlace.set(place, [one]);
    }
  }
  const displacements = differences.flatMap((one): Displacement[] => {
    if (one.kind !== 'wrong-jack') return [];
    const { cable, home } = one;
    const [found] = one.places;
    if (!cable || !home || !found) return [];
    return [{ cable, label: one.found ?? cable, home, found, id: one.id }];
  });
  return {
    view,
    differences: new Map(differences.map((one) => [one.id, one])),
    at: (place) => byPlace.get(place) ?? [],
    displacements: displacements.sort((a, b) => (a.home < b.home ? -1 : 1)),
  };
}

interface Position {
  unit: UnitId;
  /** What stands before the number: jacks of one row share it. */
  row: string;
  n: number;
  after: string;
}

/** `SW1/P03` is number 3 of row `P`; null where a jack has no number. */
export function positionOf(place: PlaceId): Position | null {
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return null;
  const match = /^(.*?)(\d+)(\D*)$/.exec(parts.jack);
  if (!match) return null;
  return { unit: parts.unit, row: match[1]!, n: Number(match[2]), after: match[3]! };
}

export function rowKey({ unit, row, after }: Position): string {
  return `${unit}/${row}#${after}`;
}

export function isAsPlanned(view: FoldView, place: PlaceId): boolean {
  const planned = view.index.endsAt.get(place);
  return planned?.some(({ cable }) => view.readingsAt(place).some((r) => r.cable === cable.id)) === true;
}

export function isSeenEmpty(view: FoldView, place: PlaceId): boolean {
  const { type } = view.stateAt(place);
  return type === 'empty' || type === 'blanked';
}

/** The ends of a cable away from a place. */
export function farPlaces(cable: Cable, place: PlaceId): PlaceId[] {
  return cable.ends.flatMap((end) => (end.place !== null && end.place !== place ? [end.place] : []));
}

/** Units that an address table lists at a jack, by hardware address alone: an IP address may be what is wrong. */
function unitsLearnedAt(view: FoldView, place: PlaceId): readonly UnitId[] {
  const value = view.settings.valueOf({ unit: unitOf(place), place, name: HARDWARE_ADDRESS });
  return value === undefined ? [] : unitsWithMac(view.index, value);
}

/** Has an address table been read at this jack, whatever it lists? */
export function isLearnedAt(view: FoldView, place: PlaceId): boolean {
  return view.settings.valueOf({ unit: unitOf(place), place, name: HARDWARE_ADDRESS }) !== undefined;
}

/** Does what was followed, or what the switch has learned, say that these two places are one path? */
export function leadsTo(view: FoldView, place: PlaceId, far: PlaceId): boolean {
  return view.joined(place).includes(far) || unitsLearnedAt(view, place).includes(unitOf(far));
}

/** Differences at these places that one story may cover: never a hazard. */
export function coverable(floor: Floor, places: Iterable<PlaceId>, kinds: ReadonlySet<string>): string[] {
  return [...new Set(places)].flatMap((place) =>
    floor.at(place).flatMap((one) => (kinds.has(one.kind) ? [one.id] : [])),
  );
}
