// The rows of a cable list as the plan wants them: which line holds which cable, what is written into its cells, and
// whether it was read back as meant.

import { placeToParts, unitOf } from '../../plan/identity.ts';
import type { Cable, CableEnd, Plan, Unit } from '../../plan/model.ts';
import type { Columns } from '../columns.ts';
import type { Table } from '../rows/readTypes.ts';
import { textToStatus } from '../words.ts';
import type { Layout, Written } from './redlineLayout.ts';
import { STRUCK } from './struck.ts';

export interface CableList {
  table: Table;
  columns: Columns;
}

export interface Line {
  list: CableList;
  /** Cells of the source; of a new line, none. */
  before: readonly string[];
  cells: string[];
  /** Cables that this line is to say; none for a heading, and for a struck row. */
  cables: Cable[];
  /** The row of the list that it stands in or is like, counted from 0. */
  like: number;
  /** By column. */
  marks: Map<number, 'changed' | 'removed'>;
  note: string;
  /** Lines that a row of several cables was taken apart into. */
  more: Line[];
  /** It stands for no row of the source. */
  isNew: boolean;
}

/** How thoroughly a row is written: 0 its changed cells, 1 all of them, 2 all, with the unit's own place. */
export type Attempt = 0 | 1 | 2;

export function rowKey(sheet: string, row: number): string {
  return `${sheet}\n${row}`;
}

type Rows = ReadonlyMap<string, readonly Cable[]>;

type Both = { base: Names; plan: Names };

export function createLines({ base, plan }: { base: Plan; plan: Plan }) {
  const both: Both = { base: namesOf(base), plan: namesOf(plan) };

  return {
    begin: (list: CableList, was: Rows, is: Rows) => begin(both, list, was, is),
    append: (lines: Line[], list: CableList, cables: readonly Cable[]) => append(both, lines, list, cables),
    wrongLines: (back: Plan, rowOf: Layout['rowOf'], lists: readonly (Line[] | null)[]) =>
      wrongLines(both, back, rowOf, lists),
    rewrite: (line: Line, attempt: Attempt) => rewrite(both, line, attempt),
  };
}

function strike(line: Line): Line {
  line.cells.forEach((cell, column) => {
    if (cell !== '') line.marks.set(column, 'removed');
  });
  return { ...line, cables: [], note: `${STRUCK}no longer in the plan` };
}

/** A row for several cables becomes one row for each. */
function takeApart(both: Both, line: Line): void {
  const [first, ...rest] = line.cables;
  if (!first) return;
  const said = [...line.cells];
  line.cables = [first];
  writeWhole(both, line, first, 1);
  line.more = rest.map((cable) => {
    const next: Line = { ...line, cells: [...said], cables: [cable], marks: new Map(), note: '', more: [] };
    writeWhole(both, next, cable, 1);
    return next;
  });
}

function amend(both: Both, line: Line, old: Cable, now: Cable): void {
  const [before, after] = [cellsOf(line, both.base, old, 0), cellsOf(line, both.plan, now, 0)];
  for (const [column, text] of after) if (before.get(column) !== text) put(line, column, text);
}

function writeWhole(both: Both, line: Line, cable: Cable, attempt: Attempt): void {
  for (const [column, text] of cellsOf(line, both.plan, cable, attempt)) {
    // A cell that only repeats the one above is written out, which amends nothing.
    const [was, is] = [line.before[column] ?? '', text];
    if ((line.cells[column] ?? '') === is) continue;
    if (was === is) line.cells[column] = is;
    else put(line, column, is);
  }
}

function put(line: Line, column: number, text: string): void {
  while (line.cells.length <= column) line.cells.push('');
  const was = line.before[column] ?? '';
  line.cells[column] = text;
  line.marks.set(column, 'changed');
  if (line.before.length === 0) return;
  const title = line.list.columns.titles[column] ?? '';
  const said = `${title}: was ${was === '' ? 'blank' : was}`;
  const others = line.note.split('; ').filter((note) => note !== '' && !note.startsWith(`${title}: was `));
  line.note = [...others, said].join('; ');
}

