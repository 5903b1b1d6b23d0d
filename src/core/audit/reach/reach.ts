// What would be interrupted if a link were opened: everything that gets its signal by it, as far as the routes are
// known. A unit whose routes nobody wrote down is named and not guessed through; nothing here says what may be done.
import { placeToParts } from '../../plan/identity.ts';
import type { Form } from '../../plan/model.ts';
import type { FoldView } from '../foldView.ts';
import { isNetwork, type Link, type Links } from './links.ts';

export interface Reached {
  link: Link;
  /** 0 for what is opened itself, then counted in links. */
  distance: number;
}

export interface NetworkEffect {
  /** Units that lose the network: what hangs on the port. */
  cutOff: string[];
  /** The switches stay joined by another way, after a gap until the ring has closed. */
  closesByRing: boolean;
  isUplink: boolean;
}

export interface Reach {
  affected: Reached[];
  /** Units behind which it goes on in ways that the plan does not know. */
  unknownBehind: string[];
  network: NetworkEffect | null;
  /** Links of the same circuit that do not pass here: main and standby, or a second path. */
  otherPaths: Link[];
}

const PASSES: ReadonlySet<Form> = new Set<Form>([
  'adapter',
  'keyed-adapter',
  'pigtail',
  'breakout',
  'pad',
  'split',
  'patch-lead',
  'mult',
  'trunk',
]);
/** So many network links make a unit a switch. Common practice, no source. */
const SWITCH_FROM = 3;

/** @param opened Links that are opened at once: those of a cable, of an end, of a place or of a unit. */
export function reachOf(view: FoldView, links: Links, opened: readonly Link[]): Reach {
  const closed = new Set(opened);
  const affected = new Map<Link, number>(opened.map((link) => [link, 0]));
  const unknownBehind = new Set<string>();
  const queue = opened.filter((link) => !link.bothWays).map((link) => ({ place: link.to, distance: 0 }));
  const seen = new Set<string>();
  for (let next = queue.shift(); next; next = queue.shift()) {
    if (seen.has(next.place)) continue;
    seen.add(next.place);
    const { places, known } = throughUnit(view, links, next.place);
    const unit = unitOf(next.place);
    if (!known && feedsOn(links, view, unit, next.place)) unknownBehind.add(unit);
    for (const place of places) {
      for (const link of links.of(place)) {
        if (closed.has(link) || link.bothWays || link.from !== place || affected.has(link)) continue;
        affected.set(link, next.distance + 1);
        queue.push({ place: link.to, distance: next.distance + 1 });
      }
    }
  }
  const network = networkOf(links, opened);
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

function worstFirst(a: Reached, b: Reached): number {
  return (
    Number(b.link.onAir) - Number(a.link.onAir) || a.distance - b.distance || (a.link.label < b.link.label ? -1 : 1)
  );
}

/** Where a signal that arrives at a jack goes on: through what it passes, by the plan's routes, else nowhere known. */
function throughUnit(view: FoldView, links: Links, place: string): { places: string[]; known: boolean } {
  const { index } = view;
  const unit = index.units.get(unitOf(place));
  const routes = index.plan.routes?.filter((route) => route.from === place) ?? [];
  if (routes.length > 0) return { places: routes.map(({ to }) => to), known: true };
  const side = otherSide(place);
  if (side !== null && (index.jacks.has(side) || links.of(side).length > 0)) return { places: [side], known: true };
  if (unit?.form && PASSES.has(unit.form)) {
    const jacks = (index.jacksOf.get(unit.id) ?? []).map(({ id }) => id);
    const tails = (unit.tails ?? []).flatMap(({ place: at }) => (at ? [at] : []));
    return { places: [...jacks, ...tails].filter((one) => one !== place), known: true };
  }
  // One hole that several links end in: a panel seen from two sides, a mult, a landing.
  if (links.of(place).length > 1) return { places: [place], known: true };
  return { places: [], known: false };
}

/** Front and rear of one hole of a panel. */
function otherSide(place: string): string | null {
  const match = /^(.*?)-?(FRONT|REAR)$/.exec(place);
  return match ? `${match[1]}-${match[2] === 'FRONT' ? 'REAR' : 'FRONT'}` : null;
}

function feedsOn(links: Links, view: FoldView, unit: string, place: string): boolean {
  return (view.index.jacksOf.get(unit) ?? []).some(({ id }) =>
    links.of(id).some((link) => link.from === id && id !== place && !link.bothWays),
  );
}

function networkOf(links: Links, opened: readonly Link[]): NetworkEffect | null {
  const mine = opened.filter(({ bothWays, signal }) => bothWays && isNetwork(signal));
  if (mine.length === 0) return null;
  const neighbours = new Map<string, Set<string>>();
  const degree = new Map<string, number>();
  for (const link of links.all) {
    if (!link.bothWays) continue;
    const [a, b] = [unitOf(link.from), unitOf(link.to)];
    degree.set(a, (degree.get(a) ?? 0) + 1).set(b, (degree.get(b) ?? 0) + 1);
    if (opened.includes(link)) continue;
    for (const [one, other] of [
      [a, b],
      [b, a],
    ] as const) {
      neighbours.set(one, (neighbours.get(one) ?? new Set()).add(other));
    }
  }
  const isSwitch = (unit: string) => (degree.get(unit) ?? 0) >= SWITCH_FROM;
  const cutOff = new Set<string>();
  let isUplink = false;
  let closesByRing = false;
  for (const link of mine) {
    const [a, b] = [unitOf(link.from), unitOf(link.to)];
    const [partA, partB] = [partOf(a, neighbours, isSwitch), partOf(b, neighbours, isSwitch)];
    if (partA.has(b)) {
      isUplink ||= isSwitch(a) && isSwitch(b);
      closesByRing = true;
      continue;
    }
    if (isSwitch(a) && isSwitch(b)) isUplink = true;
    // The smaller part loses the rest; of two alike, each loses the other.
    const lost = partA.size === partB.size ? [...partA, ...partB] : [...(partA.size < partB.size ? partA : partB)];
    for (const unit of lost) if (!isSwitch(unit) || lost.length > 1) cutOff.add(unit);
  }
  return { cutOff: [...cutOff].sort(), closesByRing, isUplink };
}

/** What a unit still reaches: only switches pass on what is not their own. */
function partOf(
  start: string,
  neighbours: ReadonlyMap<string, ReadonlySet<string>>,
  isSwitch: (unit: string) => boolean,
): Set<string> {
  const part = new Set([start]);
  for (const unit of part) {
    if (unit !== start && !isSwitch(unit)) continue;
    for (const next of neighbours.get(unit) ?? []) part.add(next);
  }
  return part;
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

function otherPathsOf(links: Links, affected: readonly Link[]): Link[] {
  const gone = new Set(affected);
  const lost = new Set(affected.flatMap(({ circuit }) => (circuit?.match(ROLE) ? [circuitName(circuit)] : [])));
  if (lost.size === 0) return [];
  const mine = new Set(affected.map(({ circuit }) => circuit));
  return links.all.filter(
    (link) =>
      link.circuit !== null && !gone.has(link) && !mine.has(link.circuit) && lost.has(circuitName(link.circuit)),
  );
}

export function unitOf(place: string): string {
  const parts = placeToParts(place);
  return parts.type === 'jack' ? parts.unit : '';
}
