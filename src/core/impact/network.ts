// What a network loses with a lead: who hangs on it, uplinks and rings. It knows leads, not how the switches are set.

import { derived } from '../plan/derived.ts';
import { isNetwork } from '../plan/flow.ts';
import { hostOf } from '../plan/hosts.ts';
import { isJack, isUnit, type PlaceId, type UnitId, unitOf } from '../plan/identity.ts';
import type { PlanIndex } from '../plan/planIndex.ts';
import { holeOf } from '../plan/sides.ts';
import type { Form } from '../trade/kinds.ts';
import type { Link, Links } from './links.ts';

export interface NetworkEffect {
  /** Units that lose the network: what hangs on the port. */
  cutOff: UnitId[];
  /** The switches stay joined by another way, after a gap until the ring has closed. */
  closesByRing: boolean;
  isUplink: boolean;
}

/** So many network links make a unit a switch, unless it is a panel. Common practice, no source. */
const SWITCH_FROM = 3;
const PANELS: ReadonlySet<Form> = new Set<Form>(['panel', 'patchbay', 'punch-block']);

interface Step {
  to: PlaceId;
  link: Link;
}

/** Who hangs on whom: made once for a set of links, since a list of work asks for hundreds of them. */
interface Graph {
  steps: Map<PlaceId, Step[]>;
  nodeAt(place: PlaceId): PlaceId;
}

const graphsOf = derived((links: Links) => derived((index: PlanIndex) => makeGraph(index, links)));

function makeGraph(index: PlanIndex, links: Links): Graph {
  const nodes = new Map<PlaceId, PlaceId>();
  const nodeAt = (place: PlaceId): PlaceId => {
    const node = nodes.get(place) ?? nodeOf(index, place);
    nodes.set(place, node);
    return node;
  };
  const steps = new Map<PlaceId, Step[]>();
  const put = (from: PlaceId, step: Step) => {
    const list = steps.get(from);
    if (list) list.push(step);
    else steps.set(from, [step]);
  };
  for (const link of links.all) {
    if (!link.bothWays) continue;
    const [a, b] = [nodeAt(link.from), nodeAt(link.to)];
    put(a, { to: b, link });
    put(b, { to: a, link });
  }
  return { steps, nodeAt };
}

/** What one side of an opened link still reaches, found step by step. */
interface Part {
  start: PlaceId;
  nodes: Set<PlaceId>;
  units: number;
  /** Walks on by one node, until there is nothing further, or until it and the other part are joined. */
  grow(other?: Part): 'further' | 'end' | 'joined';
}

export function networkOf(index: PlanIndex, links: Links, opened: readonly Link[]): NetworkEffect | null {
  const mine = opened.filter(({ bothWays, signal }) => bothWays && isNetwork(signal));
  if (mine.length === 0) return null;
  const gone = new Set(opened);
  const { steps, nodeAt } = graphsOf(links)(index);
  const isSwitch = (node: PlaceId) => !isHole(node) && (steps.get(node)?.length ?? 0) >= SWITCH_FROM;
  /** Only switches and panels pass on what is not their own. */
  const partFrom = (start: PlaceId, passes: (node: PlaceId) => boolean): Part => {
    const nodes = new Set([start]);
    const walk = nodes.values();
    const part: Part = {
      start,
      nodes,
      units: isHole(start) ? 0 : 1,
      grow(other) {
        const { value: node, done } = walk.next();
        if (done) return 'end';
        if (node !== start && !passes(node)) return 'further';
        for (const { to, link } of steps.get(node) ?? []) {
          if (nodes.has(to) || gone.has(link)) continue;
          nodes.add(to);
          if (!isHole(to)) part.units += 1;
          if (to === other?.start || (other?.nodes.has(to) && passes(to))) return 'joined';
        }
        return 'further';
      },
    };
    return part;
  };
  const whole = (part: Part): Part => {
    while (part.grow() !== 'end');
    return part;
  };
  const behind = (node: PlaceId) => partFrom(node, (one) => isHole(one) || isSwitch(one));
  /** The unit itself, or what stands behind a hole. */
  const standsAt = (node: PlaceId) => (isHole(node) ? [...whole(partFrom(node, isHole)).nodes] : [node]);
  const cutOff = new Set<UnitId>();
  let isUplink = false;
  let closesByRing = false;
  for (const link of mine) {
    const [a, b] = [nodeAt(link.from), nodeAt(link.to)];
    isUplink ||= standsAt(a).some(isSwitch) && standsAt(b).some(isSwitch);
    const lost = a === b ? null : lostOf(behind(a), behind(b));
    if (!lost) closesByRing = true;
    for (const unit of lost ?? []) if (!isSwitch(unit) || lost!.length > 1) cutOff.add(unit);
  }
  return { cutOff: [...cutOff].sort(), closesByRing, isUplink };
}

/**
 * Units of the smaller part, which loses the rest; of two alike, each loses the other. Null where they are joined
 * still. Both grow in turn, so that a lead to one unit costs no walk through the whole network.
 */
function lostOf(a: Part, b: Part): UnitId[] | null {
  const unitsIn = (part: Part) => [...part.nodes].filter(isUnit);
  const ended = new Set<Part>();
  for (;;) {
    for (const [part, other] of [
      [a, b],
      [b, a],
    ] as const) {
      if (ended.has(part)) continue;
      const how = part.grow(other);
      if (how === 'joined') return null;
      if (how === 'end') ended.add(part);
    }
    if (ended.has(a) && b.units > a.units) return unitsIn(a);
    if (ended.has(b) && a.units > b.units) return unitsIn(b);
    if (ended.size === 2) return [...unitsIn(a), ...unitsIn(b)];
  }
}

/** A hole of a panel stands for itself, everything else for its unit; what hangs on a jack belongs to that unit. */
function nodeOf(index: PlanIndex, place: PlaceId): PlaceId {
  const unit = index.units.get(unitOf(place));
  const hole = holeOf(place);
  const isPanel = unit?.form !== undefined && PANELS.has(unit.form);
  if (hole !== place || isPanel || unit?.faces.some(({ through }) => through)) return hole;
  return unit ? hostOf(index, unit).id : unitOf(place);
}

/** Names of places have a stroke between unit and jack, names of units have none. */
function isHole(node: PlaceId): boolean {
  return isJack(node);
}
