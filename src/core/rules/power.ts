// Where units get their mains from: inlet to outlet to strip to feed, as it was seen. Tells two supplies on one feed and
// a strip in a strip. It only looks along cords; nothing here may suggest that one is moved.
import { derived } from '../plan/derived.ts';
import { type PlaceId, placeToParts, type UnitId } from '../plan/identity.ts';
import type { Unit } from '../plan/model.ts';
import type { PlanIndex } from '../plan/planIndex.ts';
import { hazardById } from '../trade/hazards.ts';
import { type Discrepancy, type HazardBasis, makeDiscrepancy } from './discrepancy.ts';
import type { Fold } from './foldView.ts';

interface SupplyPath {
  inlet: PlaceId;
  outlet: PlaceId;
  /** Units passed from the outlet on, the feed last where it is known. */
  through: UnitId[];
  feed: UnitId | null;
}

const OUTLETS: ReadonlySet<string> = new Set(['feed', 'strip']);

function unitAt(fold: Fold, place: PlaceId | undefined): Unit | undefined {
  const parts = place === undefined ? null : placeToParts(place);
  return parts?.type === 'jack' ? fold.index.units.get(parts.unit) : undefined;
}

const POWER: ReadonlySet<string> = new Set(['feed', 'strip', 'cord', 'supply']);
/** Units that carry power; found once for an index, since this is asked at every jack of a face. */
const powerUnits = derived(({ plan }: PlanIndex): Unit[] =>
  plan.units.filter(({ form }) => form !== undefined && POWER.has(form)),
);

/** Outlets where the cord of this inlet was seen to go, whichever side it was said from. */
function outletsOf(fold: Fold, inlet: PlaceId): PlaceId[] {
  const joined = fold.joined(inlet).filter((place) => OUTLETS.has(unitAt(fold, place)?.form ?? ''));
  // A cord or plug-in supply that was described: its first plug is the one in the outlet.
  const cords = powerUnits(fold.index).filter(
    ({ form, tails = [] }) =>
      (form === 'cord' || form === 'supply') && tails.slice(1).some(({ place }) => place === inlet),
  );
  return [...joined, ...cords.flatMap(({ tails }) => tails?.[0]?.place ?? [])];
}

/** Units with an inlet whose cord leads to a described outlet. */
function fedUnits(fold: Fold): Unit[] {
  const places = powerUnits(fold.index).flatMap(({ id, form, tails = [] }) =>
    OUTLETS.has(form ?? '')
      ? (fold.index.jacksOf.get(id) ?? []).flatMap((jack) => fold.joined(jack.id))
      : tails.slice(1).flatMap(({ place }) => place ?? []),
  );
  return [...new Set(places.flatMap((place) => unitAt(fold, place) ?? []))].sort((x, y) => (x.id < y.id ? -1 : 1));
}

/** One path for each inlet of a unit whose cord was seen. */
export function supplyPaths(fold: Fold, unit: UnitId): SupplyPath[] {
  return (fold.index.jacksOf.get(unit) ?? [])
    .map(({ id }) => id)
    .flatMap((inlet) => outletsOf(fold, inlet).map((outlet) => ({ inlet, outlet, ...upstream(fold, outlet) })));
}

function upstream(fold: Fold, outlet: PlaceId): Pick<SupplyPath, 'through' | 'feed'> {
  const through: UnitId[] = [];
  for (let place: PlaceId | undefined = outlet; place !== undefined; ) {
    const unit = unitAt(fold, place);
    if (!unit || through.includes(unit.id)) break;
    through.push(unit.id);
    if (unit.form === 'feed') return { through, feed: unit.id };
    place = unit.form === 'strip' ? unit.tails?.[0]?.place : undefined;
  }
  return { through, feed: null };
}

/** Two supplies of one unit on one feed or strip, and strips in strips. Empty at once where no power was described. */
export function powerDiscrepancies(fold: Fold): Discrepancy[] {
  const power = powerUnits(fold.index);
  if (power.length === 0) return [];
  const found: Discrepancy[] = [];
  const say = (hazard: 'overload' | 'one-feed', places: PlaceId[], label: string, basis: HazardBasis) => {
    const evidence = places.flatMap((place) => fold.stateAt(place).looks.map(({ event }) => event));
    const { severity } = hazardById(hazard)!;
    found.push(makeDiscrepancy({ kind: 'hazard-seen', hazard, basis }, severity, places, [label], evidence));
  };
  for (const { form, tails, label, id } of power) {
    const plug = tails?.[0]?.place;
    const before = unitAt(fold, plug);
    if (form !== 'strip' || plug === undefined || before?.form !== 'strip' || before.id === id) continue;
    say('overload', [plug], label, { type: 'strip-in-strip', strip: label, from: before.label });
  }
  for (const unit of fedUnits(fold)) {
    if (unit.form !== undefined) continue;
    const paths = supplyPaths(fold, unit.id);
    const inlets = [...new Set(paths.map(({ inlet }) => inlet))];
    if (inlets.length < 2) continue;
    const shared = paths[0]!.through.find((one) => paths.every(({ through }) => through.includes(one)));
    if (shared === undefined) continue;
    const ways = paths.map(({ inlet, outlet }) => ({ inlet, outlet }));
    const feed = fold.index.units.get(shared)!.label;
    say('one-feed', inlets, unit.label, { type: 'one-feed', ways, feed });
  }
  return found;
}
