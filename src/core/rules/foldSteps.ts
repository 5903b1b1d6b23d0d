// What one event after the other does to a fold: raw facts first, then everything that depends on the touched places
// and cables is derived anew from the looks that stand.

import { endsOver } from '../plan/containment.ts';
import { extendIndex } from '../plan/extendIndex.ts';
import type { CableId, EventId, PlaceId, UnitId } from '../plan/identity.ts';
import { isSlot, slotToPlace } from '../plan/identity.ts';
import type { PlanIndex } from '../plan/planIndex.ts';
import { describedToPlan } from '../record/described.ts';
import type { AuditEvent, EventOf } from '../record/events.ts';
import type { Looks } from '../record/keptLooks.ts';
import { link, unlink } from '../record/lists.ts';
import { looksToState, type PlaceState } from '../record/looks.ts';
import { type PlugReading, plugToReading, unknownKey } from '../record/readings.ts';
import type { ScopePlaces } from '../record/scope.ts';
import { cableDiscrepancies } from './cableDiscrepancies.ts';
import { compareDiscrepancies, type Discrepancy } from './discrepancy.ts';
import type { Fold, Known, Touched } from './foldView.ts';
import { hazardsSeen } from './hazardsSeen.ts';
import { withAllNewCables, withNewCables } from './newCables.ts';
import { numberDiscrepancies } from './numbers.ts';
import { touchJoined } from './patchLeads.ts';
import { placeDiscrepancies } from './placeDiscrepancies.ts';
import { planDiscrepancies } from './planDiscrepancies.ts';
import { powerDiscrepancies } from './power.ts';
import type { Settings } from './settings.ts';
import { failedTests, missingTests } from './testDiscrepancies.ts';
import { goneDiscrepancies, unitDiscrepancies } from './unitDiscrepancies.ts';

/** All that a fold holds. */
export type Held = {
  /** Of the plan alone. */
  base: PlanIndex;
  index: PlanIndex;
  scope: ScopePlaces | null;
  seen: Map<EventId, AuditEvent>;
  looks: Looks;
  /** What is known of each place that anything was said of or that something leads to. */
  known: Map<PlaceId, Known>;
  cablePlaces: Map<CableId, PlaceId[]>;
  unknownPlaces: Map<string, PlaceId[]>;
  /** Far place to the places from which a cable was followed to it. */
  joinedFrom: Map<PlaceId, PlaceId[]>;
  byPlace: Map<PlaceId, Discrepancy[]>;
  byCable: Map<CableId, Discrepancy[]>;
  unitSlots: Map<UnitId, PlaceId[]>;
  kept: Map<AuditEvent['kind'], AuditEvent[]>;
  sortedKinds: Map<AuditEvent['kind'], readonly AuditEvent[]>;
  withdrawnPlain: Set<EventId>;
  people: Set<string>;
  cableStamps: Map<CableId, number>;
  stamp: number;
  settings: Settings;
  /** Something was described, renamed or taken back: the index is made anew before anything is derived. */
  grown: boolean;
  /** Described ones: they come and go with what was said of them. */
  trunks: readonly { id: CableId }[];
};

/** With the fold that is seen of it. */
export type Folding = Held & { fold: Fold };

export const NOTHING: readonly PlaceId[] = [];
const NO_READINGS: PlugReading[] = [];

/** Kinds that change what the index knows. */
const GROWS: ReadonlySet<AuditEvent['kind']> = new Set(['rack-described', 'unit-described', 'renaming-listed']);

/** Takes what is new of these; returns what was touched. */
export function add(held: Folding, events: Iterable<AuditEvent>): Touched {
  const touched: Touched = { places: new Set(), cables: new Set() };
  for (const event of events) {
    if (held.seen.has(event.id)) continue;
    held.seen.set(event.id, event);
    held.fold.lastAt = Math.max(held.fold.lastAt, event.at);
    for (const place of take(held, event)) touched.places.add(place);
  }
  if (held.grown) for (const place of grow(held, touched)) touched.places.add(place);
  settle(held, touched);
  return touched;
}

