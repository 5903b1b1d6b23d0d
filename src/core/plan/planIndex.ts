// The plan in force with the maps that every question about it needs. Built once per revision, never changed.

import type { Direction, Signal } from '../trade/kinds.ts';
import { nameToKey } from '../trade/names.ts';
import { derived } from './derived.ts';
import { hostOf } from './hosts.ts';
import { type CableId, type PlaceId, placeToParts, type RackId, type UnitId } from './identity.ts';
import { groupJacks, type Names, planToNames } from './lookUp.ts';
import type { Cable, CableEnd, Jack, Plan, PlanSetting, Rack, Unit } from './model.ts';
import type { Lookup } from './named.ts';

export interface PlannedEnd {
  cable: Cable;
  end: CableEnd;
}

/** A cable that is being given another name. */
export interface NameChange {
  cable: CableId;
  old: string;
  new: string;
}

export interface PlanIndex {
  plan: Plan;
  cables: Lookup<Cable, CableId>;
  jacks: Lookup<Jack, PlaceId>;
  units: Lookup<Unit, UnitId>;
  racks: Lookup<Rack, RackId>;
  /** Ends the schedule puts at a place. */
  endsAt: Lookup<PlannedEnd[], PlaceId>;
  jacksOf: Lookup<Jack[], UnitId>;
  settings: Lookup<PlanSetting>;
  /** The plan says of some place which microphone is there. */
  hasMicrophones: boolean;
  names: Names;
  /** Cables that are being renamed; absent where nobody listed any. */
  renames?: Lookup<NameChange[], CableId>;
}

/** One setting of one unit, input or output. */
export function settingKey(setting: { unit: UnitId; place?: PlaceId | undefined; name: string }): string {
  return `${setting.place ?? setting.unit} ${nameToKey(setting.name)}`;
}

/** What the plan says of the microphone at a place; empty when it says nothing. Asked for every label read. */
export function microphoneAt(index: PlanIndex, place: PlaceId): string {
  if (!index.hasMicrophones) return '';
  // The key that settingKey makes for this name, without folding the name each time.
  return index.settings.get(`${place} MICROPHONE`)?.value ?? '';
}

export function indexPlan(plan: Plan): PlanIndex {
  const endsAt = new Map<PlaceId, PlannedEnd[]>();
  for (const cable of plan.cables) {
    for (const end of cable.ends) {
      if (end.place === null) continue;
      const list = endsAt.get(end.place);
      if (list) list.push({ cable, end });
      else endsAt.set(end.place, [{ cable, end }]);
    }
  }
  const jacksOf = groupJacks(plan.jacks);
  return {
    plan,
    cables: byId(plan.cables),
    jacks: byId(plan.jacks),
    units: byId(plan.units),
    racks: byId(plan.racks),
    endsAt,
    jacksOf,
    settings: new Map(plan.settings.map((setting) => [settingKey(setting), setting])),
    hasMicrophones: plan.settings.some(({ name }) => nameToKey(name) === 'MICROPHONE'),
    names: planToNames(plan, jacksOf),
  };
}

function byId<T extends { id: string }>(list: readonly T[]): Map<T['id'], T> {
  const map = new Map<T['id'], T>();
  for (const one of list) map.set(one.id, one);
  return map;
}

interface PlaceFacts {
  signal?: Signal | undefined;
  direction?: Direction | undefined;
  connector?: string | undefined;
  /** True when it was taken from the row, not from the plan's own word about this place. */
  inferred: boolean;
}

/**
 * Signal and direction of a place: the jack list's word, else the cable planned there, else the row it stands in
 * (same unit, same letters before the number), marked inferred.
 */
export function factsAt(index: PlanIndex, place: PlaceId): PlaceFacts {
  const own = ownFacts(index, place);
  if (own.signal && own.direction) return { ...own, inferred: false };
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return { ...own, inferred: false };
  const letters = lettersOf(parts.jack);
  for (const { id, facts, letters: theirs } of tellingJacks(index, parts.unit)) {
    if (id === place || theirs !== letters) continue;
    return {
      signal: own.signal ?? facts.signal,
      direction: own.direction ?? facts.direction,
      connector: own.connector ?? facts.connector,
      inferred: true,
    };
  }
  return { ...own, inferred: false };
}

interface Telling {
  id: PlaceId;
  letters: string;
  facts: Omit<PlaceFacts, 'inferred'>;
}

const telling = derived((_: PlanIndex) => new Map<UnitId, Telling[]>());

/** Jacks of a unit that say something for their row. Asked for every end of a list of work, so it is kept. */
function tellingJacks(index: PlanIndex, unit: UnitId): readonly Telling[] {
  const byUnit = telling(index);
  let known = byUnit.get(unit);
  if (!known) {
    known = (index.jacksOf.get(unit) ?? []).flatMap(({ id, label }) => {
      const facts = ownFacts(index, id);
      return facts.signal || facts.direction ? [{ id, letters: lettersOf(nameToKey(label)), facts }] : [];
    });
    byUnit.set(unit, known);
  }
  return known;
}

function ownFacts(index: PlanIndex, place: PlaceId): Omit<PlaceFacts, 'inferred'> {
  const jack = index.jacks.get(place);
  const planned = index.endsAt.get(place)?.find(({ cable }) => cable.signal);
  return { signal: jack?.signal ?? planned?.cable.signal, direction: jack?.direction, connector: jack?.connector };
}

function lettersOf(jackKey: string): string {
  return jackKey.replace(/\d.*$/, '');
}

/** A place in words for people: `SW1 P03`, `SW1` as a whole, `R2 U26`, or the words of a loose end. */
export function placeToWords(index: PlanIndex, place: PlaceId): string {
  const parts = placeToParts(place);
  if (parts.type === 'slot') {
    const rack = index.racks.get(parts.rack)?.label ?? parts.rack;
    // Below the first U are the whole faces (identity.ts).
    return parts.u > 0 ? `${rack} U${parts.u}` : `${rack} ${parts.u === 0 ? 'front' : 'rear'}`;
  }
  if (parts.type === 'loose') return parts.words.replace(/-/g, ' ').toLowerCase();
  const unit = index.units.get(parts.unit)?.label ?? parts.unit;
  if (parts.type === 'unit') return unit;
  return `${unit} ${index.jacks.get(place)?.label ?? parts.jack}`;
}

/** Rack id of a unit or a jack's unit, or of the unit it hangs on, or of a slot; null in a room and for loose ends. */
export function rackOfPlace(index: PlanIndex, place: PlaceId): RackId | null {
  const parts = placeToParts(place);
  if (parts.type === 'slot') return parts.rack;
  const unit = parts.type === 'loose' ? undefined : index.units.get(parts.unit);
  return (unit && hostOf(index, unit).rack) ?? null;
}

/** The unit that bears exactly this label, the first where several do. A cable of that name is not meant. */
export function unitNamed(index: PlanIndex, label: string): Unit | undefined {
  const named = index.names.exact.get(label)?.find(({ type }) => type === 'unit');
  return named?.type === 'unit' ? index.units.get(named.id) : undefined;
}

export function roomOfUnit(index: PlanIndex, unit: Unit): string | null {
  return unit.room ?? (unit.rack ? (index.racks.get(unit.rack)?.room ?? null) : null);
}