/** Every row of the list, amended where the plan says something else. */
function begin(both: Both, list: CableList, was: Rows, is: Rows): Line[] {
  const first = list.table.firstRow ?? 1;
  return list.table.rows.map((before, i): Line => {
    const key = rowKey(list.table.name, first + i);
    const [old, now] = [was.get(key) ?? [], is.get(key) ?? []];
    const line: Line = {
      list,
      before,
      cells: [...before],
      cables: [...now],
      like: i,
      marks: new Map(),
      note: '',
      more: [],
      isNew: false,
    };
    if (i <= list.columns.header || old.length === 0) return { ...line, cables: [] };
    if (now.length === 0) return strike(line);
    const same = old.length === now.length && old.every((one, k) => isSame(both.base, one, both.plan, now[k]!));
    if (same) return line;
    if (old.length === 1 && now.length === 1) amend(both, line, old[0]!, now[0]!);
    else takeApart(both, line);
    return line;
  });
}

/** New rows stand at the end, like the last row that tells of a cable. */
function append(both: Both, lines: Line[], list: CableList, cables: readonly Cable[]): void {
  const isCable = (line: Line) => line.cables.length > 0 || line.note !== '';
  const like = Math.max(lines.findLastIndex(isCable), 0);
  for (const cable of cables) {
    const line: Line = {
      ...{ list, before: [], cells: [], cables: [cable], like, marks: new Map(), note: 'Added', more: [] },
      isNew: true,
    };
    writeWhole(both, line, cable, 1);
    lines.push(line);
  }
}

/**
 * Lines that are not read as the cables they stand for.
 * @param back What the written tables are read as.
 */
function wrongLines(both: Both, back: Plan, rowOf: Layout['rowOf'], lists: readonly (Line[] | null)[]): Line[] {
  const found = namesOf(back);
  const rows = new Map<string, Cable[]>();
  for (const cable of back.cables) {
    const key = cable.origin ? rowKey(cable.origin.sheet, cable.origin.row) : '';
    const list = rows.get(key);
    if (list) list.push(cable);
    else rows.set(key, [cable]);
  }
  return lists.flatMap((lines, i) =>
    flatten(lines ?? []).filter((line, k) => {
      const read = rows.get(rowKey(line.list.table.name, rowOf(i, k))) ?? [];
      return !(
        read.length === line.cables.length && read.every((one, n) => isSame(found, one, both.plan, line.cables[n]!))
      );
    }),
  );
}

/** @returns whether it says anything else now. */
function rewrite(both: Both, line: Line, attempt: Attempt): boolean {
  const [only, ...others] = line.cables;
  if (!only) return false;
  const before = line.cells.join('\n');
  if (others.length > 0) takeApart(both, line);
  else writeWhole(both, line, only, attempt);
  return others.length > 0 || line.cells.join('\n') !== before;
}

/** Lines in the order in which they stand: those of the source, what was taken out of them, what is new. */
export function flatten(lines: readonly Line[]): Line[] {
  const own = lines.filter(({ isNew }) => !isNew);
  return [...own, ...own.flatMap(({ more }) => more), ...lines.filter(({ isNew }) => isNew)];
}

export function linesToTable({ table, columns }: CableList, lines: readonly Line[], title: string): Written {
  const all = flatten(lines);
  const marks = new Map<string, 'changed' | 'removed'>();
  const like = new Map<number, number>();
  const width = all.reduce((most, { cells }) => Math.max(most, cells.length), columns.titles.length);
  const known = columns.titles.indexOf(title);
  const noted = known >= 0 ? known : width;
  const isNoted = all.some(({ note }) => note !== '');
  const rows = all.map((line, row) => {
    for (const [column, mark] of line.marks) marks.set(`${row},${column}`, mark);
    if (row >= table.rows.length) like.set(row, line.like);
    if (!isNoted) return line.cells;
    const cells = [...line.cells];
    // What was struck before stays struck.
    const text = row === columns.header ? title : line.note || struckBefore(cells[noted]);
    if (text === '' && (known < 0 || (cells[noted] ?? '') === '')) return cells;
    while (cells.length <= noted) cells.push('');
    cells[noted] = text;
    return cells;
  });
  return { ...table, rows, marks, like, header: columns.header };
}

