// A schedule's sheets to a plan: finds the lists, reads their rows, builds the document. Pure and the same on every
// machine; whatever the cells hold, it answers with data and never throws.

import type { Guess } from '../plan/model.ts';
import { nameToKey, nameToLoose } from '../trade/names.ts';
import { buildCables, joinMirrored } from './build/buildCables.ts';
import { buildCircuits, checkLandings } from './build/buildCircuits.ts';
import { buildEquipment, buildRacks } from './build/buildUnits.ts';
import { type Located, resolveUnits } from './build/resolveUnits.ts';
import type { Columns } from './columns.ts';
import { notASchedule } from './notASchedule.ts';
import type { ReadOptions } from './readOptions.ts';
import { slotKey } from './rows/endText.ts';
import { findAliases, unifyPlaces } from './rows/placeNames.ts';
import { readCableRows } from './rows/readCableRows.ts';
import { readJackRows } from './rows/readJackRows.ts';
import { readCircuitRows, readRackRows, readUnitRows } from './rows/readListRows.ts';
import type {
  Notebook,
  Question,
  RawCable,
  RawCircuit,
  RawJack,
  RawRack,
  RawUnit,
  ReadCounts,
  ReadPlan,
  Table,
} from './rows/readTypes.ts';
import { columnsOf, mappingOf, type SheetAnswers, tellAnswers, withAnswers } from './sheetAnswers.ts';
import { listsToPlan } from './sheetPlan.ts';
import { readOwn } from './sheets/ownRead.ts';
import { withoutStruck } from './sheets/struck.ts';
import { splitLists } from './splitLists.ts';
import { typeReadAsSignal } from './typeColumn.ts';

/** Rows between two words about how far it is. */
const TOLD_EVERY = 500;

