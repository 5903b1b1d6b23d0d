// What a person said about a sheet: which column means what, and what single cells say. Pure data, put over the tables
// before they are read, so that the same file with the same answers gives the same plan.
//
// Limits: A word that means the same in every row is guessed once, at its first row. What a person agreed to while
// bringing in is kept until the plan is taken and is no part of it. Remembered columns and answers are of one phone. An
// answer for every cell of a column means that column in all lists of the sheet.
import { type Columns, columnsAs, findColumns, SEARCHED_ROWS, titleToKey } from './columns.ts';
import type { ListKind } from './meanings.ts';
import type { Notebook, SortedGuess, Table } from './rows/readTypes.ts';
import { typeAsSignal } from './typeColumn.ts';

/** How one sheet is to be taken. */
export interface SheetMapping {
  sheet: string;
  /** Null: no list, left out. */
  kind: ListKind | null;
  /** Number of the header row as the spreadsheet shows it. */
  headerRow: number;
  /** Columns from 1 with what they mean; null: by their names. A column that is not named is not read. */
  columns: { column: number; meaning: string }[] | null;
}

/** What a cell is to say. */
export interface CellAnswer {
  sheet: string;
  /** From 1. */
  column: number;
  /** Null: every cell of the column below the header that says the same. */
  row: number | null;
  /** What the file has there. */
  said: string;
  /** `typed`: read `text` in its place; `literal`: the cell is one name as it stands, blank stays blank. */
  as: 'typed' | 'literal';
  text: string;
}

export interface SheetAnswers {
  mappings: SheetMapping[];
  cells: CellAnswer[];
}
export const NO_ANSWERS: SheetAnswers = { mappings: [], cells: [] };

/** Columns that a person chose for sheets with this header, whatever the file. */
export interface RememberedShape {
  /** Titles of the header row, folded. */
  key: string;
  kind: ListKind | null;
  columns: { column: number; meaning: string }[] | null;
  /** When it was chosen, milliseconds since 1970. */
  at: number;
}

/** Sheets of one shape have the same titles in the same order, however they are written. */
export function shapeKey(titles: readonly string[]): string {
  return titles.map(titleToKey).join('\t').replace(/\t+$/, '');
}

/** The mappings that were chosen before for sheets of these shapes. */
export function rememberedMappings(
  tables: readonly Table[],
  shapes: readonly RememberedShape[],
): { mapping: SheetMapping; at: number }[] {
  const byKey = new Map(shapes.map((shape) => [shape.key, shape]));
  byKey.delete('');
  return tables.flatMap((table) => {
    const first = table.firstRow ?? 1;
    for (const [i, row] of table.rows.slice(0, SEARCHED_ROWS).entries()) {
      const shape = byKey.get(shapeKey(row));
      if (!shape) continue;
      const { kind, columns, at } = shape;
      return [{ mapping: { sheet: table.name, kind, headerRow: first + i, columns }, at }];
    }
    return [];
  });
}

/** A sheet may hold several lists, each a table of its own rows: which of them has this row? */
export function holdsRow(table: Table, sheet: string, row: number): boolean {
  const first = table.firstRow ?? 1;
  return table.name === sheet && row >= first && row < first + Math.max(table.rows.length, 1);
}

/** What a person said of this very list of the sheet. */
export function mappingOf(table: Table, { mappings }: SheetAnswers): SheetMapping | undefined {
  return mappings.find(({ sheet, headerRow }) => holdsRow(table, sheet, headerRow));
}

/** How a table is to be taken: as a person said, else by the names of its columns. */
export function columnsOf(table: Table, answers: SheetAnswers | undefined): Columns | null {
  const mapping = answers && mappingOf(table, answers);
  if (!mapping) {
    const found = findColumns(table.rows);
    return found && typeAsSignal(found, table.rows);
  }
  const header = mapping.headerRow - (table.firstRow ?? 1);
  const titles = table.rows[header];
  if (mapping.kind === null || !titles) return null;
  const at = mapping.columns
    ? new Map(mapping.columns.map(({ column, meaning }) => [meaning, column - 1]))
    : columnsAs(mapping.kind, titles);
  return { kind: mapping.kind, header, at, titles: [...titles] };
}

