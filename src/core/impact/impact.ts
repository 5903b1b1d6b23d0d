// What would be interrupted if a link were opened: everything that gets its signal by it, as far as the routes are
// known. A unit whose routes nobody wrote down is named and not guessed through; nothing here says what may be done.
import { derived } from '../plan/derived.ts';
import { hungOn, isPassedBy, plugsOf } from '../plan/flow.ts';
import { type PlaceId, type UnitId, unitOf } from '../plan/identity.ts';
import type { Route, Unit } from '../plan/model.ts';
import type { PlanIndex } from '../plan/planIndex.ts';
import { otherSide } from '../plan/sides.ts';
import type { FoldView } from '../rules/foldView.ts';
import type { Link, Links } from './links.ts';
import { type NetworkEffect, networkOf } from './network.ts';

interface Affected {
  link: Link;
  /** 0 for what is opened itself, then counted in links. */
  distance: number;
}

export interface Impact {
  affected: Affected[];
  /** Units behind which it goes on in ways that the plan does not know. */
  unknownBehind: UnitId[];
  network: NetworkEffect | null;
  /** Links of the same circuit that do not pass here: main and standby, or a second path. */
  otherPaths: Link[];
}

/** @param opened Links that are opened at once: those of a cable, of an end, of a place or of a unit. */
export function impactOf(view: FoldView, links: Links, opened: readonly Link[]): Impact {
  const closed = new Set(opened);
  const affected = new Map<Link, number>(opened.map((link) => [link, 0]));
  const unknownBehind = new Set<UnitId>();
  const queue = opened.filter((link) => !link.bothWays).map((link) => ({ place: link.to, distance: 0 }));
  const seen = new Set<PlaceId>();
  for (let next = queue.shift(); next; next = queue.shift()) {
    if (seen.has(next.place)) continue;
    seen.add(next.place);
    const { places, known, unit } = throughUnit(view, links, next.place);
    if (!known && feedsOn(links, view, unit, next.place)) unknownBehind.add(unit);
    for (const place of places) {
      for (const link of links.of(place)) {
        if (closed.has(link) || link.bothWays || link.from !== place || affected.has(link)) continue;
        affected.set(link, next.distance + 1);
        queue.push({ place: link.to, distance: next.distance + 1 });
      }
    }
  }
  const network = networkOf(view.index, links, opened);
  // What hangs on a port is carried by it: the audio of the unit goes over the same lead.
  for (const unit of network?.cutOff ?? []) {
    for (const jack of view.index.jacksOf.get(unit) ?? []) {
      for (const link of links.of(jack.id)) if (!affected.has(link) && !link.bothWays) affected.set(link, 1);
    }
  }
  return {
    affected: [...affected].map(([link, distance]) => ({ link, distance })).sort(worstFirst),
    unknownBehind: [...unknownBehind].sort(),
    network,
    otherPaths: otherPathsOf(links, [...affected.keys()]),
  };
}

function worstFirst(a: Affected, b: Affected): number {
  return (
    Number(b.link.onAir) - Number(a.link.onAir) || a.distance - b.distance || (a.link.label < b.link.label ? -1 : 1)
  );
}

interface Through {
  /** Where links may begin that carry it on. */
  places: PlaceId[];
  known: boolean;
  /** Unit at which it ends, or beyond which nobody wrote down where it goes. */
  unit: UnitId;
}

/**
 * Where a signal that arrives at a jack goes on: through what it passes, by the plan's routes, else nowhere known. What
 * hangs on a jack passes it on to the jack, and a jack to what hangs on it.
 */
function throughUnit(view: FoldView, links: Links, place: PlaceId, met = new Set<PlaceId>()): Through {
  const { index } = view;
  const unit = unitOf(place);
  if (met.has(place)) return { places: [], known: true, unit };
  met.add(place);
  const on = (to: PlaceId) => [to, ...hungOn(index, to).flatMap((part) => past(view, links, part, to, met).places)];
  const routes = routesFrom(index, place);
  if (routes.length > 0) return { places: routes.flatMap(({ to }) => on(to)), known: true, unit };
  const side = otherSide(place);
  if (side !== null && (index.jacks.has(side) || links.of(side).length > 0))
    return { places: on(side), known: true, unit };
  const own = index.units.get(unit);
  if (isPassedBy(own)) return past(view, links, own, place, met);
  // One hole that several links end in: a panel seen from two sides, a mult, a landing.
  if (links.of(place).length > 1) return { places: on(place), known: true, unit };
  return { places: [], known: false, unit };
}

/** Out of a part at all its other ends: sockets, the jack it hangs on, plugs of its own. */
function past(view: FoldView, links: Links, part: Unit, from: PlaceId, met: Set<PlaceId>): Through {
  const sockets = (view.index.jacksOf.get(part.id) ?? []).map(({ id }) => id);
  const plugs = plugsOf(part).filter((place) => place !== from);
  const behind = plugs.map((place) => throughUnit(view, links, place, met));
  const dark = behind.find(({ known }) => !known);
  return {
    places: [...sockets.filter((one) => one !== from), ...plugs, ...behind.flatMap(({ places }) => places)],
    known: dark === undefined,
    unit: dark?.unit ?? part.id,
  };
}

const routesByStart = derived(({ plan }: PlanIndex) => {
  const routes = new Map<PlaceId, Route[]>();
  for (const route of plan.routes ?? []) routes.set(route.from, [...(routes.get(route.from) ?? []), route]);
  return routes;
});

function routesFrom(index: PlanIndex, place: PlaceId): readonly Route[] {
  return routesByStart(index).get(place) ?? [];
}

function feedsOn(links: Links, view: FoldView, unit: UnitId, place: PlaceId): boolean {
  return (view.index.jacksOf.get(unit) ?? []).some(({ id }) =>
    links.of(id).some((link) => link.from === id && id !== place && !link.bothWays),
  );
}

/** Words that mark one of two ways of a service. Common practice, no source. */
const ROLE = /\b(main|standby|stand-by|backup|back-up|reserve|secondary|primary|alt(?:ernate)?)\b/gi;

/** Name of a circuit without its role: "PGM1 main" and "PGM1 standby" are one service. */
export function circuitName(circuit: string): string {
  return circuit
    .replace(ROLE, '')
    .replace(/[\s\-–:,()]+/g, ' ')
    .trim()
    .toUpperCase();
}

/** Links of circuits that have a name, by that name without a role. */
const linksByService = derived(({ all }: Links) => {
  const byName = new Map<string, Link[]>();
  for (const link of all) {
    if (link.circuit === null) continue;
    const service = circuitName(link.circuit);
    const list = byName.get(service);
    if (list) list.push(link);
    else byName.set(service, [link]);
  }
  return byName;
});

function otherPathsOf(links: Links, affected: readonly Link[]): Link[] {
  const gone = new Set(affected);
  const lost = new Set(affected.flatMap(({ circuit }) => (circuit?.match(ROLE) ? [circuitName(circuit)] : [])));
  const mine = new Set(affected.map(({ circuit }) => circuit));
  const rest = [...lost].flatMap((name) => linksByService(links).get(name) ?? []);
  return rest.filter((link) => !gone.has(link) && !mine.has(link.circuit));
}