const struckBefore = (note = '') => (note.startsWith(STRUCK) ? note : '');

interface Names {
  unit(id: string): Unit | undefined;
  /** A place by the names that people read. */
  place(id: string): string;
  rack(id: string): string;
}

function namesOf(plan: Plan): Names {
  const units = new Map(plan.units.map((unit) => [unit.id, unit]));
  const jacks = new Map(plan.jacks.map((jack) => [jack.id, jack.label]));
  const racks = new Map(plan.racks.map((rack) => [rack.id, rack.label]));
  return {
    unit: (id) => units.get(id),
    rack: (id) => racks.get(id) ?? id,
    place(id) {
      const parts = placeToParts(id);
      if (parts.type !== 'jack') return id;
      return `${units.get(parts.unit)?.label ?? parts.unit}\n${jacks.get(id) ?? parts.jack}`;
    },
  };
}

/** The same cable by what people read of it; other words for one place are no difference. */
function isSame(a: Names, one: Cable, b: Names, other: Cable): boolean {
  return (
    FACTS.every((fact) => (one[fact] ?? '') === (other[fact] ?? '')) &&
    one.ends.length === other.ends.length &&
    one.ends.every((end, i) => {
      const twin = other.ends[i]!;
      return end.end === twin.end && end.connector === twin.connector && wordsOf(a, end) === wordsOf(b, twin);
    })
  );
}

const FACTS = ['label', 'signalText', 'circuit', 'type', 'length', 'leg', 'status', 'onAir', 'notes'] as const;

function wordsOf(names: Names, end: CableEnd): string {
  return end.place === null ? `?${end.unit} ${end.jack}` : names.place(end.place);
}

const LEGS = { left: 'L', right: 'R', both: 'L/R', mono: 'mono' } as const;

/** What each column of the list is to say for a cable. Columns that the reader does not know are left alone. */
function cellsOf(line: Line, names: Names, cable: Cable, attempt: Attempt): Map<number, string> {
  const { at } = line.list.columns;
  const cells = new Map<number, string>();
  const set = (meaning: string, text: string) => {
    const column = at.get(meaning);
    if (column !== undefined) cells.set(column, text);
  };
  set('number', cable.label);
  for (const [side, letter] of [
    ['from', 'A'],
    ['to', 'B'],
  ] as const) {
    const end = cable.ends.find((one) => one.end === letter);
    setEnd(side, end);
  }
  set('signal', cable.signalText ?? '');
  set('circuit', cable.circuit ?? '');
  set('cableType', cable.type ?? '');
  if (at.has('cableType')) set('colour', '');
  else set('colour', cable.type ?? '');
  set('length', cable.length ?? '');
  set('leg', cable.leg ? LEGS[cable.leg] : '');
  const status = line.before[at.get('status') ?? -1] ?? '';
  const keeps = (textToStatus(status) ?? 'in-use') === cable.status;
  set('status', keeps ? status : cable.status === 'in-use' ? '' : cable.status);
  set('notes', cable.notes ?? '');
  if (at.has('notes')) set('via', '');
  return cells;

  function setEnd(side: 'from' | 'to', end: CableEnd | undefined): void {
    const unit = end?.place == null ? undefined : names.unit(unitOf(end.place));
    const rack = unit?.rack === undefined ? '' : names.rack(unit.rack);
    const own = rack || unit?.room || '';
    const location = end?.location ?? (attempt === 2 || at.has(side) ? own : '');
    // A name that repeats bears its place in front, which stands in a cell of its own here.
    const bare =
      attempt === 2 && unit && own !== '' && end?.unit.startsWith(`${own} `)
        ? end.unit.slice(own.length + 1)
        : end?.unit;
    set(`${side}Location`, location);
    set(`${side}Rack`, rack);
    set(`${side}Room`, unit?.room ?? (rack === '' ? location : ''));
    set(`${side}Unit`, bare ?? '');
    set(`${side}Jack`, end?.jack ?? '');
    set(`${side}Connector`, end?.connector ?? '');
    const whole = [location, bare, at.has(`${side}Jack`) ? '' : end?.jack];
    set(side, whole.filter(Boolean).join(' '));
  }
}