/** The plan has no source hash yet: whoever has the bytes sets it. */
export function readTables(given: readonly Table[], options: ReadOptions): ReadPlan {
  const own = readOwn(given, options);
  if (own) return own;
  const tables = withAnswers(withoutStruck(splitLists(given)), options.answers);
  const guesses: Guess[] = [];
  const questions: Question[] = [];
  let rowsRead = 0;
  const notebook: Notebook = {
    signalWords: options.signalWords ?? [],
    row: () => {
      rowsRead += 1;
      if (rowsRead % TOLD_EVERY === 0) options.told?.(rowsRead);
    },
    guess: (sheet, row, column, said, readAs) =>
      guesses.push({ sheet, row, ...(column === undefined ? {} : { column }), said, readAs }),
    ask: (sheet, row, column, said, question) =>
      questions.push({ sheet, row, ...(column === undefined ? {} : { column }), said, question }),
  };
  const found = tables.map((table) => ({ table, columns: columnsOf(table, options.answers) }));
  const lists = found.flatMap(({ table, columns }) => (columns ? [{ table, columns }] : []));
  if (lists.length === 0) return notASchedule(tables, options, []);
  if (options.answers) tellAnswers(lists, options.answers, notebook);
  for (const { table, columns } of lists) {
    tellFileNotes(table, columns, notebook);
    tellUnread(table, columns, notebook);
    tellType(table, columns, options.answers, notebook);
  }

  const counts: ReadCounts = {
    rowsIn: 0,
    cables: 0,
    units: 0,
    jacks: 0,
    used: 0,
    blank: 0,
    joined: 0,
    skipped: 0,
    lists: [],
    ignored: [],
  };
  const isWhole = ({ name }: Table) => tables.filter((one) => one.name === name).length === 1;
  counts.ignored = found
    .filter(({ columns }) => !columns)
    .map(({ table }) => (isWhole(table) ? table.name : `${table.name} from row ${table.firstRow ?? 1}`));
  const count = (table: Table, columns: Columns, read: { rows: number; blank: number; skipped: number }) => {
    counts.rowsIn += read.rows;
    counts.used += read.rows - read.blank - read.skipped;
    counts.blank += read.blank;
    counts.skipped += read.skipped;
    const headerRow = (table.firstRow ?? 1) + columns.header;
    counts.lists.push({ sheet: table.name, kind: columns.kind, headerRow, rows: read.rows });
  };

  const unitRows: RawUnit[] = [];
  const jackRows: RawJack[] = [];
  const rackRows: RawRack[] = [];
  const circuitRows: RawCircuit[] = [];
  for (const { table, columns } of lists) {
    if (columns.kind === 'cables') continue;
    const list =
      columns.kind === 'units'
        ? readUnitRows(table, columns, notebook)
        : columns.kind === 'jacks'
          ? readJackRows(table, columns, notebook)
          : columns.kind === 'circuits'
            ? readCircuitRows(table, columns, notebook)
            : readRackRows(table, columns, notebook);
    count(table, columns, list);
    if (columns.kind === 'units') push(unitRows, list.items as RawUnit[]);
    else if (columns.kind === 'jacks') push(jackRows, list.items as RawJack[]);
    else if (columns.kind === 'circuits') push(circuitRows, list.items as RawCircuit[]);
    else push(rackRows, list.items as RawRack[]);
  }

  const unitLabels = [...unitRows.map((unit) => unit.label), ...jackRows.map((jack) => jack.unit)];
  const known = {
    units: new Set(unitLabels.map(nameToKey)),
    loose: new Set(unitLabels.map(nameToLoose)),
    racks: new Set(
      [...rackRows.map((rack) => rack.label), ...unitRows.map((unit) => unit.rack)]
        .map(nameToKey)
        .filter((key) => key !== ''),
    ),
    slots: new Map(
      unitRows.flatMap(({ rack, u, heightU, label }) =>
        rack === '' || u === null
          ? []
          : Array.from({ length: heightU }, (_, i): [string, string] => [slotKey(rack, u + i), label]),
      ),
    ),
  };
  const cableRows: RawCable[] = [];
  for (const { table, columns } of lists) {
    if (columns.kind !== 'cables') continue;
    const read = readCableRows(table, columns, known, notebook);
    count(table, columns, read);
    push(cableRows, read.cables);
  }
  unifyPlaces({ racks: rackRows, units: unitRows, cables: cableRows }, findAliases(tables), notebook);
  const rawCables = joinMirrored(cableRows, notebook);
  // One row may have made several cables; it is joined when all of them are told elsewhere.
  const left = new Set(rawCables.length === cableRows.length ? [] : rawCables.map(rowOf));
  const gone = left.size === 0 ? [] : cableRows.map(rowOf).filter((row) => !left.has(row));
  counts.joined = new Set(gone).size;
  counts.used -= counts.joined;
  const lines = [rawCables, unitRows, jackRows, rackRows, circuitRows];
  if (lines.every((list) => list.length === 0)) return notASchedule(tables, options, lists);

  const ends: Located[] = rawCables.flatMap((cable) =>
    [...cable.from, ...cable.to].map((end) => ({ ...end, sheet: cable.sheet, row: cable.row })),
  );
  const rooms = rackRooms(rackRows, unitRows, ends);
  const jackEnds: Located[] = jackRows.map((row) => ({ ...row, rack: '', room: '', u: null, column: undefined }));
  const units = resolveUnits(unitRows, [...ends, ...jackEnds], (rack) => rooms.get(nameToKey(rack)) ?? '', notebook);
  const equipment = buildEquipment(units, jackRows, notebook);
  counts.used -= equipment.unplaced;
  counts.skipped += equipment.unplaced;
  const cables = buildCables(rawCables, units, equipment, notebook);
  checkLandings(equipment.placed, cables, notebook);
  const hopped = cables.length > 0 ? cables : (options.cablesInForce ?? []).map((cable) => ({ ...cable }));
  const circuits = buildCircuits(circuitRows, hopped, notebook);
  const jacks = [...equipment.jacks.values()];
  const racks = buildRacks(rackRows, units.all, rooms, options.numbering ?? 'bottom-up', notebook);
  counts.cables = cables.length;
  counts.units = equipment.units.length;
  counts.jacks = jacks.length;
  inOrder(guesses, tables);
  inOrder(questions, tables);
  return {
    type: 'plan',
    guesses,
    questions,
    counts,
    plan: listsToPlan(options.name, {
      racks,
      units: equipment.units,
      jacks,
      cables,
      settings: equipment.settings,
      routes: equipment.routes,
      circuits,
      guesses,
    }),
  };
}

