// Which way a signal goes over a lead, and what passes it on to where, as far as the plan tells. Nothing is guessed
// through a unit whose ways nobody wrote down.
import type { Form, Signal } from '../trade/kinds.ts';
import { derived } from './derived.ts';
import { type PlaceId, unitOf } from './identity.ts';
import type { Unit } from './model.ts';
import { factsAt, type PlanIndex } from './planIndex.ts';
import { otherSide } from './sides.ts';

const NETWORKS: ReadonlySet<Signal> = new Set([
  'network',
  'poe',
  'dc-powered-audio',
  'serial',
  'fibre-single-mode',
  'fibre-multimode',
]);

export function isNetwork(signal: Signal | null | undefined): boolean {
  return signal !== null && signal !== undefined && NETWORKS.has(signal);
}

interface Directed {
  /** Where the signal comes from, and where it goes; for a network both ways. */
  from: PlaceId;
  to: PlaceId;
  bothWays: boolean;
}

/** An input is where a signal goes; where neither jack says so, the from end is where it comes from. */
export function directed(index: PlanIndex, a: PlaceId, b: PlaceId, signal: Signal | null): Directed {
  if (isNetwork(signal)) return { from: a, to: b, bothWays: true };
  const [one, other] = [factsAt(index, a).direction, factsAt(index, b).direction];
  const turned = one === 'in' ? other !== 'in' : other === 'out' && one !== 'out';
  return turned ? { from: b, to: a, bothWays: false } : { from: a, to: b, bothWays: false };
}

/** What is plugged in and passes on what it carries, at all its ends. */
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

export function isPassedBy(unit: Unit | undefined): unit is Unit {
  return unit?.form !== undefined && PASSES.has(unit.form);
}

/** Places that a part is plugged into. */
export function plugsOf(part: Unit): PlaceId[] {
  return [part.at, ...(part.tails ?? []).map(({ place }) => place)].filter((place) => place !== undefined);
}

const partsByPlace = derived(({ plan }: PlanIndex) => {
  const parts = new Map<PlaceId, Unit[]>();
  for (const unit of plan.units) {
    if (!isPassedBy(unit)) continue;
    for (const at of plugsOf(unit)) parts.set(at, [...(parts.get(at) ?? []), unit]);
  }
  return parts;
});

/** Parts that are plugged into a place and pass on what it carries. */
export function hungOn(index: PlanIndex, place: PlaceId): readonly Unit[] {
  return partsByPlace(index).get(place) ?? [];
}

const startsByRoute = derived(({ plan }: PlanIndex) => {
  const starts = new Map<PlaceId, PlaceId[]>();
  for (const { from, to } of plan.routes ?? []) starts.set(to, [...(starts.get(to) ?? []), from]);
  return starts;
});

/** Places by which a signal can come to this one: by the plan's routes, through a hole, through what hangs there. */
export function placesBefore(index: PlanIndex, place: PlaceId): PlaceId[] {
  const side = otherSide(place);
  const own = index.units.get(unitOf(place));
  const parts = [...hungOn(index, place), ...(isPassedBy(own) ? [own] : [])];
  return [
    ...(startsByRoute(index).get(place) ?? []),
    ...(side === null ? [] : [side]),
    ...parts.flatMap((part) => [...(index.jacksOf.get(part.id) ?? []).map(({ id }) => id), ...plugsOf(part)]),
  ].filter((one) => one !== place);
}
