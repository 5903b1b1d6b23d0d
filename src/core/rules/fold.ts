// The fold: events of one audit over one plan revision. Free of order, and the same whether events come one by one
// or all at once, because every update derives the touched places and cables anew from the looks that stand.

import { endsOver } from '../plan/containment.ts';
import { extendIndex } from '../plan/extendIndex.ts';
import type { CableId, EventId, PlaceId, UnitId } from '../plan/identity.ts';
import { isLooseEnd, isSlot, slotToPlace } from '../plan/identity.ts';
import type { Plan } from '../plan/model.ts';
import { indexPlan, type PlanIndex, placeToWords } from '../plan/planIndex.ts';
import { describedToPlan } from '../record/described.ts';
import type { AuditEvent, EventOf } from '../record/events.ts';
import { createLooks } from '../record/keptLooks.ts';
import { link, unlink } from '../record/lists.ts';
import { looksToState, type PlaceState } from '../record/looks.ts';
import { type PlugReading, plugToReading, unknownKey } from '../record/readings.ts';
import { type ScopePlaces, scopeOf } from '../record/scope.ts';
import { USUAL_PAIRS } from '../trade/partsPairs.ts';
import { cableDiscrepancies, cableToStatus } from './cableDiscrepancies.ts';
import { compareDiscrepancies, type Discrepancy } from './discrepancy.ts';
import type { Fold, KeptKind, Known, StationRules, Touched } from './foldView.ts';
import { hazardsSeen } from './hazardsSeen.ts';
import { withAllNewCables, withNewCables } from './newCables.ts';
import { numberDiscrepancies } from './numbers.ts';
import { placeDiscrepancies } from './placeDiscrepancies.ts';
import { planDiscrepancies } from './planDiscrepancies.ts';
import { powerDiscrepancies } from './power.ts';
import { createSettings } from './settings.ts';
import { failedTests, missingTests } from './testDiscrepancies.ts';
import { goneDiscrepancies, unitDiscrepancies } from './unitDiscrepancies.ts';

export type { Fold } from './foldView.ts';

const NOTHING: readonly PlaceId[] = [];
const NO_READINGS: PlugReading[] = [];

/** Kinds that change what the index knows. */
const GROWS: ReadonlySet<AuditEvent['kind']> = new Set(['rack-described', 'unit-described', 'renaming-listed']);

/**
 * @param given A plan, or its index when the caller holds one already.
 * @param revision Hash of that plan; when absent, the one that the audit began with.
 */
