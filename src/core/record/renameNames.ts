// The two names of a cable that is being renamed: which of them a label or a setting says. Asks the plan's index and
// nothing else; what has been done so far stands in renaming.ts.

import { derived } from '../plan/derived.ts';
import type { CableId, PlaceId, UnitId } from '../plan/identity.ts';
import type { PlanSetting } from '../plan/model.ts';
import { type NameChange, type PlanIndex, settingKey } from '../plan/planIndex.ts';
import { nameToKey } from '../trade/names.ts';

/** Does a label say this name? A mark of the end (`2004-A`) may follow; where two names differ in form only, the exact text decides. */
function says(index: PlanIndex, text: string, name: string, notThis: string): boolean {
  if (text.trim() === name.trim()) return true;
  const [key, wanted, other] = [nameToKey(text), nameToKey(name), nameToKey(notThis)];
  if (wanted === other) return false;
  return (
    key === wanted ||
    (key.startsWith(`${wanted}-`) && /^-[A-Z]$/.test(key.slice(wanted.length)) && !index.names.key.has(key))
  );
}

export const saysNew = (index: PlanIndex, text: string, one: NameChange): boolean =>
  says(index, text, one.new, one.old);
export const saysOld = (index: PlanIndex, text: string, one: NameChange): boolean =>
  says(index, text, one.old, one.new);

/** The other cable that has the new name by plan, as of now: then a label alone cannot tell the two apart. */
export function takenBy(index: PlanIndex, one: NameChange): string | null {
  const named = index.names.key.get(nameToKey(one.new)) ?? [];
  const other = named.find(({ type, id }) => {
    if (type !== 'cable' || id === one.cable) return false;
    return nameToKey(index.cables.get(id)?.label ?? '') === nameToKey(one.new);
  });
  return other?.id ?? null;
}

/** Settings that count, by place, or by unit where they are the unit's own. */
export const planSettings = derived((index: PlanIndex): Map<string, PlanSetting[]> => {
  const bySpot = new Map<string, PlanSetting[]>();
  for (const setting of index.plan.settings) {
    if (index.settings.get(settingKey(setting)) !== setting) continue;
    const spot = setting.place ?? setting.unit;
    bySpot.set(spot, [...(bySpot.get(spot) ?? []), setting]);
  }
  return bySpot;
});

const WORD = /[\p{L}\p{N}]/u;

/** `AES 2005 L` holds `2005`, `12005` does not. Capitals count as the plan writes them. */
export function holdsWord(value: string, name: string): boolean {
  return splitAt(value, name).length > 1;
}

function splitAt(value: string, name: string): string[] {
  const parts: string[] = [];
  let from = 0;
  for (let at = value.indexOf(name); name !== '' && at >= 0; at = value.indexOf(name, at + 1)) {
    if (at < from || WORD.test(value[at - 1] ?? ' ') || WORD.test(value[at + name.length] ?? ' ')) continue;
    parts.push(value.slice(from, at));
    from = at + name.length;
  }
  return [...parts, value.slice(from)];
}

/** The value with every old name in it exchanged for its new one at the same time, so that exchanged names come out right. */
export function newValue(index: PlanIndex, setting: PlanSetting): string {
  const changes = renamesAt(index, setting.place ?? null, setting.unit);
  let parts: { text: string; fixed: boolean }[] = [{ text: setting.value, fixed: false }];
  for (const one of changes) {
    parts = parts.flatMap((part) => {
      if (part.fixed) return [part];
      return splitAt(part.text, one.old).flatMap((text, i) =>
        i === 0
          ? [{ text, fixed: false }]
          : [
              { text: one.new, fixed: true },
              { text, fixed: false },
            ],
      );
    });
  }
  return parts.map(({ text }) => text).join('');
}

/** Renames of the cables at a place; of all cables on the unit where the setting is the unit's own. Long names first. */
function renamesAt(index: PlanIndex, place: PlaceId | null, unit: UnitId): NameChange[] {
  const places = place === null ? (index.jacksOf.get(unit) ?? []).map(({ id }) => id) : [place];
  const cables = new Set(places.flatMap((at) => (index.endsAt.get(at) ?? []).map(({ cable }) => cable.id)));
  return [...cables]
    .flatMap((cable) => index.renames?.get(cable) ?? [])
    .sort((a, b) => b.old.length - a.old.length || (a.old < b.old ? -1 : 1));
}

/** A value read off a page that is the plan's with new names in it: the renaming's business, not a difference. */
export function isRenamedValue(index: PlanIndex, setting: PlanSetting, value: string): boolean {
  if (!index.renames) return false;
  const wanted = newValue(index, setting);
  return wanted !== setting.value && nameToKey(wanted) === nameToKey(value);
}

/** Do all labels of a plug belong to one rename of the cable that it was read as? Then the second one is no leftover. */
export function isBeingRenamed(index: PlanIndex, cable: CableId, texts: readonly string[]): boolean {
  const changes = index.renames?.get(cable) ?? [];
  return changes.some((one) => texts.every((text) => saysNew(index, text, one) || saysOld(index, text, one)));
}
