// A place in the words of a person or a list to place ids: `SW1 P05`, `SW1 P05..P24`, `R2 U26`, `loose: tray of R2`.
// Places off the plan get the id they will have on every phone; nothing is refused for not being planned.

import { nameToKey } from '../trade/names.ts';
import {
  expandRange,
  jackToPlace,
  looseToPlace,
  type PlaceId,
  type RackId,
  slotToPlace,
  type UnitId,
} from './identity.ts';
import type { Plan } from './model.ts';

type SaidPlace = { type: 'places'; places: PlaceId[]; said: string[] } | { type: 'unreadable'; why: string };

export interface PlaceNames {
  /** Unit id by key of label and of id. */
  units: ReadonlyMap<string, UnitId>;
  racks: ReadonlyMap<string, RackId>;
}

/** Built once per list. A label that several units bear is left out: it names none of them. */
export function planToPlaceNames(plan: Plan): PlaceNames {
  const toIds = <Id extends string>(items: readonly { id: Id; label: string }[]) => {
    const ids = new Map<string, Id>();
    const twice = new Set<string>();
    for (const { id, label } of items) {
      const key = nameToKey(label);
      if (ids.has(key)) twice.add(key);
      ids.set(key, id);
    }
    for (const key of twice) ids.delete(key);
    for (const { id } of items) ids.set(id, id);
    return ids;
  };
  return { units: toIds(plan.units), racks: toIds(plan.racks) };
}

export function textToPlaces(text: string, names: PlaceNames): SaidPlace {
  const said = text.trim();
  if (said === '') return { type: 'unreadable', why: 'no place is named' };
  const loose = /^loose\s*:\s*(.+)$/i.exec(said);
  if (loose) return { type: 'places', places: [looseToPlace(loose[1] ?? '')], said: [said] };
  if (/^loose\s*:?$/i.test(said)) return { type: 'unreadable', why: 'loose, but not where' };
  const range = /^(.+?)\s*\.\.\.?\s*(.+)$/.exec(said);
  if (range) return rangeToPlaces(range[1] ?? '', range[2] ?? '', names);
  const place = onePlace(said, names);
  return place === null
    ? { type: 'unreadable', why: `${said} names no jack, no rack position and no loose end` }
    : { type: 'places', places: [place], said: [said] };
}

function onePlace(said: string, names: PlaceNames): PlaceId | null {
  const slot = /^(.+?)\s+R?U\s?(\d{1,2})$/i.exec(said);
  const rack = slot ? names.racks.get(nameToKey(slot[1] ?? '')) : undefined;
  if (slot && rack !== undefined) return slotToPlace(rack, Number(slot[2]));
  const split = splitAtUnit(said, names);
  return split ? jackToPlace(split.unit, split.jack) : null;
}

/** The longest known unit in front; a unit that nobody knows ends at the last blank. */
function splitAtUnit(said: string, names: PlaceNames): { unit: UnitId; unitText: string; jack: string } | null {
  const words = said.split(/\s+/);
  for (let length = words.length - 1; length >= 1; length -= 1) {
    const unitText = words.slice(0, length).join(' ');
    const unit = names.units.get(nameToKey(unitText));
    if (unit !== undefined) return { unit, unitText, jack: words.slice(length).join(' ') };
  }
  const jack = words.at(-1) ?? '';
  const unitText = words.slice(0, -1).join(' ');
  return unitText === '' ? null : { unit: nameToKey(unitText), unitText, jack };
}

/** `SW1 P05..P24` and `P05..SW1 P24`: the unit may stand on either side. */
function rangeToPlaces(first: string, last: string, names: PlaceNames): SaidPlace {
  const spoken = `${first}..${last}`;
  const left = splitAtUnit(first, names);
  const right = splitAtUnit(last, names);
  const base = left ?? right;
  if (!base) return { type: 'unreadable', why: `${spoken} names no unit` };
  if (left && right && left.unit !== right.unit) return { type: 'unreadable', why: `${spoken} runs over two units` };
  const labels = expandRange(left?.jack ?? first, right?.jack ?? last);
  if (!labels) return { type: 'unreadable', why: `${spoken} is no range that can be counted through` };
  return {
    type: 'places',
    places: labels.map((label) => jackToPlace(base.unit, label)),
    said: labels.map((label) => `${base.unitText} ${label}`),
  };
}
