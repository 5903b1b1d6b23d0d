// What goes off while a plug is out or a setting is changed: by the plan and by what was seen, on-air circuits first.
// Says what is known to hang on it; never that nothing else does.

import { impactOf } from '../impact/impact.ts';
import { type Link, type Links, plannedLinks, seenLinks, serviceOf } from '../impact/links.ts';
import { type CableId, isJack, type PlaceId, type UnitId } from '../plan/identity.ts';
import type { Fold } from '../rules/foldView.ts';
import type { Interrupted } from './step.ts';

export interface Interruption {
  interrupts: Interrupted[];
  beyond: UnitId[];
}

export interface Interruptions {
  /** @param cable Cable id; null for a plug that nobody has a name for. */
  ofPlug(cable: CableId | null, place: PlaceId): Interruption;
  /** Everything at one jack, or at all jacks of a unit. */
  ofPlace(place: PlaceId): Interruption;
  ofUnit(unit: UnitId): Interruption;
}

const NOTHING: Interruption = { interrupts: [], beyond: [] };

export function interruptionsOf(fold: Fold): Interruptions {
  let graphs: { plan: Links; seen: Links } | null = null;
  const known = new Map<string, Interruption>();
  // Built when first asked for: most lists of a place in order move nothing.
  const links = () => {
    graphs ??= { plan: plannedLinks(fold), seen: seenLinks(fold) };
    return graphs;
  };
  const once = (key: string, make: () => Interruption): Interruption => {
    const made = known.get(key) ?? make();
    known.set(key, made);
    return made;
  };
  const of = (planned: readonly Link[], found: readonly Link[]): Interruption => {
    const { plan, seen } = links();
    const byKey = new Map<string, Interrupted & { distance: number }>();
    const beyond = new Set<UnitId>();
    for (const [graph, opened, by] of [
      [plan, planned, 'plan'],
      [seen, found, 'seen'],
    ] as const) {
      if (opened.length === 0) continue;
      const reach = impactOf(fold, graph, opened);
      for (const unit of reach.unknownBehind) beyond.add(unit);
      for (const { link, distance } of reach.affected) {
        const key = serviceOf(link);
        const { label, circuit, onAir, at } = link;
        const one = byKey.get(key) ?? { key, label, circuit, onAir, by: [], at, distance };
        byKey.set(key, one);
        one.onAir ||= onAir;
        one.distance = Math.min(one.distance, distance);
        if (!one.by.includes(by)) one.by.push(by);
        if (at !== null && (one.at === null || at < one.at)) one.at = at;
      }
    }
    const interrupts = [...byKey.values()]
      .sort((a, b) => Number(b.onAir) - Number(a.onAir) || a.distance - b.distance || (a.key < b.key ? -1 : 1))
      .map(({ distance: _, ...one }) => one);
    return { interrupts, beyond: [...beyond].sort() };
  };

  const ofPlace = (place: PlaceId) => once(`at ${place}`, () => of(links().plan.of(place), links().seen.of(place)));
  return {
    ofPlug(cable, place) {
      if (!isJack(place)) return NOTHING;
      if (cable === null) return ofPlace(place);
      return once(`${cable} ${place}`, () => {
        const { plan, seen } = links();
        // What was followed from this jack goes through this plug, whatever its label says.
        const found = seen.of(place).filter((link) => link.cable === null || link.cable === cable);
        return of(plan.ofCable(cable), found);
      });
    },
    ofPlace,
    ofUnit: (unit) =>
      once(`unit ${unit}`, () => {
        const jacks = fold.index.jacksOf.get(unit) ?? [];
        const all = (graph: Links) => [...new Set(jacks.flatMap(({ id }) => graph.of(id)))];
        return of(all(links().plan), all(links().seen));
      }),
  };
}
