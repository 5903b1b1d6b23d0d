// Amendments beside ends of cables: a value read off a unit, a unit at another height, a cable that the plan does not
// have. What a difference changes in the record, and the plan with it in; nothing is decided here.

import { isJack, isUnit, type PlaceId, placeToParts, type RackId, type UnitId, unitOf } from '../plan/identity.ts';
import type { Cable, CableEnd, Plan } from '../plan/model.ts';
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

/** Why a person has to amend the plan. */
export type ByHand =
  | { type: 'not-settled' }
  | { type: 'labels-wrong' }
  | { type: 'many-jacks' }
  | { type: 'not-followed' };

/** Why a change was not taken into the plan in force. `taken`: what it keeps there. */
export type NotTaken =
  | { type: 'no-cable' | 'no-jack' | 'no-unit' | 'other-value' | 'elsewhere' | 'no-room' }
  | { type: 'taken'; by: string };

type Changed = { type: 'changed'; plan: Plan } | { type: 'done' } | NotTaken;

/** What this difference changes beside ends of cables; `many-jacks` where a person has to do it. */
export function recordChangeOf(fold: Pick<Fold, 'index' | 'placesOfUnknown'>, one: Discrepancy): RecordChange | ByHand {
  const { index } = fold;
  const [at = ''] = one.places;
  if (one.kind === 'setting-differs' || (one.kind === 'unit-replaced' && one.setting !== undefined)) {
    const { setting: name, found, plan } = one;
    if (name === undefined || found === undefined || plan === undefined) return NOT_FOLLOWED;
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
    if (parts.type !== 'slot' || parts.u < 1 || !unit) return NOT_FOLLOWED;
    const { rack, u } = unit;
    const from = { ...(rack === undefined ? {} : { rack }), ...(u === undefined ? {} : { u }) };
    return { type: 'unit', unit: unit.id, from, to: { rack: parts.rack, u: parts.u } };
  }
  if (one.kind === 'unplanned-cable') {
    const label = one.labels[0] ?? '';
    const places = fold.placesOfUnknown(label).filter(isJack);
    if (places.length === 0) return NOT_FOLLOWED;
    if (places.length > 2) return { type: 'many-jacks' };
    return { type: 'cable', label, places: [...places].sort() };
  }
  return NOT_FOLLOWED;
}

const NOT_FOLLOWED: ByHand = { type: 'not-followed' };

export function isChange(one: RecordChange | ByHand): one is RecordChange {
  return one.type === 'setting' || one.type === 'unit' || one.type === 'cable';
}

/** The same change, however many differences ask for it. */
export function changeKey(change: RecordChange): string {
  if (change.type === 'setting') return `setting ${settingKey(change)}`;
  return change.type === 'unit' ? `unit ${change.unit}` : `cable ${nameToKey(change.label)}`;
}

/** Puts one change into the plan; `done` where it says so already. */
export function withChange(plan: Plan, change: RecordChange): Changed {
  if (change.type === 'setting') {
    const key = settingKey(change);
    const setting = plan.settings.find((one) => settingKey(one) === key);
    if (!setting && change.place === undefined) return withUnitValue(plan, change);
    if (setting?.value === change.to) return { type: 'done' };
    if (setting?.value !== change.from) return { type: 'other-value' };
    return changed({
      ...plan,
      settings: plan.settings.map((one) => (one === setting ? { ...one, value: change.to } : one)),
    });
  }
  if (change.type === 'unit') return withUnitAt(plan, change);
  const key = nameToKey(change.label);
  if (plan.cables.some(({ label }) => nameToKey(label) === key)) return { type: 'done' };
  const jacks = new Map(plan.jacks.map((jack) => [jack.id, jack]));
  const units = new Map(plan.units.map(({ id, label }) => [id, label]));
  if (change.places.some((place) => !jacks.has(place))) return { type: 'no-jack' };
  const taken = plan.cables.find(({ ends }) =>
    ends.some(({ place }) => place !== null && change.places.includes(place) && !jacks.get(place)?.mult),
  );
  if (taken) return { type: 'taken', by: taken.label };
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
  return changed({ ...plan, cables, contradictions: findContradictions(cables, jacks, plan.units) });
}

const changed = (plan: Plan): Changed => ({ type: 'changed', plan });

/** A serial or a hardware address that the plan has with the unit itself, in no list of settings. */
function withUnitValue(plan: Plan, { unit: id, name, from, to }: Extract<RecordChange, { type: 'setting' }>): Changed {
  const { key } = settingNameKeys(name);
  const field = key === 'SERIAL' ? 'serial' : key === 'MAC' ? 'mac' : null;
  const unit = plan.units.find((one) => one.id === id);
  if (field !== null && unit?.[field] === to) return { type: 'done' };
  if (field === null || unit?.[field] !== from) return { type: 'other-value' };
  return changed({ ...plan, units: plan.units.map((one) => (one === unit ? { ...one, [field]: to } : one)) });
}

function withUnitAt(plan: Plan, { unit: id, from, to }: Extract<RecordChange, { type: 'unit' }>): Changed {
  const unit = plan.units.find((one) => one.id === id);
  if (!unit) return { type: 'no-unit' };
  if (unit.rack === to.rack && unit.u === to.u) return { type: 'done' };
  if (unit.rack !== from.rack || unit.u !== from.u) return { type: 'elsewhere' };
  const rack = plan.racks.find((one) => one.id === to.rack);
  if (!rack || to.u + unit.heightU - 1 > rack.heightU) return { type: 'no-room' };
  const inTheWay = plan.units.find(
    (other) =>
      other.id !== id &&
      other.rack === to.rack &&
      other.mounted === unit.mounted &&
      other.u !== undefined &&
      other.u < to.u + unit.heightU &&
      to.u < other.u + other.heightU,
  );
  if (inTheWay) return { type: 'taken', by: inTheWay.label };
  return changed({
    ...plan,
    units: plan.units.map((one) => (one === unit ? { ...one, rack: to.rack, u: to.u } : one)),
  });
}

/** As a second cable of the same number gets it: `~2`. */
function freeId({ cables }: Plan, key: string): string {
  const taken = new Set(cables.map(({ id }) => id));
  for (let n = 1; ; n += 1) {
    const id = n === 1 ? key : `${key}~${n}`;
    if (!taken.has(id)) return id;
  }
}
