// In which order a walk visits the jacks of its scope, and which of them comes next. The order is this phone's own; it
// says nothing of what stands there.
import { derived } from '../../plan/derived.ts';
import type { PlaceId, UnitId } from '../../plan/identity.ts';
import type { Fold } from '../../rules/fold.ts';
import { isLookedAt } from '../../rules/planDiscrepancies.ts';
import { distance } from './twinsView.ts';
import { planToWalk, type Side, type WalkOrder, type WalkStop } from './walkOrder.ts';

/** One unit's side in walking order, for going elsewhere. Of a large plan there are thousands, so they are asked apart. */
export interface StopView {
  unit: UnitId;
  label: string;
  rack: string | null;
  room: string | null;
  side: Side;
  left: number;
  total: number;
  /** First open jack, else the first. */
  first: string;
  /** Who made their latest statement here. */
  people: { author: string; at: number }[];
}

interface Walk {
  stops: WalkStop[];
  places: PlaceId[];
  /** Where a place stands in `places`, and at which stop. */
  at: Map<string, { index: number; stop: WalkStop }>;
}

/** Which way the walks of a fold go, this phone's own matter and no part of the record, and the walk made of it. */
const walkIn = derived((_: Fold): { way?: WalkOrder; made?: { scope: Fold['scope']; walk: Walk } } => ({}));

/** Which way the walks of this fold go from now on. */
export function setWay(fold: Fold, way: WalkOrder): void {
  const own = walkIn(fold);
  own.way = way;
  delete own.made;
}

export function wayOf(fold: Fold): WalkOrder | undefined {
  return walkIn(fold).way;
}

/** The walk of a scope: the fold replaces its scope when that changes. */
export function orderOf(fold: Fold): Walk {
  const own = walkIn(fold);
  if (own.made?.scope === fold.scope) return own.made.walk;
  const stops = planToWalk(fold.index, fold.scope.owed, own.way);
  const walk: Walk = { stops, places: [], at: new Map() };
  for (const stop of stops) {
    for (const place of stop.places) {
      walk.at.set(place, { index: walk.places.length, stop });
      walk.places.push(place);
    }
  }
  own.made = { scope: fold.scope, walk };
  return walk;
}

export function walkOf(fold: Fold): WalkStop[] {
  return orderOf(fold).stops;
}

/** A place still owes a statement. Not visible and refused are statements too: the walk goes on past them. */
export function isOpen(fold: Fold, place: PlaceId): boolean {
  return !fold.isSaid(place);
}

export function openIn(fold: Fold, stop: WalkStop): number {
  let open = 0;
  for (const place of stop.places) if (isOpen(fold, place)) open += 1;
  return open;
}

/** In a blind audit the way along the cables would tell where the plan has ends, so there it goes along the jacks. */
export function goesAlongCables(fold: Fold): boolean {
  return wayOf(fold)?.along === 'cables' && fold.started?.payload.blind !== true;
}

/**
 * The nearest planned end that nobody spoke about: same unit, same rack, same room, elsewhere; there the first in walking
 * order, but before it one whose cable was met at another end already. Null when no planned end is open.
 */
function nearestEnd(fold: Fold, from: string | null): string | null {
  const { stops, at } = orderOf(fold);
  const here = from === null ? undefined : at.get(from)?.stop;
  const begin = here ? stops.indexOf(here) : 0;
  let best: { place: PlaceId; far: number; met: boolean } | null = null;
  for (const stop of [...stops.slice(begin), ...stops.slice(0, begin)]) {
    const far = distance(fold, from, stop.places[0] ?? '');
    if (best && (far > best.far || (far === best.far && best.met))) continue;
    for (const place of stop.places) {
      const planned = isOpen(fold, place) ? fold.index.endsAt.get(place)?.[0] : undefined;
      if (!planned) continue;
      const met = planned.cable.ends.some((end) => end.place !== null && end.place !== place && fold.isSaid(end.place));
      if (!best || far < best.far || (met && !best.met)) best = { place, far, met };
      if (met) break;
    }
  }
  return best?.place ?? null;
}

/** First open place at or after the given one, walking round once; null when nothing is left. */
export function nextOpen(fold: Fold, after: string | null): string | null {
  const end = goesAlongCables(fold) ? nearestEnd(fold, after) : null;
  if (end !== null) return end;
  const { places, at } = orderOf(fold);
  const start = after === null ? 0 : (at.get(after)?.index ?? -1) + 1;
  for (let i = 0; i < places.length; i++) {
    const place = places[(start + i) % places.length];
    if (place !== undefined && isOpen(fold, place)) return place;
  }
  return null;
}

/** The first jack after the given one that has an entry and was not looked at, walking round once. */
export function nextUnseen(fold: Fold, after: string): string | null {
  const { places, at } = orderOf(fold);
  const start = (at.get(after)?.index ?? -1) + 1;
  const round = [...places.slice(start), ...places.slice(0, start)];
  return round.find((place) => !isLookedAt(fold, place)) ?? null;
}

export function stopsView(fold: Fold): StopView[] {
  const { index } = fold;
  const { stops, at } = orderOf(fold);
  const latest = new Map<string, { at: number; stop: WalkStop }>();
  for (const place of fold.seenPlaces()) {
    const stop = at.get(place)?.stop;
    if (!stop) continue;
    for (const look of fold.stateAt(place).looks) {
      if (look.at > (latest.get(look.author)?.at ?? -1)) latest.set(look.author, { at: look.at, stop });
    }
  }
  return stops.map((one) => ({
    unit: one.unit,
    label: index.units.get(one.unit)?.label ?? one.unit,
    rack: one.rack === null ? null : (index.racks.get(one.rack)?.label ?? one.rack),
    room: one.room,
    side: one.side,
    left: openIn(fold, one),
    total: one.places.length,
    first: one.places.find((p) => isOpen(fold, p)) ?? one.places[0] ?? '',
    people: [...latest].flatMap(([author, { at: when, stop }]) => (stop === one ? [{ author, at: when }] : [])),
  }));
}