/** The tables with what a person said in place of what the file has. Tables without answers stay the very same. */
export function withAnswers(tables: readonly Table[], answers: SheetAnswers | undefined): Table[] {
  return tables.map((table) => {
    const mine = answers?.cells.filter(({ sheet }) => sheet === table.name) ?? [];
    return mine.length === 0 ? table : putCells(table, mine, columnsOf(table, answers)?.header ?? -1);
  });
}

function putCells(table: Table, answers: readonly CellAnswer[], header: number): Table {
  const first = table.firstRow ?? 1;
  const rows = table.rows.map((row) => [...row]);
  const literal = new Set<string>();
  const settled = new Set<string>();
  const put = (i: number, { column, as, text }: CellAnswer) => {
    const row = rows[i];
    if (!row) return;
    while (row.length < column) row.push('');
    if (as === 'typed') row[column - 1] = text;
    const key = cellKey(first + i, column);
    settled.add(key);
    // A blank that somebody wants is not filled from above.
    if (as === 'literal' || text.trim() === '') literal.add(key);
    else literal.delete(key);
  };
  // A single cell's own answer comes after what is said of all that say the same.
  for (const answer of answers) {
    if (answer.row !== null) continue;
    table.rows.forEach((row, i) => {
      if (i > header && (row[answer.column - 1] ?? '').trim() === answer.said.trim()) put(i, answer);
    });
  }
  for (const answer of answers) if (answer.row !== null) put(answer.row - first, answer);
  const notes = table.notes?.filter(({ row, column }) => !settled.has(cellKey(row, column)));
  return { ...table, rows, literal, ...(notes ? { notes } : {}) };
}

/** Ends of what is written down for a cell that a person settled: the plan says so for as long as it is kept. */
const BY_HAND = ', put in by hand';
const AS_IT_STANDS = ', taken as it stands';

/** Was this written down because a person said so, not because the reader guessed? */
export function isAnswered({ kind }: SortedGuess): boolean {
  return kind === 'by-hand' || kind === 'as-it-stands';
}

/** Each answer beside the cell it is for, once, so that the plan tells what its file does not. */
export function tellAnswers(
  lists: readonly { table: Table; columns: Columns }[],
  { cells }: SheetAnswers,
  notebook: Notebook,
): void {
  for (const { sheet, row, column, said, as, text } of cells) {
    const onSheet = lists.filter(({ table }) => table.name === sheet);
    const list = onSheet.find(({ table }) => row !== null && holdsRow(table, sheet, row)) ?? onSheet[0];
    if (!list) continue;
    const { table, columns } = list;
    const first = table.firstRow ?? 1;
    const at = row ?? first + columns.header + 1;
    const readAs = as === 'typed' ? `${text.trim() || 'blank'}${BY_HAND}` : `${said.trim() || 'blank'}${AS_IT_STANDS}`;
    notebook.guess(as === 'typed' ? 'by-hand' : 'as-it-stands', sheet, at, columns.titles[column - 1], said, readAs);
  }
}

function cellKey(row: number, column: number): string {
  return `${row} ${column}`;
}

/** Adds an answer; an earlier one for the same cells gives way. */
export function withCell(answers: SheetAnswers, answer: CellAnswer): SheetAnswers {
  const same = (one: CellAnswer) =>
    one.sheet === answer.sheet &&
    one.column === answer.column &&
    one.row === answer.row &&
    (answer.row !== null || one.said.trim() === answer.said.trim());
  return { ...answers, cells: [...answers.cells.filter((one) => !same(one)), answer] };
}

/**
 * Sets how a list of a sheet is taken; null: as the reader finds it. Answers to its cells stay, since cells keep their
 * places.
 * @param of The rows of the list; the whole sheet unless told.
 */
export function withMapping(
  answers: SheetAnswers,
  sheet: string,
  mapping: SheetMapping | null,
  of: { from: number; to: number } = { from: 1, to: Number.POSITIVE_INFINITY },
): SheetAnswers {
  const isMeant = ({ headerRow }: SheetMapping) => headerRow >= of.from && headerRow <= of.to;
  const others = answers.mappings.filter((one) => one.sheet !== sheet || !isMeant(one));
  return { ...answers, mappings: mapping ? [...others, mapping] : others };
}