export function discrepancies(held: Folding): Discrepancy[] {
  const all = new Map<string, Discrepancy>();
  for (const list of held.byPlace.values()) for (const d of list) all.set(d.id, d);
  for (const list of held.byCable.values()) for (const d of list) all.set(d.id, d);
  for (const d of [...planDiscrepancies(held.fold), ...missingTests(held.fold)]) all.set(d.id, d);
  for (const d of numberDiscrepancies(held.fold)) all.set(d.id, d);
  for (const d of [...held.settings.discrepancies(), ...saidDiscrepancies(held)]) all.set(d.id, d);
  for (const d of goneDiscrepancies(held.fold, held.fold.of('unit-described'))) all.set(d.id, d);
  // A cable that lies loose or was never installed explains its own empty jacks.
  const gone = new Set<string>();
  for (const d of all.values()) if (d.kind === 'not-landed' || d.kind === 'not-installed') gone.add(d.cable ?? '');
  const told = [...all.values()].filter((d) => d.kind !== 'empty-jack' || !gone.has(d.cable ?? ''));
  return withAllNewCables(held.fold, told).sort(compareDiscrepancies);
}

export function discrepanciesAt(held: Folding, place: PlaceId): Discrepancy[] {
  const cables = new Set(readingsOf(held, place).map(({ cable }) => cable));
  for (const { cable } of endsOver(held.index, place)) cables.add(cable.id);
  const fromCables = [...cables].flatMap((cable) => (cable ? (held.byCable.get(cable) ?? []) : []));
  const all = [...(held.byPlace.get(place) ?? []), ...fromCables.filter((d) => d.places.includes(place))];
  const hazardous = [...held.settings.discrepancies(), ...saidDiscrepancies(held)].filter((d) =>
    d.places.includes(place),
  );
  return withNewCables(held.fold, [...all, ...hazardous], [place]).sort(compareDiscrepancies);
}

/** Lets one event change the raw facts; returns the places to be derived anew. */
function take(held: Folding, event: AuditEvent): Iterable<PlaceId> {
  held.people.add(event.author);
  switch (event.kind) {
    case 'sighting':
      return held.looks.see(event);
    case 'withdrawn':
      return withdraw(held, event.payload);
    case 'changed-since':
      return held.looks.changed(event.payload.earlier, event.payload.later, event.payload.place);
    case 'setting-read':
      return held.settings.read(event);
    case 'label-put':
    case 'label-off':
      keep(held, event);
      return held.looks.label(event);
    case 'audit-started':
      keep(held, event);
      held.fold.started = earlier(held.fold.started, event);
      held.fold.occasion = held.fold.started.payload.occasion;
      held.scope = null;
      for (const person of held.fold.started.payload.people) held.people.add(person);
      settlePermission(held);
      return said(held);
    case 'audit-closed':
      keep(held, event);
      held.fold.closed = earlier(held.fold.closed, event);
      return NOTHING;
    default:
      keep(held, event);
      if (GROWS.has(event.kind)) held.grown = true;
      if (event.kind === 'permission-set') settlePermission(held);
      if (event.kind === 'scope-added') held.scope = null;
      return NOTHING;
  }
}

function keep(held: Folding, event: AuditEvent): void {
  const list = held.kept.get(event.kind);
  if (list) list.push(event);
  else held.kept.set(event.kind, [event]);
  held.sortedKinds.delete(event.kind);
}

function withdraw(held: Folding, { target, why }: EventOf<'withdrawn'>['payload']): PlaceId[] {
  held.withdrawnPlain.add(target.event);
  const gone = held.seen.get(target.event);
  // What it withdraws may come later: then it is kept out by name.
  held.sortedKinds.clear();
  if (!gone || GROWS.has(gone.kind)) held.grown = true;
  settlePermission(held);
  if (gone?.kind === 'scope-added') held.scope = null;
  return [...held.settings.withdraw(target.event), ...held.looks.withdraw(target, why)];
}

function settlePermission(held: Folding): void {
  const last = held.fold.of('permission-set').at(-1);
  held.fold.permission = last?.payload.permission ?? held.fold.started?.payload.permission ?? 'look';
}

/** Makes the index anew; returns the places whose readings may mean something else now. */
function grow(held: Folding, touched: Touched): Iterable<PlaceId> {
  held.grown = false;
  const renames = held.fold.of('renaming-listed').flatMap(({ payload }) => payload.renames);
  const described = describedToPlan(held.fold.of('rack-described'), held.fold.of('unit-described'));
  const next = extendIndex(held.base, { ...described, cableNames: renames });
  if (next === held.index) return NOTHING;
  for (const { id } of held.trunks) touched.cables.add(id);
  held.trunks = described.cables;
  for (const { id } of held.trunks) touched.cables.add(id);
  held.index = next;
  held.scope = null;
  return said(held);
}

