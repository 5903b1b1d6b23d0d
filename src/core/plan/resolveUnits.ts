// Which unit does a name mean? Units of lists and units that cables imply, kept apart by place where a name repeats.
// Ids are given here and nowhere else while a sheet is read.
import { nameToKey } from './identity.ts';
import type { Notebook, RawEnd, RawUnit } from './readTypes.ts';

export interface ResolvedUnit {
  id: string;
  label: string;
  room: string;
  rack: string;
  u: number | null;
  raw: RawUnit | null;
  sheet: string;
  row: number;
}

export type Located = Pick<RawEnd, 'room' | 'rack' | 'unit' | 'u'> & { sheet: string; row: number };

export interface Units {
  all: ResolvedUnit[];
  /** Null when the name is blank or could be several units. */
  find(end: Pick<RawEnd, 'room' | 'rack' | 'unit'>): ResolvedUnit | null;
}

/** How well a place fits a unit: 2 the same, 1 nothing against it, 0 another place. */
function fitOf(unit: ResolvedUnit, rack: string, room: string, roomOfRack: (rack: string) => string): 0 | 1 | 2 {
  const same = (a: string, b: string) => a === b || nameToKey(a) === nameToKey(b);
  if (rack !== '' && unit.rack !== '') return same(rack, unit.rack) ? 2 : 0;
  const unitRoom = unit.room || (unit.rack === '' ? '' : roomOfRack(unit.rack));
  const endRoom = room || (rack === '' ? '' : roomOfRack(rack));
  if (endRoom !== '' && unitRoom !== '') return same(endRoom, unitRoom) ? 2 : 0;
  if ((rack !== '' && unitRoom !== '') || (endRoom !== '' && unit.rack !== '')) return 0;
  return 1;
}

export function resolveUnits(
  listed: readonly RawUnit[],
  ends: readonly Located[],
  roomOfRack: (rack: string) => string,
  notebook: Notebook,
): Units {
  const groups = new Map<string, ResolvedUnit[]>();
  const all: ResolvedUnit[] = [];
  const add = (unit: Omit<ResolvedUnit, 'id'>) => {
    const key = nameToKey(unit.label);
    const made: ResolvedUnit = { ...unit, id: '' };
    const group = groups.get(key);
    if (group) group.push(made);
    else groups.set(key, [made]);
    all.push(made);
    return made;
  };
  for (const raw of listed) {
    const { label, room, rack, u, sheet, row } = raw;
    add({ label, room, rack, u, raw, sheet, row });
  }
  const asked = new Set<string>();
  const isPlaced = (end: Located) => end.rack !== '' || end.room !== '';
  // Ends that say where they are come first, so that the answer does not depend on the order of the rows.
  for (const end of [...ends.filter(isPlaced), ...ends.filter((end) => !isPlaced(end))]) {
    const key = nameToKey(end.unit);
    if (key === '') continue;
    const group = groups.get(key) ?? [];
    const fits = group.map((unit) => fitOf(unit, end.rack, end.room, roomOfRack));
    if (fits.includes(2) || (fits.filter((value) => value === 1).length === 1 && group.length >= 1)) {
      const match = group[fits.includes(2) ? fits.indexOf(2) : fits.indexOf(1)];
      if (match && match.raw === null) {
        if (match.rack === '') match.rack = end.rack;
        if (match.room === '' && end.rack === '') match.room = end.room;
      }
      if (match && match.u === null) match.u = end.u;
      continue;
    }
    if (!isPlaced(end) && group.length > 0) continue;
    const [only] = group;
    const moved = only?.raw && group.length === 1 && only.rack !== '' && end.rack !== '';
    if (moved) {
      const said = [end.rack, end.unit].join(' ');
      if (!asked.has(said))
        notebook.ask(end.sheet, end.row, undefined, said, `The unit list has it in ${only.rack}. Which is right?`);
      asked.add(said);
      continue;
    }
    add({
      label: end.unit,
      room: end.rack === '' ? end.room : '',
      rack: end.rack,
      u: end.u,
      raw: null,
      sheet: end.sheet,
      row: end.row,
    });
  }
  giveIds(groups, notebook);
  return {
    all,
    find(end) {
      const group = groups.get(nameToKey(end.unit)) ?? [];
      if (nameToKey(end.unit) === '') return null;
      if (group.length === 1) return group[0] ?? null;
      const fits = group.map((unit) => fitOf(unit, end.rack, end.room, roomOfRack));
      const best = fits.includes(2) ? 2 : 1;
      return fits.filter((value) => value === best).length === 1 ? (group[fits.indexOf(best)] ?? null) : null;
    },
  };
}

/** A unit is named by its label, with the place in front where the label repeats. */
function giveIds(groups: ReadonlyMap<string, ResolvedUnit[]>, notebook: Notebook): void {
  const taken = new Set<string>();
  const claim = (wanted: string) => {
    let id = wanted;
    for (let n = 2; taken.has(id); n += 1) id = `${wanted}~${n}`;
    taken.add(id);
    return id;
  };
  for (const [key, group] of groups) {
    const [only] = group;
    if (group.length === 1 && only) only.id = claim(key);
  }
  for (const group of groups.values()) {
    if (group.length === 1) continue;
    for (const unit of group) {
      const place = unit.room || unit.rack;
      const label = place === '' ? unit.label : `${place} ${unit.label}`;
      if (label !== unit.label)
        notebook.guess(unit.sheet, unit.row, undefined, unit.label, `${label}, since the name repeats`);
      unit.label = label;
      unit.id = claim(nameToKey(label));
    }
  }
}
