// Where a value that somebody read counts: on a jack or on its whole unit, under the plan's own name for it, beside the
// value that the plan has there. Asks the plan's index and nothing else.

import { textToMac } from '../trade/addresses.ts';
import { HARDWARE_ADDRESS, settingNameKeys, settingOwner } from '../trade/settingNames.ts';
import { derived } from './derived.ts';
import type { PlaceId, UnitId } from './identity.ts';
import type { PlanSetting } from './model.ts';
import { type PlanIndex, settingKey } from './planIndex.ts';

export interface SaidSetting {
  unit: UnitId;
  place?: PlaceId | undefined;
  name: string;
  value?: string | undefined;
  /** Said to be this jack's own where such a value usually is the unit's. */
  of?: 'jack' | undefined;
}

export interface SettingSpot {
  /** One for all readings of the same value. */
  key: string;
  unit: UnitId;
  place?: PlaceId | undefined;
  name: string;
  /** What the plan has there; absent where it has nothing. */
  plan?: string | undefined;
  /** The row of the plan that says so; absent where it stands with the unit itself. */
  planned?: PlanSetting | undefined;
}

/**
 * A value that is a unit's by its nature counts for the unit, wherever it was entered, unless the plan has one at that
 * jack or a person says that it is the jack's. Any other value counts where the plan has it: at the jack, else on the
 * unit; one that was said of a unit with a single jack counts for that jack where only it is planned.
 */
export function settingSpot(index: PlanIndex, said: SaidSetting): SettingSpot {
  const { unit, place } = said;
  const name = isLearned(index, said) ? HARDWARE_ADDRESS : said.name;
  const { key, all } = settingNameKeys(name);
  const plannedAt = (spot: string) => {
    for (const one of all) {
      const found = index.settings.get(`${spot} ${one}`);
      if (found) return found;
    }
    return undefined;
  };
  const isOfJack = said.of === 'jack' || name === HARDWARE_ADDRESS;
  const only = place === undefined ? index.jacksOf.get(unit) : undefined;
  const planned =
    (place !== undefined ? plannedAt(place) : undefined) ??
    (isOfJack ? undefined : plannedAt(unit)) ??
    (only?.length === 1 ? plannedAt(only[0]!.id) : undefined);
  if (planned) {
    const { unit: owner, place: at, name: called, value } = planned;
    return { key: settingKey(planned), unit: owner, place: at, name: called, plan: value, planned };
  }
  const isOfUnit = place === undefined || (settingOwner(name) === 'unit' && !isOfJack);
  const own = isOfUnit ? index.units.get(unit) : undefined;
  const plan = key === 'MAC' ? own?.mac : key === 'SERIAL' ? own?.serial : undefined;
  const spot = isOfUnit ? { unit } : { unit, place };
  return { key: `${isOfUnit ? unit : place} ${key}`, ...spot, name, ...(plan === undefined ? {} : { plan }) };
}

/**
 * A hardware address at a jack is either the unit's own or the one that is seen behind the jack, as a switch lists it:
 * the latter where a person says so, and where the plan has it for another unit.
 */
function isLearned(index: PlanIndex, { unit, place, name, value, of }: SaidSetting): boolean {
  if (place === undefined || settingNameKeys(name).key !== 'MAC') return false;
  const jacks = index.jacksOf.get(unit)?.length ?? 0;
  if (jacks < 2 || index.settings.has(`${place} MAC`)) return false;
  if (of === 'jack') return true;
  const mac = value === undefined ? null : textToMac(value);
  if (mac === null || macOf(index, unit) === mac) return false;
  return unitsWithMac(index, mac).some((other) => other !== unit);
}

/** The hardware address that the plan has for a unit, in one notation; null where it has none that can be read. */
export function macOf(index: PlanIndex, unit: UnitId): string | null {
  const text = index.settings.get(`${unit} MAC`)?.value ?? index.units.get(unit)?.mac;
  return text === undefined ? null : textToMac(text);
}

const unitsByMac = derived((index: PlanIndex) => {
  const units = new Map<string, UnitId[]>();
  for (const { id } of index.plan.units) {
    const own = macOf(index, id);
    if (own !== null) units.set(own, [...(units.get(own) ?? []), id]);
  }
  return units;
});

/** Units that the plan gives this hardware address, in any notation. */
export function unitsWithMac(index: PlanIndex, mac: string): readonly UnitId[] {
  const wanted = textToMac(mac);
  return wanted === null ? [] : (unitsByMac(index).get(wanted) ?? []);
}
