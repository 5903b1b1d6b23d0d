// Patch leads go by the two jacks that they join: a lead is taken from a hook, and its number says nothing about where it
// belongs. What was followed from jack to jack counts, against the plan's rows. Asks the fold; changes nothing.
import { isJack, type PlaceId, unitOf } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import type { PlanIndex } from '../plan/planIndex.ts';
import type { FoldView, Touched } from './foldView.ts';

/** Words for a lead in the type column of a schedule. Common practice, no source. */
const LEAD = /\b(patch|cord|jumper)/i;

/** By its type, or because both its ends are on one patchbay. */
function isPatchLead(index: PlanIndex, { type, ends }: Cable): boolean {
  if (LEAD.test(type ?? '')) return true;
  const units = new Set(ends.map(({ place }) => (place === null ? '' : unitOf(place))));
  const [only = ''] = units;
  return ends.length === 2 && units.size === 1 && index.units.get(only)?.form === 'patchbay';
}

/** The patch lead that the plan has between this place and one that it was followed to. */
export function leadAsPlanned(view: FoldView, place: PlaceId): Cable | null {
  const joined = view.joined(place);
  if (joined.length === 0) return null;
  const ends = view.index.endsAt.get(place) ?? [];
  const found = ends.find(
    ({ cable }) =>
      isPatchLead(view.index, cable) &&
      cable.ends.some((far) => far.place !== null && far.place !== place && joined.includes(far.place)),
  );
  return found?.cable ?? null;
}

/** Jacks that this lead was followed to from a jack of its own, and that the plan does not have for it. */
export function leadElsewhere(view: FoldView, cable: Cable): { from: PlaceId; to: PlaceId; home: PlaceId }[] {
  if (!isPatchLead(view.index, cable) || cable.ends.length !== 2) return [];
  const [a, b] = cable.ends.map(({ place }) => place);
  if (!a || !b) return [];
  const pairs: [PlaceId, PlaceId][] = [
    [a, b],
    [b, a],
  ];
  return pairs.flatMap(([from, home]) => {
    const joined = view.joined(from);
    const isThis = view.readingsAt(from).some((reading) => reading.cable === cable.id);
    if (!isThis || joined.includes(home)) return [];
    return joined.filter(isJack).map((to) => ({ from, to, home }));
  });
}

/** What a place is joined with tells which cable is there, whatever it is labelled: those planned and read there. */
export function touchJoined(view: FoldView, places: Iterable<PlaceId>, touched: Touched): void {
  for (const place of places) {
    if (touched.places.has(place)) continue;
    for (const { cable } of view.index.endsAt.get(place) ?? []) touched.cables.add(cable.id);
    for (const { cable } of view.readingsAt(place)) if (cable !== null) touched.cables.add(cable);
  }
}