export function createFold(given: Plan | PlanIndex, revision?: string | null, own: StationRules = {}): Fold {
  const base = 'plan' in given ? given : indexPlan(given);
  let index = base;
  let scope: ScopePlaces | null = null;
  const seen = new Map<EventId, AuditEvent>();
  const looks = createLooks();
  /** What is known of each place that anything was said of or that something leads to. */
  const known = new Map<PlaceId, Known>();
  const cablePlaces = new Map<CableId, PlaceId[]>();
  const unknownPlaces = new Map<string, PlaceId[]>();
  /** Far place to the places from which a cable was followed to it. */
  const joinedFrom = new Map<PlaceId, PlaceId[]>();
  const byPlace = new Map<PlaceId, Discrepancy[]>();
  const byCable = new Map<CableId, Discrepancy[]>();
  const unitSlots = new Map<UnitId, PlaceId[]>();
  const kept = new Map<AuditEvent['kind'], AuditEvent[]>();
  const sortedKinds = new Map<AuditEvent['kind'], readonly AuditEvent[]>();
  const withdrawnPlain = new Set<EventId>();
  const people = new Set<string>();
  const cableStamps = new Map<CableId, number>();
  let stamp = 0;
  const settings = createSettings(() => index);
  /** Something was described, renamed or taken back: the index is made anew before anything is derived. */
  let grown = false;
  /** Described ones: they come and go with what was said of them. */
  let trunks: readonly { id: CableId }[] = [];

  const sorted = (list: readonly PlaceId[] | undefined): readonly PlaceId[] =>
    list ? (list.length === 1 ? [list[0]!] : [...list].sort()) : NOTHING;
  const stateOf = (place: PlaceId): PlaceState | null => known.get(place)?.state ?? null;
  const readingsOf = (place: PlaceId): PlugReading[] => known.get(place)?.readings ?? NO_READINGS;
  function* said(): Generator<PlaceId> {
    for (const one of known.values()) if (one.state !== null) yield one.place;
  }
  const earlier = <E extends AuditEvent>(a: E | null, b: E): E =>
    a && (a.at < b.at || (a.at === b.at && a.id < b.id)) ? a : b;

  const fold: Fold = {
    pairOrder: own.pairOrder ?? USUAL_PAIRS,
    airWords: own.airWords ?? [],
    get index() {
      return index;
    },
    get revision() {
      return revision === undefined ? (fold.started?.payload.plan ?? null) : revision;
    },
    occasion: null,
    looks,
    settings,
    started: null,
    closed: null,
    permission: 'look',
    people,
    lastAt: 0,
    get scope() {
      scope ??= scopeOf(index, fold.started?.payload ?? null, fold.of('scope-added'));
      return scope;
    },
    has: (event) => seen.has(event),
    of<K extends KeptKind>(kind: K) {
      const made = sortedKinds.get(kind);
      if (made) return made as readonly EventOf<K>[];
      const list = (kept.get(kind) ?? [])
        .filter(({ id }) => !withdrawnPlain.has(id))
        .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
      sortedKinds.set(kind, list);
      return list as readonly AuditEvent[] as readonly EventOf<K>[];
    },
    stateAt: (place) => stateOf(place) ?? looksToState(place, []),
    isSaid: (place) => stateOf(place) !== null,
    wordsOf: (place) => {
      const words = isLooseEnd(place) ? looks.standing(place)[0]?.said.replace(/^loose:\s*/i, '') : '';
      return words || placeToWords(index, place);
    },
    readingsAt: readingsOf,
    placesOfCable: (cable) => sorted(cablePlaces.get(cable)),
    placesOfUnknown: (text) => sorted(unknownPlaces.get(unknownKey(text))),
    joined: (place) => {
      const [to, from] = [stateOf(place)?.joinedTo ?? NOTHING, joinedFrom.get(place) ?? NOTHING];
      return to.length + from.length === 0 ? NOTHING : [...new Set([...to, ...from])].sort();
    },
    unitSeenAt: (unit) => sorted(unitSlots.get(unit)),
    seenPlaces: said,
    stampOfPlace: (place) => known.get(place)?.stamp ?? 0,
    stampOfCable: (cable) => cableStamps.get(cable) ?? 0,
    unknownTexts: () =>
      [...unknownPlaces].flatMap(([key, places]) => {
        const [first = ''] = [...places].sort();
        return readingsOf(first).find(({ cable, text }) => cable === null && unknownKey(text) === key)?.text ?? [];
      }),
    add(events) {
      const touched: Touched = { places: new Set(), cables: new Set() };
      for (const event of events) {
        if (seen.has(event.id)) continue;
        seen.set(event.id, event);
        fold.lastAt = Math.max(fold.lastAt, event.at);
        for (const place of take(event)) touched.places.add(place);
      }
      if (grown) for (const place of grow(touched)) touched.places.add(place);
      settle(touched);
      return touched;
    },
    discrepancies() {
      const all = new Map<string, Discrepancy>();
      for (const list of byPlace.values()) for (const d of list) all.set(d.id, d);
      for (const list of byCable.values()) for (const d of list) all.set(d.id, d);
      for (const d of [...planDiscrepancies(fold), ...missingTests(fold)]) all.set(d.id, d);
      for (const d of numberDiscrepancies(fold)) all.set(d.id, d);
      for (const d of [...settings.discrepancies(), ...saidDiscrepancies()]) all.set(d.id, d);
      for (const d of goneDiscrepancies(fold, fold.of('unit-described'))) all.set(d.id, d);
      // A cable that lies loose or was never installed explains its own empty jacks.
      const gone = new Set<string>();
      for (const d of all.values()) if (d.kind === 'not-landed' || d.kind === 'not-installed') gone.add(d.cable ?? '');
      const told = [...all.values()].filter((d) => d.kind !== 'empty-jack' || !gone.has(d.cable ?? ''));
      return withAllNewCables(fold, told).sort(compareDiscrepancies);
    },
    discrepanciesAt(place) {
      const cables = new Set(readingsOf(place).map(({ cable }) => cable));
      for (const { cable } of endsOver(index, place)) cables.add(cable.id);
      const fromCables = [...cables].flatMap((cable) => (cable ? (byCable.get(cable) ?? []) : []));
      const all = [...(byPlace.get(place) ?? []), ...fromCables.filter((d) => d.places.includes(place))];
      const hazardous = [...settings.discrepancies(), ...saidDiscrepancies()].filter((d) => d.places.includes(place));
      return withNewCables(fold, [...all, ...hazardous], [place]).sort(compareDiscrepancies);
    },
    ownDiscrepanciesAt: (place) => byPlace.get(place) ?? [],
    statusOf: (cable) => cableToStatus(fold, cable, byCable.get(cable) ?? []),
  };

  /** Lets one event change the raw facts; returns the places to be derived anew. */
  function take(event: AuditEvent): Iterable<PlaceId> {
    people.add(event.author);
    switch (event.kind) {
      case 'sighting':
        return looks.see(event);
      case 'withdrawn':
        return withdraw(event.payload);
      case 'changed-since':
        return looks.changed(event.payload.earlier, event.payload.later, event.payload.place);
      case 'setting-read':
        return settings.read(event);
      case 'label-put':
      case 'label-off':
        keep(event);
        return looks.label(event);
      case 'audit-started':
        keep(event);
        fold.started = earlier(fold.started, event);
        fold.occasion = fold.started.payload.occasion;
        scope = null;
        for (const person of fold.started.payload.people) people.add(person);
        settlePermission();
        return said();
      case 'audit-closed':
        keep(event);
        fold.closed = earlier(fold.closed, event);
        return NOTHING;
      default:
        keep(event);
        if (GROWS.has(event.kind)) grown = true;
        if (event.kind === 'permission-set') settlePermission();
        if (event.kind === 'scope-added') scope = null;
        return NOTHING;
    }
  }

  function keep(event: AuditEvent): void {
    const list = kept.get(event.kind);
    if (list) list.push(event);
    else kept.set(event.kind, [event]);
    sortedKinds.delete(event.kind);
  }

  function withdraw({ target, why }: EventOf<'withdrawn'>['payload']): PlaceId[] {
    withdrawnPlain.add(target.event);
    const gone = seen.get(target.event);
    // What it withdraws may come later: then it is kept out by name.
    sortedKinds.clear();
    if (!gone || GROWS.has(gone.kind)) grown = true;
    settlePermission();
    if (gone?.kind === 'scope-added') scope = null;
    return [...settings.withdraw(target.event), ...looks.withdraw(target, why)];
  }

  function settlePermission(): void {
    const last = fold.of('permission-set').at(-1);
    fold.permission = last?.payload.permission ?? fold.started?.payload.permission ?? 'look';
  }

  /** Makes the index anew; returns the places whose readings may mean something else now. */
  function grow(touched: Touched): Iterable<PlaceId> {
    grown = false;
    const renames = fold.of('renaming-listed').flatMap(({ payload }) => payload.renames);
    const described = describedToPlan(fold.of('rack-described'), fold.of('unit-described'));
    const next = extendIndex(base, { ...described, cableNames: renames });
    if (next === index) return NOTHING;
    for (const { id } of trunks) touched.cables.add(id);
    trunks = described.cables;
    for (const { id } of trunks) touched.cables.add(id);
    index = next;
    scope = null;
    return said();
  }

  /** Derives anew what depends on the touched places: their states, their cables, their joined places. */
  function settle(touched: Touched): void {
    const alsoTouched = new Set<PlaceId>();
    stamp += 1;
    const derived: Known[] = [];
    for (const place of touched.places) {
      const one = entryOf(place);
      derived.push(one);
      const before = one.state;
      for (const far of before?.joinedTo ?? []) {
        unlink(joinedFrom, far, place);
        alsoTouched.add(far);
      }
      for (const reading of one.readings) forget(place, reading, touched);
      const state = looksToState(place, looks.standing(place));
      one.state = state.type === 'unseen' ? null : state;
      one.readings = readPlugs(place, state);
      for (const reading of one.readings) remember(place, reading, touched);
      for (const { cable } of endsOver(index, place)) touched.cables.add(cable.id);
      for (const far of noteUnits(place, before, state)) alsoTouched.add(far);
    }
    for (const { place, state } of derived) for (const far of state?.joinedTo ?? []) link(joinedFrom, far, place);
    for (const { place } of derived) for (const far of fold.joined(place)) alsoTouched.add(far);
    for (const place of alsoTouched) if (!touched.places.has(place)) derived.push(entryOf(place));
    for (const one of derived) {
      const { place } = one;
      one.stamp = stamp;
      const found = isSlot(place) ? unitDiscrepancies(fold, place) : placeDiscrepancies(fold, place);
      if (found.length > 0) byPlace.set(place, found);
      else byPlace.delete(place);
    }
    for (const cable of touched.cables) {
      cableStamps.set(cable, stamp);
      const found = cableDiscrepancies(fold, cable);
      if (found.length > 0) byCable.set(cable, found);
      else byCable.delete(cable);
    }
  }

  function entryOf(place: PlaceId): Known {
    let one = known.get(place);
    if (!one) {
      one = { place, state: null, readings: NO_READINGS, stamp: 0 };
      known.set(place, one);
    }
    return one;
  }

  function readPlugs(place: PlaceId, { plugs }: PlaceState): PlugReading[] {
    const read = plugs.flatMap((plug) => plugToReading(index, place, plug) ?? []);
    return read.length > 0 ? read : NO_READINGS;
  }

  function remember(place: PlaceId, reading: PlugReading, touched: Touched): void {
    if (reading.cable) {
      link(cablePlaces, reading.cable, place);
      touched.cables.add(reading.cable);
    } else {
      link(unknownPlaces, unknownKey(reading.text), place);
    }
  }

  function forget(place: PlaceId, reading: PlugReading, touched: Touched): void {
    if (reading.cable) {
      unlink(cablePlaces, reading.cable, place);
      touched.cables.add(reading.cable);
    } else {
      unlink(unknownPlaces, unknownKey(reading.text), place);
    }
  }

  /** Slots tell where units are. Returns the planned slots of the units concerned: they are judged anew too. */
  function noteUnits(place: PlaceId, before: PlaceState | null, after: PlaceState): readonly PlaceId[] {
    if (!isSlot(place)) return NOTHING;
    const [were, are] = [unitsIn(before), unitsIn(after)];
    for (const unit of were) unlink(unitSlots, unit, place);
    for (const unit of are) link(unitSlots, unit, place);
    return [...were, ...are].flatMap((id) => {
      const unit = index.units.get(id);
      return unit?.rack && unit.u !== undefined ? [slotToPlace(unit.rack, unit.u)] : [];
    });
  }

  function unitsIn(state: PlaceState | null): UnitId[] {
    return (state?.plugs ?? []).flatMap((plug) =>
      plug.labels.flatMap(({ text }) =>
        (index.names.exact.get(text.trim()) ?? []).flatMap((n) => (n.type === 'unit' ? [n.id] : [])),
      ),
    );
  }

  function saidDiscrepancies(): Discrepancy[] {
    return [...hazardsSeen(fold.of('hazard-seen')), ...powerDiscrepancies(fold), ...failedTests(fold)];
  }

  return fold;
}

/** Every event at once: the same as adding them one by one, which a property test holds. */
export function foldAll(given: Plan | PlanIndex, events: Iterable<AuditEvent>, own: StationRules = {}): Fold {
  const fold = createFold(given, undefined, own);
  fold.add(events);
  return fold;
}
