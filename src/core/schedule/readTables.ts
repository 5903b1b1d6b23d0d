// A schedule's sheets to a plan: finds the lists, reads their rows, builds the document. Pure and the same on every
// machine; whatever the cells hold, it answers with data and never throws.

import type { Guess } from '../plan/model.ts';
import { nameToKey, nameToLoose } from '../trade/names.ts';
import { buildCables, joinMirrored } from './build/buildCables.ts';
import { buildCircuits, checkLandings } from './build/buildCircuits.ts';
import { buildEquipment, buildRacks } from './build/buildUnits.ts';
import { type Located, resolveUnits } from './build/resolveUnits.ts';
import { type NamedAt, tellZeros } from './build/zeros.ts';
import type { Columns } from './columns.ts';
import { countMade, type Overfull, overfullToWords } from './mostMade.ts';
import { askOddCables } from './noItems.ts';
import { notASchedule, toIgnored } from './notASchedule.ts';
import type { ReadOptions } from './readOptions.ts';
import { type KnownNames, slotKey } from './rows/endText.ts';
import { withSigns } from './rows/goneSigns.ts';
import { findKeys } from './rows/goneStyles.ts';
import { findAliases, unifyPlaces } from './rows/placeNames.ts';
import { readCableRows } from './rows/readCableRows.ts';
import { readJackRows } from './rows/readJackRows.ts';
import { type ListResult, readCircuitRows, readRackRows, readUnitRows } from './rows/readListRows.ts';
import type {
  Notebook,
  Question,
  RawCable,
  RawCircuit,
  RawEnd,
  RawJack,
  RawRack,
  RawUnit,
  ReadCounts,
  ReadPlan,
  SortedGuess,
  Table,
} from './rows/readTypes.ts';
import { tellShapes } from './shapes/tellShapes.ts';
import { columnsOf, mappingOf, tellAnswers, withAnswers } from './sheetAnswers.ts';
import { listsToPlan } from './sheetPlan.ts';
import { readOwn } from './sheets/ownRead.ts';
import { withoutStruck } from './sheets/struck.ts';
import { splitLists } from './splitLists.ts';
import { tellFileNotes, tellInferred, tellType, tellUnread } from './tellColumns.ts';

/** Rows between two words about how far it is. */
const TOLD_EVERY = 500;

type List = { table: Table; columns: Columns };

/** Rows of all lists but those of cables, in the order of the sheets. */
type ListRows = { units: RawUnit[]; jacks: RawJack[]; racks: RawRack[]; circuits: RawCircuit[] };

/** The plan has no source hash yet: whoever has the bytes sets it. */
export function readTables(given: readonly Table[], options: ReadOptions): ReadPlan {
  const own = readOwn(given, options);
  if (own) return own;
  const tables = withAnswers(withoutStruck(splitLists(given)), options.answers);
  const guesses: SortedGuess[] = [];
  const questions: Question[] = [];
  const notebook = openNotebook(options, guesses, questions);
  const found = tables.map((table) => ({ table, columns: columnsOf(table, options.answers) }));
  const recognised = found.flatMap(({ table, columns }): List[] => (columns ? [{ table, columns }] : []));
  const keys = findKeys(found);
  const lists = recognised.map((list) => ({ ...list, table: withSigns(list, keys, options.answers, notebook) }));
  if (lists.length === 0) return notASchedule(tables, options, []);
  if (options.answers) tellAnswers(lists, options.answers, notebook);
  for (const { table, columns } of lists) {
    tellFileNotes(table, columns, notebook);
    tellUnread(table, columns, options.answers, notebook);
    tellInferred(table, columns, notebook);
    tellType(table, columns, options.answers, notebook);
    tellShapes(table, columns, isMapped(table, options), notebook);
  }

  const counts = noCounts();
  const isWhole = ({ name }: Table) => tables.filter((one) => one.name === name).length === 1;
  counts.ignored = found.filter(({ columns }) => !columns).map(({ table }) => toIgnored(table, isWhole(table)));
  const rows = readLists(lists, counts, notebook);
  const cableRows = notebook.over() ? [] : readCables(lists, knownNames(rows), counts, notebook);
  const over = notebook.over();
  if (over) return { type: 'not-a-schedule', ...overfullToWords(over), where: { sheet: over.sheet, row: over.row } };
  unifyPlaces({ racks: rows.racks, units: rows.units, cables: cableRows }, findAliases(tables), notebook);
  const rawCables = joinMirrored(cableRows, notebook);
  // One row may have made several cables; it is joined when all of them are told elsewhere.
  const left = new Set(rawCables.length === cableRows.length ? [] : rawCables.map(rowOf));
  const gone = left.size === 0 ? [] : cableRows.map(rowOf).filter((row) => !left.has(row));
  counts.joined = new Set(gone).size;
  counts.used -= counts.joined;
  const lines = [rawCables, rows.units, rows.jacks, rows.racks, rows.circuits];
  if (lines.every((list) => list.length === 0)) return notASchedule(tables, options, lists);

  const built = buildLists(rows, rawCables, options, counts, notebook);
  tellZeros(rawCables.map(numberAt(lists)), '', notebook);
  inOrder(guesses, tables);
  inOrder(questions, tables);
  return {
    type: 'plan',
    guesses,
    questions,
    counts,
    plan: listsToPlan(options.name, { ...built, guesses: guesses.map(toPlanGuess) }),
  };
}

