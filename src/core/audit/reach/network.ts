// What a network loses with a lead: who hangs on it, uplinks and rings. It knows leads, not how the switches are set.
import type { Form } from '../../plan/model.ts';
import type { PlanIndex } from '../../plan/planIndex.ts';
import { hostOf } from '../../plan/standsFor.ts';
import { isNetwork, type Link, type Links } from './links.ts';
import { holeOf, unitOf } from './places.ts';

export interface NetworkEffect {
  /** Units that lose the network: what hangs on the port. */
  cutOff: string[];
  /** The switches stay joined by another way, after a gap until the ring has closed. */
  closesByRing: boolean;
  isUplink: boolean;
}

/** So many network links make a unit a switch, unless it is a panel. Common practice, no source. */
const SWITCH_FROM = 3;
const PANELS: ReadonlySet<Form> = new Set<Form>(['panel', 'patchbay', 'punch-block']);

export function networkOf(index: PlanIndex, links: Links, opened: readonly Link[]): NetworkEffect | null {
  const mine = opened.filter(({ bothWays, signal }) => bothWays && isNetwork(signal));
  if (mine.length === 0) return null;
  const gone = new Set(opened);
  const neighbours = new Map<string, Set<string>>();
  const degree = new Map<string, number>();
  for (const link of links.all) {
    if (!link.bothWays) continue;
    const [a, b] = [nodeOf(index, link.from), nodeOf(index, link.to)];
    degree.set(a, (degree.get(a) ?? 0) + 1).set(b, (degree.get(b) ?? 0) + 1);
    if (gone.has(link)) continue;
    for (const [one, other] of [
      [a, b],
      [b, a],
    ] as const) {
      neighbours.set(one, (neighbours.get(one) ?? new Set()).add(other));
    }
  }
  const isSwitch = (node: string) => !isHole(node) && (degree.get(node) ?? 0) >= SWITCH_FROM;
  const reached = (start: string, passes: (node: string) => boolean) => {
    const part = new Set([start]);
    for (const node of part) {
      if (node !== start && !passes(node)) continue;
      for (const next of neighbours.get(node) ?? []) part.add(next);
    }
    return part;
  };
  /** What a unit still reaches: only switches and panels pass on what is not their own. */
  const partOf = (start: string) => reached(start, (node) => isHole(node) || isSwitch(node));
  /** The unit itself, or what stands behind a hole. */
  const standsAt = (node: string) => (isHole(node) ? [...reached(node, isHole)] : [node]);
  const cutOff = new Set<string>();
  let isUplink = false;
  let closesByRing = false;
  for (const link of mine) {
    const [a, b] = [nodeOf(index, link.from), nodeOf(index, link.to)];
    const [partA, partB] = [partOf(a), partOf(b)];
    isUplink ||= standsAt(a).some(isSwitch) && standsAt(b).some(isSwitch);
    if (partA.has(b)) {
      closesByRing = true;
      continue;
    }
    const [unitsA, unitsB] = [partA, partB].map((part) => [...part].filter((node) => !isHole(node)));
    // The smaller part loses the rest; of two alike, each loses the other.
    const lost =
      unitsA!.length === unitsB!.length
        ? [...unitsA!, ...unitsB!]
        : unitsA!.length < unitsB!.length
          ? unitsA!
          : unitsB!;
    for (const unit of lost) if (!isSwitch(unit) || lost.length > 1) cutOff.add(unit);
  }
  return { cutOff: [...cutOff].sort(), closesByRing, isUplink };
}

/** A hole of a panel stands for itself, everything else for its unit; what hangs on a jack belongs to that unit. */
function nodeOf(index: PlanIndex, place: string): string {
  const unit = index.units.get(unitOf(place));
  const hole = holeOf(place);
  const isPanel = unit?.form !== undefined && PANELS.has(unit.form);
  if (hole !== place || isPanel || unit?.faces.some(({ through }) => through)) return hole;
  return unit ? hostOf(index, unit).id : unitOf(place);
}

/** Names of places have a stroke between unit and jack, names of units have none. */
function isHole(node: string): boolean {
  return node.includes('/');
}