/** Derives anew what depends on the touched places: their states, their cables, their joined places. */
function settle(held: Folding, touched: Touched): void {
  const alsoTouched = new Set<PlaceId>();
  held.stamp += 1;
  const derived: Known[] = [];
  for (const place of touched.places) {
    const one = entryOf(held, place);
    derived.push(one);
    const before = one.state;
    for (const far of before?.joinedTo ?? []) {
      unlink(held.joinedFrom, far, place);
      alsoTouched.add(far);
    }
    for (const reading of one.readings) forget(held, place, reading, touched);
    const state = looksToState(place, held.looks.standing(place));
    one.state = state.type === 'unseen' ? null : state;
    one.readings = readPlugs(held, place, state);
    for (const reading of one.readings) remember(held, place, reading, touched);
    for (const { cable } of endsOver(held.index, place)) touched.cables.add(cable.id);
    for (const far of noteUnits(held, place, before, state)) alsoTouched.add(far);
  }
  for (const { place, state } of derived) for (const far of state?.joinedTo ?? []) link(held.joinedFrom, far, place);
  for (const { place } of derived) for (const far of held.fold.joined(place)) alsoTouched.add(far);
  touchJoined(held.fold, alsoTouched, touched);
  for (const place of alsoTouched) if (!touched.places.has(place)) derived.push(entryOf(held, place));
  for (const one of derived) {
    const { place } = one;
    one.stamp = held.stamp;
    const found = isSlot(place) ? unitDiscrepancies(held.fold, place) : placeDiscrepancies(held.fold, place);
    if (found.length > 0) held.byPlace.set(place, found);
    else held.byPlace.delete(place);
  }
  for (const cable of touched.cables) {
    held.cableStamps.set(cable, held.stamp);
    const found = cableDiscrepancies(held.fold, cable);
    if (found.length > 0) held.byCable.set(cable, found);
    else held.byCable.delete(cable);
  }
}

function entryOf(held: Folding, place: PlaceId): Known {
  let one = held.known.get(place);
  if (!one) {
    one = { place, state: null, readings: NO_READINGS, stamp: 0 };
    held.known.set(place, one);
  }
  return one;
}

function readPlugs(held: Folding, place: PlaceId, { plugs }: PlaceState): PlugReading[] {
  const read = plugs.flatMap((plug) => plugToReading(held.index, place, plug) ?? []);
  return read.length > 0 ? read : NO_READINGS;
}

function remember(held: Folding, place: PlaceId, reading: PlugReading, touched: Touched): void {
  if (reading.cable) {
    link(held.cablePlaces, reading.cable, place);
    touched.cables.add(reading.cable);
  } else {
    link(held.unknownPlaces, unknownKey(reading.text), place);
  }
}

function forget(held: Folding, place: PlaceId, reading: PlugReading, touched: Touched): void {
  if (reading.cable) {
    unlink(held.cablePlaces, reading.cable, place);
    touched.cables.add(reading.cable);
  } else {
    unlink(held.unknownPlaces, unknownKey(reading.text), place);
  }
}

/** Slots tell where units are. Returns the planned slots of the units concerned: they are judged anew too. */
function noteUnits(held: Folding, place: PlaceId, before: PlaceState | null, after: PlaceState): readonly PlaceId[] {
  if (!isSlot(place)) return NOTHING;
  const [were, are] = [unitsIn(held, before), unitsIn(held, after)];
  for (const unit of were) unlink(held.unitSlots, unit, place);
  for (const unit of are) link(held.unitSlots, unit, place);
  return [...were, ...are].flatMap((id) => {
    const unit = held.index.units.get(id);
    return unit?.rack && unit.u !== undefined ? [slotToPlace(unit.rack, unit.u)] : [];
  });
}

function unitsIn(held: Folding, state: PlaceState | null): UnitId[] {
  return (state?.plugs ?? []).flatMap((plug) =>
    plug.labels.flatMap(({ text }) =>
      (held.index.names.exact.get(text.trim()) ?? []).flatMap((n) => (n.type === 'unit' ? [n.id] : [])),
    ),
  );
}

function saidDiscrepancies(held: Folding): Discrepancy[] {
  return [...hazardsSeen(held.fold.of('hazard-seen')), ...powerDiscrepancies(held.fold), ...failedTests(held.fold)];
}

export function* said(held: Pick<Held, 'known'>): Generator<PlaceId> {
  for (const one of held.known.values()) if (one.state !== null) yield one.place;
}

export function readingsOf(held: Pick<Held, 'known'>, place: PlaceId): PlugReading[] {
  return held.known.get(place)?.readings ?? NO_READINGS;
}

function earlier<E extends AuditEvent>(a: E | null, b: E): E {
  return a && (a.at < b.at || (a.at === b.at && a.id < b.id)) ? a : b;
}
