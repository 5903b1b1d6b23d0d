// Amendments beside ends of cables: a value read off a unit, a unit at another height, a cable that the plan does not
// have. What a difference changes in the record, and the plan with it in; nothing is decided here.

import { isJack, isUnit, type PlaceId, placeToParts, type RackId, type UnitId, unitOf } from '../plan/identity.ts';
import type { Cable, CableEnd, Jack, Plan } from '../plan/model.ts';
import { settingKey } from '../plan/planIndex.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Fold } from '../rules/foldView.ts';
import { findContradictions } from '../schedule/build/contradictions.ts';
import { nameToKey } from '../trade/names.ts';
import { settingNameKeys } from '../trade/settingNames.ts';

export type RecordChange =
  | { type: 'setting'; unit: UnitId; place?: PlaceId | undefined; name: string; from: string; to: string }
  | { type: 'unit'; unit: UnitId; from: { rack?: RackId; u?: number }; to: { rack: RackId; u: number } }
  /** Both places where its label stands, or the one. */
  | { type: 'cable'; label: string; places: PlaceId[] };

/** What this difference changes beside ends of cables; null where nothing, words where a person has to do it. */
export function recordChangeOf(
  fold: Pick<Fold, 'index' | 'placesOfUnknown'>,
  one: Discrepancy,
): RecordChange | string | null {
  const { index } = fold;
  const [at = ''] = one.places;
  if (one.kind === 'setting-differs' || (one.kind === 'unit-replaced' && one.setting !== undefined)) {
    const { setting: name, found, plan } = one;
    if (name === undefined || found === undefined || plan === undefined) return null;
    return {
      type: 'setting',
      ...(isUnit(at) ? { unit: at } : { unit: unitOf(at), place: at }),
      name,
      from: plan,
      to: found,
    };
  }
  if (one.kind === 'unit-moved') {
    const parts = placeToParts(at);
    const unit = index.plan.units.find(({ label }) => label === one.labels[0]);
    if (parts.type !== 'slot' || parts.u < 1 || !unit) return null;
    const { rack, u } = unit;
    const from = { ...(rack === undefined ? {} : { rack }), ...(u === undefined ? {} : { u }) };
    return { type: 'unit', unit: unit.id, from, to: { rack: parts.rack, u: parts.u } };
  }
  if (one.kind === 'unplanned-cable') {
    const label = one.labels[0] ?? '';
    const places = fold.placesOfUnknown(label).filter(isJack);
    if (places.length === 0) return null;
    if (places.length > 2) return 'its label stands at more than two jacks';
    return { type: 'cable', label, places: [...places].sort() };
  }
  return null;
}

/** The same change, however many differences ask for it. */
export function changeKey(change: RecordChange): string {
  if (change.type === 'setting') return `setting ${settingKey(change)}`;
  return change.type === 'unit' ? `unit ${change.unit}` : `cable ${nameToKey(change.label)}`;
}

/** Puts one change into the plan; `done` where it says so already, words where it cannot be. */
export function withChange(plan: Plan, change: RecordChange): Plan | 'done' | { why: string } {
  if (change.type === 'setting') {
    const key = settingKey(change);
    const setting = plan.settings.find((one) => settingKey(one) === key);
    if (!setting && change.place === undefined) return withUnitValue(plan, change);
    if (setting?.value === change.to) return 'done';
    if (setting?.value !== change.from) return { why: 'the plan in force has another value' };
    return { ...plan, settings: plan.settings.map((one) => (one === setting ? { ...one, value: change.to } : one)) };
  }
  if (change.type === 'unit') return withUnitAt(plan, change);
  const key = nameToKey(change.label);
  if (plan.cables.some(({ label }) => nameToKey(label) === key)) return 'done';
  const jacks = new Map(plan.jacks.map((jack) => [jack.id, jack]));
  const units = new Map(plan.units.map(({ id, label }) => [id, label]));
  if (change.places.some((place) => !jacks.has(place))) return { why: 'the plan in force has no such jack' };
  const taken = plan.cables.find(({ ends }) =>
    ends.some(({ place }) => place !== null && change.places.includes(place) && !jacks.get(place)?.mult),
  );
  if (taken) return { why: `the plan keeps ${taken.label} there` };
  const end = (place: PlaceId | undefined, n: number): CableEnd => {
    const jack = place === undefined ? undefined : jacks.get(place);
    const unit = jack ? (units.get(jack.unit) ?? jack.unit) : '';
    return { end: n === 0 ? 'A' : 'B', place: place ?? null, unit, jack: jack?.label ?? '' };
  };
  const cable: Cable = {
    id: freeId(plan, key),
    label: change.label,
    ends: [end(change.places[0], 0), end(change.places[1], 1)],
    status: 'in-use',
    onAir: false,
  };
  const cables = [...plan.cables, cable];
  return { ...plan, cables, contradictions: findContradictions(cables, jacks as Map<string, Jack>, plan.units) };
}

/** A serial or a hardware address that the plan has with the unit itself, in no list of settings. */
function withUnitValue(
  plan: Plan,
  { unit: id, name, from, to }: Extract<RecordChange, { type: 'setting' }>,
): Plan | 'done' | { why: string } {
  const { key } = settingNameKeys(name);
  const field = key === 'SERIAL' ? 'serial' : key === 'MAC' ? 'mac' : null;
  const unit = plan.units.find((one) => one.id === id);
  if (field !== null && unit?.[field] === to) return 'done';
  if (field === null || unit?.[field] !== from) return { why: 'the plan in force has another value' };
  return { ...plan, units: plan.units.map((one) => (one === unit ? { ...one, [field]: to } : one)) };
}

function withUnitAt(
  plan: Plan,
  { unit: id, from, to }: Extract<RecordChange, { type: 'unit' }>,
): Plan | 'done' | { why: string } {
  const unit = plan.units.find((one) => one.id === id);
  if (!unit) return { why: 'the plan in force has no such unit' };
  if (unit.rack === to.rack && unit.u === to.u) return 'done';
  if (unit.rack !== from.rack || unit.u !== from.u) return { why: 'the plan in force has it elsewhere' };
  const rack = plan.racks.find((one) => one.id === to.rack);
  if (!rack || to.u + unit.heightU - 1 > rack.heightU) return { why: 'the rack has no room for it there' };
  const inTheWay = plan.units.find(
    (other) =>
      other.id !== id &&
      other.rack === to.rack &&
      other.mounted === unit.mounted &&
      other.u !== undefined &&
      other.u < to.u + unit.heightU &&
      to.u < other.u + other.heightU,
  );
  if (inTheWay) return { why: `the plan keeps ${inTheWay.label} there` };
  return { ...plan, units: plan.units.map((one) => (one === unit ? { ...one, rack: to.rack, u: to.u } : one)) };
}

/** As a second cable of the same number gets it: `~2`. */
function freeId({ cables }: Plan, key: string): string {
  const taken = new Set(cables.map(({ id }) => id));
  for (let n = 1; ; n += 1) {
    const id = n === 1 ? key : `${key}~${n}`;
    if (!taken.has(id)) return id;
  }
}
