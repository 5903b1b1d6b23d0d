// What is joined with what: once by the plan, once by what was seen and followed, with the age of the evidence. One
// set of links is never mixed with the other.
import { circuitOf } from '../plan/circuits.ts';
import { derived } from '../plan/derived.ts';
import { directed } from '../plan/flow.ts';
import { type CableId, isJack, type PlaceId } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import { type OnAir, onAirOf } from '../plan/onAir.ts';
import { factsAt, type PlanIndex } from '../plan/planIndex.ts';
import type { Fold, FoldView } from '../rules/foldView.ts';
import type { Signal } from '../trade/kinds.ts';

export interface Link {
  /** Where the signal comes from, and where it goes; for a network both ways. */
  from: PlaceId;
  to: PlaceId;
  bothWays: boolean;
  cable: CableId | null;
  label: string;
  signal: Signal | null;
  circuit: string | null;
  onAir: boolean;
  /** Null for the plan's word; else the older of the looks at the two ends, for a link is as old as its oldest end. */
  at: number | null;
  basis: 'plan' | 'seen' | 'followed';
}

export interface Links {
  of(place: PlaceId): readonly Link[];
  ofCable(cable: CableId): readonly Link[];
  all: readonly Link[];
}

/** The service that a link is part of, counted once however many cables it runs over: its circuit, or else the cable. */
export function serviceOf({ circuit, cable, from, to }: Link): string {
  return circuit ? `circuit ${circuit}` : `cable ${cable ?? `${from} ${to}`}`;
}

/** Made once for a plan and the words that mark the air: it depends on nothing else. */
export function plannedLinks(view: FoldView): Links {
  return linksByAir(view.index)(onAirOf(view));
}

const linksByAir = derived((index: PlanIndex) => derived((onAir: OnAir) => linksInPlan({ index, onAir })));

function linksInPlan(marked: Marked): Links {
  return linksOf(
    marked.index.plan.cables.flatMap((cable) => {
      if (cable.status !== 'in-use') return [];
      const places = cable.ends.flatMap(({ place }) => (place === null ? [] : [place]));
      return pairs(marked, cable, places).map((pair): Link => ({ ...pair, at: null, basis: 'plan' }));
    }),
  );
}

/** A plan, and what of it is on the air. */
interface Marked {
  index: PlanIndex;
  onAir: OnAir;
}

/** Labels seen at two places, and what was followed. A followed path counts for more than the labels on it. */
export function seenLinks(view: Fold): Links {
  const marked: Marked = { index: view.index, onAir: onAirOf(view) };
  const links: Link[] = [];
  const followed = new Set<string>();
  const looked = new Set(view.seenPlaces());
  for (const place of looked) {
    for (const far of view.joined(place)) {
      // Told once, from its first place; from the other one where nobody looked at the first.
      if (far < place && looked.has(far)) continue;
      followed.add(place).add(far);
      const reading = view.readingsAt(place)[0] ?? view.readingsAt(far)[0];
      const cable = reading?.cable ? view.index.cables.get(reading.cable) : undefined;
      links.push({
        ...directed(view.index, place, far, cable?.signal ?? factsAt(view.index, place).signal ?? null),
        ...aboutCable(marked, cable, reading?.text ?? ''),
        at: oldest(view, looked.has(far) ? [place, far] : [place]),
        basis: 'followed',
      });
    }
  }
  for (const cable of view.index.plan.cables) {
    const places = view.placesOfCable(cable.id).filter(isJack);
    if (places.length < 2 || places.some((place) => followed.has(place))) continue;
    for (const pair of pairs(marked, cable, inEndOrder(cable, places))) {
      links.push({ ...pair, at: oldest(view, [pair.from, pair.to]), basis: 'seen' });
    }
  }
  return linksOf(links);
}

function linksOf(all: Link[]): Links {
  const byPlace = new Map<PlaceId, Link[]>();
  const byCable = new Map<CableId, Link[]>();
  const put = <K extends string>(map: Map<K, Link[]>, key: NoInfer<K>, link: Link) => {
    const list = map.get(key);
    if (list) list.push(link);
    else map.set(key, [link]);
  };
  for (const link of all) {
    put(byPlace, link.from, link);
    if (link.to !== link.from) put(byPlace, link.to, link);
    if (link.cable) put(byCable, link.cable, link);
  }
  return { of: (place) => byPlace.get(place) ?? [], ofCable: (cable) => byCable.get(cable) ?? [], all };
}

/** The from end first, as the plan has it; tails of a breakout each with the from end. */
function pairs(marked: Marked, cable: Cable, places: readonly PlaceId[]): Omit<Link, 'at' | 'basis'>[] {
  const [first, ...rest] = places;
  if (first === undefined) return [];
  return rest.map((place) => ({
    ...directed(marked.index, first, place, cable.signal ?? null),
    ...aboutCable(marked, cable, cable.label),
  }));
}

function aboutCable({ index, onAir }: Marked, cable: Cable | undefined, label: string) {
  return {
    cable: cable?.id ?? null,
    label,
    signal: cable?.signal ?? null,
    circuit: cable ? circuitOf(index, cable) : null,
    onAir: cable !== undefined && onAir.cables.has(cable.id),
  };
}

function inEndOrder(cable: Cable, places: readonly PlaceId[]): PlaceId[] {
  const rank = (place: PlaceId) => {
    const at = cable.ends.findIndex((end) => end.place === place);
    return at < 0 ? cable.ends.length : at;
  };
  return [...places].sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));
}

function oldest(view: FoldView, places: readonly PlaceId[]): number | null {
  const times = places
    .map((place) => Math.max(0, ...view.stateAt(place).looks.map(({ at }) => at)))
    .filter((at) => at > 0);
  return times.length === places.length ? Math.min(...times) : null;
}
