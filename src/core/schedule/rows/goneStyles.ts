// The styles in which a sheet says that rows are not there any more: struck through, a colour that a key explains, words
// under Status, notes, comments, hidden rows, the sheet's own name. Finds them, and judges nothing: a person is asked once
// for each style.
//
// Limits: A key of colours is a cell of that colour, or one beside it, with words and little else in its row.
import type { Columns } from '../columns.ts';
import { saysGone, sheetSaysOld } from '../goneWords.ts';
import type { GoneStyle, SheetMark, Table } from './readTypes.ts';

/** Rows of one list that say it in the same style. */
export interface GoneRows {
  style: GoneStyle;
  rows: number[];
  /** What stands there: words, or what the key calls the colour; '' where nothing is said. */
  said: string[];
  /** What each row keeps as a note while nobody has answered. */
  note: (row: number) => string;
}

/** Cells that are filled at least in a row that is an item, and at most in one of a key. */
const ITEM_CELLS = 2;
const KEY_CELLS = 2;
/** A colour on more of the rows than this only bands them. */
const MOST_FILLED = 0.4;

/** What colours mean by the keys of a file: a key may stand on a sheet of its own. */
export function findKeys(lists: readonly { table: Table; columns: Columns | null }[]): ReadonlyMap<string, string> {
  const keys = new Map<string, string>();
  for (const { table, columns } of lists) {
    const first = table.firstRow ?? 1;
    for (const { type, row, column, to, said } of table.shown ?? []) {
      const i = row - first;
      const cells = table.rows[i] ?? [];
      if (type !== 'fill' || keys.has(said) || i === columns?.header || filledIn(cells) > KEY_CELLS) continue;
      // A cell of the colour alone is explained by the next one.
      const words = [...cells.slice(column - 1, to), cells[to], cells[to + 1]].find(
        (cell) => (cell ?? '').trim() !== '',
      );
      if (words !== undefined) keys.set(said, words.trim());
    }
  }
  return keys;
}

/** Each row in the first style that it has, so that nobody is asked twice about it. */
export function findGone(table: Table, columns: Columns, keys: ReadonlyMap<string, string>): GoneRows[] {
  const items = itemRows(table, columns);
  const found = new Map<GoneStyle, GoneRows>();
  const taken = new Set<number>();
  const add = (style: GoneStyle, row: number, said: string, note: (row: number) => string) => {
    if (taken.has(row) || !items.has(row)) return;
    taken.add(row);
    const group = found.get(style) ?? { style, rows: [], said: [], note };
    found.set(style, group);
    group.rows.push(row);
    if (said !== '' && !group.said.includes(said) && group.said.length < 12) group.said.push(said);
  };
  if (sheetSaysOld(table.name)) for (const row of items.keys()) add('sheet', row, table.name, () => table.name);
  const marks = byRow(table.shown ?? []);
  for (const [row, filled] of items)
    if (isStruck(marks.get(row), filled)) add('struck', row, '', () => 'struck through');
  const first = table.firstRow ?? 1;
  const cell = (row: number, meaning: string) => table.rows[row - first]?.[columns.at.get(meaning) ?? -1]?.trim() ?? '';
  const isLiteral = (row: number, meaning: string) =>
    table.literal?.has(`${row} ${(columns.at.get(meaning) ?? -1) + 1}`) === true;
  for (const meaning of ['status', 'notes'] as const) {
    if (!columns.at.has(meaning)) continue;
    for (const row of items.keys()) {
      const text = cell(row, meaning);
      // Notes are kept as they are; a status has no other place.
      const note = meaning === 'status' ? (at: number) => `status ${cell(at, 'status')}` : () => '';
      if (text !== '' && saysGone(text) && !isLiteral(row, meaning)) add(meaning, row, text, note);
    }
  }
  for (const [row, list] of marks) {
    const comment = list.find(({ type, said }) => type === 'comment' && saysGone(said));
    if (comment) add('comments', row, comment.said, () => '');
  }
  for (const [colour, rows] of filledRows(marks, items)) {
    const key = keys.get(colour) ?? '';
    for (const row of rows) add(`fill ${colour}`, row, key, () => (key === '' ? '' : `${key} by its colour`));
  }
  for (const [row, list] of marks)
    if (list.some(({ type }) => type === 'hidden')) add('hidden', row, '', () => 'hidden row');
  return [...found.values()];
}

/** Rows below the header that may be items, with the columns that are filled there. */
function itemRows(table: Table, { header }: Columns): Map<number, number[]> {
  const first = table.firstRow ?? 1;
  const items = new Map<number, number[]>();
  for (let i = header + 1; i < table.rows.length; i += 1) {
    const filled = (table.rows[i] ?? []).flatMap((cell, column) => (cell.trim() === '' ? [] : [column + 1]));
    if (filled.length >= ITEM_CELLS) items.set(first + i, filled);
  }
  return items;
}

function byRow(marks: readonly SheetMark[]): Map<number, SheetMark[]> {
  const rows = new Map<number, SheetMark[]>();
  for (const mark of marks) {
    const list = rows.get(mark.row);
    if (list) list.push(mark);
    else rows.set(mark.row, [mark]);
  }
  return new Map([...rows].sort(([a], [b]) => a - b));
}

/** What is said of each column by the marks of one type. */
function byColumn(marks: readonly SheetMark[] | undefined, type: SheetMark['type']): Map<number, string> {
  const columns = new Map<number, string>();
  for (const mark of marks ?? []) {
    if (mark.type !== type) continue;
    for (let at = mark.column; at <= mark.to; at += 1) columns.set(at, mark.said);
  }
  return columns;
}

/** Most of what stands in the row: a word why, or the new place behind it, is not struck with it. */
export function isStruck(marks: readonly SheetMark[] | undefined, filled: readonly number[]): boolean {
  const struck = byColumn(marks, 'struck');
  return struck.size > 0 && filled.filter((at) => struck.has(at)).length * 2 > filled.length;
}

/** Rows by the colour of most of their cells; colours that only band a list are none. */
function filledRows(
  marks: ReadonlyMap<number, SheetMark[]>,
  items: ReadonlyMap<number, readonly number[]>,
): Map<string, number[]> {
  const colours = new Map<string, number[]>();
  for (const [row, filled] of items) {
    const fills = byColumn(marks.get(row), 'fill');
    if (fills.size === 0) continue;
    const counts = new Map<string, number>();
    for (const at of filled) {
      const colour = fills.get(at);
      if (colour !== undefined) counts.set(colour, (counts.get(colour) ?? 0) + 1);
    }
    for (const [colour, n] of counts) {
      if (n * 2 <= filled.length) continue;
      const rows = colours.get(colour);
      if (rows) rows.push(row);
      else colours.set(colour, [row]);
    }
  }
  for (const [colour, rows] of colours) if (rows.length > Math.max(1, items.size * MOST_FILLED)) colours.delete(colour);
  return colours;
}

function filledIn(cells: readonly string[]): number {
  let filled = 0;
  for (const cell of cells) if (cell.trim() !== '') filled += 1;
  return filled;
}
