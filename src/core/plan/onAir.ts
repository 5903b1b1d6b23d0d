// What is on the air by the plan: marked in the sheet, or by words in its texts, and all that a marked circuit runs over.
// Derived from the plan and the station's words; a document of a plan never changes by it.
//
// Limits: A mark goes along a circuit's name, its listed hops, and back to what feeds it by known ways; not on through a
// unit whose ways are not in the plan, and not over a network, where any unit may send to any other.
import { saysAir, saysOwnAir } from '../trade/airWords.ts';
import { nameToKey } from '../trade/names.ts';
import { textToSignal } from '../trade/signals.ts';
import { circuitsOver } from './circuits.ts';
import { derived } from './derived.ts';
import { directed, placesBefore } from './flow.ts';
import { type CableId, isJack, type PlaceId, type UnitId, unitOf } from './identity.ts';
import type { Cable, Circuit, Jack } from './model.ts';
import type { PlanIndex } from './planIndex.ts';

export interface OnAir {
  cables: ReadonlySet<CableId>;
  /** Units that what is marked comes from, runs through or goes to by a signal of its own. */
  units: ReadonlySet<UnitId>;
}

/** A plan, and the words of its station that mark what is on the air. */
export interface AirView {
  index: PlanIndex;
  airWords: readonly string[];
}

const known = derived((_: PlanIndex) => new Map<string, OnAir>());

/** Worked out once for a plan and a set of words. */
export function onAirOf({ index, airWords }: AirView): OnAir {
  const byWords = known(index);
  const key = JSON.stringify(airWords);
  let made = byWords.get(key);
  if (!made) {
    made = markAll(index, airWords);
    byWords.set(key, made);
  }
  return made;
}

export function isOnAir(view: AirView, cable: CableId | undefined): boolean {
  return cable !== undefined && onAirOf(view).cables.has(cable);
}

// A text means the same for as long as its cable, circuit or jack stands: an index made anew asks none of them again.
const cableSays = derived(
  (cable: Cable) => cable.onAir || [cable.label, ...textsOf(cable)].some((text) => text !== '' && saysAir(text)),
);
const circuitSays = derived((circuit: Circuit) => textsOfCircuit(circuit).some(saysAir));
const jackSays = derived(({ notes }: Jack) => notes !== undefined && saysAir(notes));

const textsOf = ({ circuit, signalText, notes }: Cable) => [circuit ?? '', signalText ?? '', notes ?? ''];
const textsOfCircuit = ({ name, notes, hops }: Circuit) => [name, notes ?? '', ...hops];

function markAll(index: PlanIndex, own: readonly string[]): OnAir {
  const { plan } = index;
  const says = (texts: readonly string[]) => own.length > 0 && texts.some((text) => saysOwnAir(text, own));
  const cables = new Set<CableId>();
  for (const cable of plan.cables) if (cableSays(cable) || says([cable.label, ...textsOf(cable)])) cables.add(cable.id);
  for (const jack of plan.jacks) {
    if (!jackSays(jack) && !says([jack.notes ?? ''])) continue;
    for (const { cable } of index.endsAt.get(jack.id) ?? []) cables.add(cable.id);
  }
  const circuits = new Set((plan.circuits ?? []).filter((one) => circuitSays(one) || says(textsOfCircuit(one))));
  spread(index, cables, circuits);
  markFeeding(index, cables);
  return { cables, units: unitsOver(index, cables, circuits) };
}

/** A mark counts for the whole circuit: all cables with its name, and all hops that a list gives it. */
function spread(index: PlanIndex, cables: Set<CableId>, circuits: Set<Circuit>): void {
  const names = new Set<string>();
  for (const id of cables) {
    const { circuit } = index.cables.get(id)!;
    if (circuit !== undefined && !isClass(circuit)) names.add(nameToKey(circuit));
    for (const one of circuitsOver(index, id)) circuits.add(one);
  }
  for (const { name } of circuits) names.add(nameToKey(name));
  for (const circuit of index.plan.circuits ?? []) if (names.has(nameToKey(circuit.name))) circuits.add(circuit);
  for (const { id, circuit } of index.plan.cables) {
    const isNamed = circuit !== undefined && names.has(nameToKey(circuit));
    if (isNamed || circuitsOver(index, id).some((one) => circuits.has(one))) cables.add(id);
  }
}

/** `network`, `audio`, `clock` in a column of circuits say what kind of lead it is; one marked lead marks no kind. */
function isClass(circuit: string): boolean {
  return /^\p{L}+$/u.test(circuit.trim()) && textToSignal(circuit) !== null;
}

/** Back along what feeds a marked cable: microphones and sources that reach it by known ways. */
function markFeeding(index: PlanIndex, cables: Set<CableId>): void {
  const waiting: PlaceId[] = [];
  const waysOf = (cable: Cable) => {
    const [first, ...rest] = cable.ends.flatMap(({ place }) => (place === null ? [] : [place]));
    return first === undefined ? [] : rest.map((place) => directed(index, first, place, cable.signal ?? null));
  };
  const enter = (cable: Cable, to?: PlaceId) => {
    for (const way of waysOf(cable)) {
      if (way.bothWays || (to !== undefined && way.to !== to)) continue;
      cables.add(cable.id);
      waiting.push(way.from);
    }
  };
  for (const id of [...cables]) enter(index.cables.get(id)!);
  const met = new Set<PlaceId>();
  for (let place = waiting.pop(); place !== undefined; place = waiting.pop()) {
    if (met.has(place)) continue;
    met.add(place);
    for (const { cable } of index.endsAt.get(place) ?? []) if (cable.status === 'in-use') enter(cable, place);
    waiting.push(...placesBefore(index, place));
  }
}

function unitsOver(index: PlanIndex, cables: ReadonlySet<CableId>, circuits: ReadonlySet<Circuit>): Set<UnitId> {
  const units = new Set<UnitId>();
  for (const id of cables) {
    const cable = index.cables.get(id)!;
    const [first, second] = cable.ends.flatMap(({ place }) => (place === null ? [] : [place]));
    // A network lead that is marked says nothing of all else that its switches carry.
    if (first && second && directed(index, first, second, cable.signal ?? null).bothWays) continue;
    for (const { place } of cable.ends) if (place !== null && isJack(place)) units.add(unitOf(place));
  }
  for (const { hops } of circuits)
    for (const hop of hops)
      for (const named of index.names.exact.get(hop.trim()) ?? []) if (named.type === 'unit') units.add(named.id);
  return units;
}