type CountingNotebook = Notebook & { over: () => Overfull | null };

function openNotebook(options: ReadOptions, guesses: SortedGuess[], questions: Question[]): CountingNotebook {
  let rowsRead = 0;
  const made = countMade();
  return {
    made: made.add,
    over: made.over,
    signalWords: options.signalWords ?? [],
    row: () => {
      rowsRead += 1;
      if (rowsRead % TOLD_EVERY === 0) options.told?.(rowsRead);
    },
    guess: (kind, sheet, row, column, said, readAs, many) =>
      guesses.push({ kind, sheet, row, ...(column === undefined ? {} : { column }), said, readAs, ...many }),
    ask: (kind, sheet, row, column, said, question, many) =>
      questions.push({ kind, sheet, row, ...(column === undefined ? {} : { column }), said, question, ...many }),
  };
}

const isMapped = (table: Table, { answers }: ReadOptions) =>
  answers !== undefined && mappingOf(table, answers) !== undefined;

/** As a plan keeps it. */
function toPlanGuess({ sheet, row, column, said, readAs }: SortedGuess): Guess {
  return { sheet, row, ...(column === undefined ? {} : { column }), said, readAs };
}

function noCounts(): ReadCounts {
  return {
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
}

function countRows(counts: ReadCounts, { table, columns }: List, read: Omit<ListResult<object>, 'items'>): void {
  const headerRow = (table.firstRow ?? 1) + columns.header;
  // What a person left out was written, and is blank to the reader alone.
  let left = 0;
  for (const row of table.left ?? []) if (row > headerRow) left += 1;
  counts.rowsIn += read.rows;
  counts.used += read.rows - read.blank - read.skipped;
  counts.blank += read.blank - left;
  counts.skipped += read.skipped + left;
  const { kind, shapes } = columns;
  counts.lists.push({ sheet: table.name, kind, headerRow, rows: read.rows, ...(shapes ? { shapes } : {}) });
}

function readLists(lists: readonly List[], counts: ReadCounts, notebook: Notebook): ListRows {
  const rows: ListRows = { units: [], jacks: [], racks: [], circuits: [] };
  for (const list of lists) {
    const { table, columns } = list;
    const into = <T>(items: T[], read: ListResult<T>) => {
      countRows(counts, list, read);
      push(items, read.items);
    };
    switch (columns.kind) {
      case 'cables':
        break;
      case 'units':
        into(rows.units, readUnitRows(table, columns, notebook));
        break;
      case 'jacks':
        into(rows.jacks, readJackRows(table, columns, notebook));
        break;
      case 'circuits':
        into(rows.circuits, readCircuitRows(table, columns, notebook));
        break;
      case 'racks':
        into(rows.racks, readRackRows(table, columns, notebook));
        break;
    }
  }
  return rows;
}

/** What the lists name, for telling the parts of an end apart. */
function knownNames({ units, jacks, racks }: ListRows): KnownNames {
  const unitLabels = [...units.map((unit) => unit.label), ...jacks.map((jack) => jack.unit)];
  return {
    units: new Set(unitLabels.map(nameToKey)),
    loose: new Set(unitLabels.map(nameToLoose)),
    racks: new Set(
      [...racks.map((rack) => rack.label), ...units.map((unit) => unit.rack)]
        .map(nameToKey)
        .filter((key) => key !== ''),
    ),
    slots: new Map(
      units.flatMap(({ rack, u, heightU, label }) =>
        rack === '' || u === null
          ? []
          : Array.from({ length: heightU }, (_, i): [string, string] => [slotKey(rack, u + i), label]),
      ),
    ),
  };
}

function readCables(lists: readonly List[], known: KnownNames, counts: ReadCounts, notebook: Notebook): RawCable[] {
  const cables: RawCable[] = [];
  for (const list of lists) {
    if (list.columns.kind !== 'cables') continue;
    const read = readCableRows(list.table, list.columns, known, notebook);
    countRows(counts, list, read);
    askOddCables(list, read.cables, (label) => known.units.has(nameToKey(label)), notebook);
    push(cables, read.cables);
  }
  return cables;
}

/** Rows that are read to the lists of a plan. */
function buildLists(
  rows: ListRows,
  rawCables: readonly RawCable[],
  options: ReadOptions,
  counts: ReadCounts,
  notebook: Notebook,
) {
  const ends: (Located & Pick<RawEnd, 'passage'>)[] = rawCables.flatMap((cable) =>
    [...cable.from, ...cable.to].map((end) => ({ ...end, sheet: cable.sheet, row: cable.row })),
  );
  const rooms = rackRooms(rows.racks, rows.units, ends);
  const jackEnds: Located[] = rows.jacks.map((row) => ({ ...row, rack: '', room: '', u: null, column: undefined }));
  const units = resolveUnits(rows.units, [...ends, ...jackEnds], (rack) => rooms.get(nameToKey(rack)) ?? '', notebook);
  const passed = new Set(ends.flatMap((end) => (end.passage ? (units.find(end)?.id ?? []) : [])));
  const equipment = buildEquipment(units, rows.jacks, notebook, passed);
  counts.used -= equipment.unplaced;
  counts.skipped += equipment.unplaced;
  const cables = buildCables(rawCables, units, equipment, notebook);
  equipment.tellZeros();
  checkLandings(equipment.placed, cables, notebook);
  const hopped = cables.length > 0 ? cables : (options.cablesInForce ?? []).map((cable) => ({ ...cable }));
  const circuits = buildCircuits(rows.circuits, hopped, notebook);
  const jacks = [...equipment.jacks.values()];
  const racks = buildRacks(rows.racks, units.all, rooms, options.numbering ?? 'bottom-up', notebook);
  counts.cables = cables.length;
  counts.units = equipment.units.length;
  counts.jacks = jacks.length;
  const { settings, routes } = equipment;
  return { racks, units: equipment.units, jacks, cables, settings, routes, circuits };
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

/** Where a cable's number stands. */
function numberAt(lists: readonly List[]): (cable: RawCable) => NamedAt {
  const titles = new Map(
    lists.map(({ table, columns }) => [table.name, columns.titles[columns.at.get('number') ?? -1]] as const),
  );
  return ({ label, sheet, row }) => ({ label, sheet, row, column: titles.get(sheet) });
}

const rowOf = ({ sheet, row }: RawCable) => `${row} ${sheet}`;

/** As the file has them: by sheet, by row, and within a row in the order in which they were read. */
function inOrder(items: { sheet: string; row: number }[], tables: readonly Table[]): void {
  const order = new Map(tables.map((table, i) => [table.name, i]));
  const at = ({ sheet }: { sheet: string }) => order.get(sheet) ?? tables.length;
  items.sort((a, b) => at(a) - at(b) || a.row - b.row);
}

/** Spreading a list of many thousand rows into one call would overflow the stack. */
function push<T>(list: T[], items: readonly T[]): void {
  for (const item of items) list.push(item);
}