/** Room of each rack, by key: the rack list's word first, then the unit list's, then the cables'. */
function rackRooms(
  racks: readonly RawRack[],
  units: readonly RawUnit[],
  ends: readonly Located[],
): Map<string, string> {
  const rooms = new Map<string, string>();
  const add = (rack: string, room: string) => {
    const key = nameToKey(rack);
    if (rack !== '' && room !== '' && !rooms.has(key)) rooms.set(key, room);
  };
  for (const { label, room } of racks) add(label, room);
  for (const { rack, room } of units) add(rack, room);
  for (const { rack, room } of ends) add(rack, room);
  return rooms;
}

const rowOf = ({ sheet, row }: RawCable) => `${row} ${sheet}`;

/** As the file has them: by sheet, by row, and within a row in the order in which they were read. */
function inOrder(items: { sheet: string; row: number }[], tables: readonly Table[]): void {
  const order = new Map(tables.map((table, i) => [table.name, i]));
  const at = ({ sheet }: { sheet: string }) => order.get(sheet) ?? tables.length;
  items.sort((a, b) => at(a) - at(b) || a.row - b.row);
}

/** Columns that no meaning was found for: said once each, since what stands in them is not in the plan. */
function tellUnread(table: Table, columns: Columns, notebook: Notebook): void {
  const read = new Set(columns.at.values());
  const first = table.firstRow ?? 1;
  const rows = table.rows.slice(columns.header + 1);
  const width = Math.max(columns.titles.length, ...table.rows.slice(0, 200).map((row) => row.length));
  for (let column = 0; column < width; column += 1) {
    if (read.has(column)) continue;
    const row = rows.findIndex((cells) => (cells[column] ?? '').trim() !== '');
    if (row < 0) continue;
    const title = columns.titles[column] ?? '';
    const readAs = title === '' ? 'a column without a name, which is not read' : 'a column that is not read';
    const at = first + columns.header + (title === '' ? 1 + row : 0);
    notebook.guess(table.name, at, title, title || (rows[row]?.[column] ?? ''), readAs);
  }
}

/** A column called Type that holds signals was recognised by its cells alone. */
function tellType(table: Table, columns: Columns, answers: SheetAnswers | undefined, notebook: Notebook): void {
  const title = typeReadAsSignal(columns);
  if (title === null || (answers && mappingOf(table, answers))) return;
  const row = (table.firstRow ?? 1) + columns.header;
  notebook.guess(table.name, row, title, title, 'signal of the cable, since its cells name signals');
}

/** Spreading a list of many thousand rows into one call would overflow the stack. */
function push<T>(list: T[], items: readonly T[]): void {
  for (const item of items) list.push(item);
}

/** Meanings of columns in which a yes or no is what it should be. */
const YES_OR_NO = ['onAir', 'phantom', 'spare', 'mult', 'share', 'pad'];

/** What the file reader had to guess counts where the cell is a number or a name, not in a length or a date column. */
function tellFileNotes(table: Table, columns: Columns, notebook: Notebook): void {
  const free = new Set(['length', 'notes', 'u', 'fromU', 'toU', 'uTop', 'height', 'gain', 'status', ...YES_OR_NO]);
  const meanings = new Map([...columns.at].map(([meaning, column]) => [column, meaning]));
  for (const note of table.notes ?? []) {
    // Column 0 is the whole row or sheet.
    if (note.column === 0) notebook.guess(table.name, note.row, undefined, note.said, note.readAs);
    const meaning = meanings.get(note.column - 1);
    if (meaning === undefined || free.has(meaning)) continue;
    notebook.guess(table.name, note.row, columns.titles[note.column - 1], note.said, note.readAs);
  }
}
