// Which unit does a name mean? Units of lists and units that cables imply, kept apart by place where a name repeats.
// Ids are given here and nowhere else while a sheet is read.
import type { UnitId } from '../../plan/identity.ts';
import { nameToKey, nameToLoose } from '../../trade/names.ts';
import type { Notebook, RawEnd, RawUnit } from '../rows/readTypes.ts';
import { createSpellings } from '../rows/spelling.ts';

export interface ResolvedUnit {
  id: UnitId;
  label: string;
  room: string;
  rack: string;
  u: number | null;
  raw: RawUnit | null;
  sheet: string;
  row: number;
}

export type Located = Pick<RawEnd, 'room' | 'rack' | 'unit' | 'u' | 'column'> & { sheet: string; row: number };

export interface Units {
  all: ResolvedUnit[];
  /** Null when the name is blank or could be several units. */
  find(end: Pick<RawEnd, 'room' | 'rack' | 'unit'>): ResolvedUnit | null;
}

/** How well a place fits a unit: 2 the same, 1 nothing against it, 0 another place. */
function fitOf(unit: ResolvedUnit, rack: string, room: string, roomOfRack: (rack: string) => string): 0 | 1 | 2 {
  const same = (a: string, b: string) => a === b || nameToLoose(a) === nameToLoose(b);
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
  const names = unitNames(listed, ends, notebook);
  const keys = new Map<string, string>();
  const groupOf = (name: string) => {
    let key = keys.get(name);
    if (key === undefined) {
      key = nameToKey(names(name));
      keys.set(name, key);
    }
    return groups.get(key) ?? [];
  };
  const listedRooms = new Set(listed.map((raw) => nameToLoose(raw.room || roomOfRack(raw.rack))));
  const asked = new Set<string>();
  const isPlaced = (end: Located) => end.rack !== '' || end.room !== '';
  // Ends that say where they are come first, so that the answer does not depend on the order of the rows.
  for (const end of [...ends.filter(isPlaced), ...ends.filter((end) => !isPlaced(end))]) {
    if (end.unit === '') continue;
    const group = groupOf(end.unit);
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
    const roomOf = only ? only.room || roomOfRack(only.rack) : '';
    const nickname =
      only?.raw &&
      group.length === 1 &&
      end.rack === '' &&
      end.room !== '' &&
      roomOf !== '' &&
      !listedRooms.has(nameToLoose(end.room));
    if (moved || nickname) {
      const said = [end.rack || end.room, end.unit].join(' ');
      const question = moved
        ? `The unit list has it in ${only.rack}. Which is right?`
        : `The unit list has it in ${roomOf}. Is ${end.room} another name for that?`;
      if (!asked.has(said)) notebook.ask('which-is-right', end.sheet, end.row, end.column, said, question);
      asked.add(said);
      continue;
    }
    add({
      label: names(end.unit),
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
      if (end.unit === '') return null;
      const group = groupOf(end.unit);
      if (group.length === 1) return group[0] ?? null;
      const fits = group.map((unit) => fitOf(unit, end.rack, end.room, roomOfRack));
      const best = fits.includes(2) ? 2 : 1;
      return fits.filter((value) => value === best).length === 1 ? (group[fits.indexOf(best)] ?? null) : null;
    },
  };
}

/**
 * One name for each unit however its rows spell it: the unit list's, else the one that most rows use. Letters that only
 * look like figures count against a list alone; between rows they are asked about.
 */
function unitNames(listed: readonly RawUnit[], ends: readonly Located[], notebook: Notebook): (name: string) => string {
  const known = createSpellings(true);
  const listedKeys = new Set(listed.map((raw) => nameToKey(raw.label)));
  for (const raw of listed) known.add(raw.label);
  const used = new Map<string, { end: Located; times: number }>();
  for (const end of ends) {
    const key = nameToKey(end.unit);
    const entry = used.get(key);
    if (entry) entry.times += 1;
    else if (key !== '' && !listedKeys.has(key)) used.set(key, { end, times: 1 });
  }
  const names = new Map<string, string>();
  const implied = createSpellings(true);
  const most = [...used].sort(([, a], [, b]) => b.times - a.times);
  for (const [key, { end }] of most) {
    const inList = known.find(end.unit);
    const among = inList ? null : implied.find(end.unit);
    const meant = inList?.known ?? (among?.sure ? among.known : null);
    if (meant !== null) {
      names.set(key, meant);
      notebook.guess('spelling', end.sheet, end.row, end.column, end.unit, `${meant}, spelled another way`);
    } else {
      implied.add(end.unit);
      if (among) notebook.ask('spelling', end.sheet, end.row, end.column, end.unit, `Is this ${among.known}?`);
    }
  }
  return (name) => names.get(nameToKey(name)) ?? name;
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
        notebook.guess('unit', unit.sheet, unit.row, undefined, unit.label, `${label}, since the name repeats`);
      unit.label = label;
      unit.id = claim(nameToKey(label));
    }
  }
}
