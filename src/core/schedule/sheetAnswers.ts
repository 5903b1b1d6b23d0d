// What a person said about a sheet: which column means what, and what single cells say. Pure data, put over the tables
// before they are read, so that the same file with the same answers gives the same plan.
//
// Limits: A word that means the same in every row is guessed once, at its first row. What a person agreed to while
// bringing in is kept until the plan is taken and is no part of it. Remembered columns and answers are of one phone. An
// answer for every cell of a column means that column in all lists of the sheet.
import type { TextEncoding } from './answers/encodings.ts';
import { type FixedValue, putFixed, withAdded } from './answers/fixedValues.ts';
import type { GoneAnswer } from './answers/goneAnswers.ts';
import { isLeft, type LeftRows } from './answers/leftRows.ts';
import { columnsByContent } from './byContent/columnsByContent.ts';
import { type Columns, columnsAs } from './columns.ts';
import { type ListKind, meaningToWords } from './meanings.ts';
import type { Notebook, SortedGuess, Table } from './rows/readTypes.ts';
import { shapesByHand, shapesByTitles, withHabits } from './shapes/findShape.ts';
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
  /** Further texts of the column that are answered the same; only where `row` is null. */
  also?: string[] | undefined;
  /** `typed`: read `text` in its place; `literal`: the cell is one name as it stands, blank stays blank. */
  as: 'typed' | 'literal';
  text: string;
}

export interface SheetAnswers {
  mappings: SheetMapping[];
  cells: CellAnswer[];
  /** Rows that are no item. */
  left?: LeftRows[] | undefined;
  /** Values that a whole list has. */
  fixed?: FixedValue[] | undefined;
  /** Names of the sheets that are not to be read. */
  unused?: string[] | undefined;
  /** The encoding of the text files, where the one that was guessed is not theirs. */
  encoding?: TextEncoding | undefined;
  /** What rows of a style are that say that they are not there any more. */
  gone?: GoneAnswer[] | undefined;
}
export const NO_ANSWERS: SheetAnswers = { mappings: [], cells: [] };

/** A sheet may hold several lists, each a table of its own rows: which of them has this row? Row 0 is above the sheet. */
export function holdsRow(table: Table, sheet: string, row: number): boolean {
  const first = table.firstRow ?? 1;
  return (
    table.name === sheet && (row >= first || (row === 0 && first === 1)) && row < first + Math.max(table.rows.length, 1)
  );
}

/** What a person said of this very list of the sheet. */
export function mappingOf(table: Table, { mappings }: SheetAnswers): SheetMapping | undefined {
  return mappings.find((one) => holdsRow(table, one.sheet, one.headerRow) && isBeside(table, one));
}

/** Of lists beside each other a mapping means the one that its columns are of, and all where it names none. */
function isBeside({ beside }: Table, { columns }: SheetMapping): boolean {
  return !beside || !columns || columns.some(({ column }) => column >= beside.from && column <= beside.to);
}

/** How a table is to be taken: as a person said, else by the names of its columns. */
export function columnsOf(table: Table, answers: SheetAnswers | undefined): Columns | null {
  if (answers?.unused?.includes(table.name)) return null;
  return withAdded(ownColumnsOf(table, answers), table);
}

function ownColumnsOf(table: Table, answers: SheetAnswers | undefined): Columns | null {
  const mapping = answers && mappingOf(table, answers);
  if (!mapping) {
    const shaped = shapesByTitles(table);
    if (shaped) return shaped;
    const found = columnsByContent(table);
    return found && withHabits(typeAsSignal(found, table.rows), table);
  }
  const header = mapping.headerRow - (table.firstRow ?? 1);
  // Row 0: the first row of the sheet is an item.
  const titles = header === -1 ? [] : table.rows[header];
  if (mapping.kind === null || !titles) return null;
  const at = mapping.columns
    ? new Map(mapping.columns.map(({ column, meaning }) => [meaning, column - 1]))
    : columnsAs(mapping.kind, titles);
  return shapesByHand({ kind: mapping.kind, header, at, titles: [...titles] }, table);
}

/** The tables with what a person said in place of what the file has. Tables without answers stay the very same. */
export function withAnswers(tables: readonly Table[], answers: SheetAnswers | undefined): Table[] {
  if (!answers) return [...tables];
  const { cells, left = [], fixed = [] } = answers;
  return tables.map((table) => {
    const mine = cells.filter((one) => one.sheet === table.name && isOfTable(table, one));
    const out = left.filter(({ sheet }) => sheet === table.name);
    const values = fixed.filter(({ sheet, headerRow }) => holdsRow(table, sheet, headerRow));
    if (mine.length + out.length + values.length === 0) return table;
    const columns = columnsOf(table, answers);
    const put = putCells(table, mine, columns?.header ?? -1);
    const rest = leaveRows(put.table, out);
    return columns && values.length > 0 ? putFixed(rest, columns, values, put.settled) : rest;
  });
}

const isOfTable = ({ beside }: Table, { column }: CellAnswer) =>
  !beside || (column >= beside.from && column <= beside.to);

function putCells(
  table: Table,
  answers: readonly CellAnswer[],
  header: number,
): { table: Table; settled: ReadonlySet<string> } {
  if (answers.length === 0) return { table, settled: new Set() };
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
  for (const [column, byText] of answersByText(answers)) {
    for (let i = header + 1; i < table.rows.length; i += 1) {
      for (const answer of byText.get((table.rows[i]?.[column - 1] ?? '').trim()) ?? []) put(i, answer);
    }
  }
  for (const answer of answers) if (answer.row !== null) put(answer.row - first, answer);
  const notes = table.notes?.filter(({ row, column }) => !settled.has(cellKey(row, column)));
  return { table: { ...table, rows, literal, ...(notes ? { notes } : {}) }, settled };
}

/** What is said of all cells of a column that say the same: by column, by text, so that each cell is asked once. */
function answersByText(answers: readonly CellAnswer[]): Map<number, Map<string, CellAnswer[]>> {
  const columns = new Map<number, Map<string, CellAnswer[]>>();
  for (const answer of answers) {
    if (answer.row !== null) continue;
    const byText = columns.get(answer.column) ?? new Map<string, CellAnswer[]>();
    columns.set(answer.column, byText);
    for (const text of new Set([answer.said, ...(answer.also ?? [])].map((said) => said.trim())))
      byText.set(text, [...(byText.get(text) ?? []), answer]);
  }
  return columns;
}

/** Rows that are no item are blank, so that every other row keeps its number. */
function leaveRows(table: Table, left: readonly LeftRows[]): Table {
  if (left.length === 0) return table;
  const first = table.firstRow ?? 1;
  const gone = new Set<number>();
  const rows = table.rows.map((row, i) => {
    const isOut = row.some((cell) => cell.trim() !== '') && left.some((one) => isLeft(one, first + i, row));
    if (isOut) gone.add(first + i);
    return isOut ? [] : row;
  });
  return gone.size === 0 ? table : { ...table, rows, left: gone };
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
  { cells, left = [], fixed = [] }: SheetAnswers,
  notebook: Notebook,
): void {
  for (const { sheet, row, column, said, as, text, also = [] } of cells) {
    const onSheet = lists.filter(({ table }) => table.name === sheet);
    const list = onSheet.find(({ table }) => row !== null && holdsRow(table, sheet, row)) ?? onSheet[0];
    if (!list) continue;
    const { table, columns } = list;
    const first = table.firstRow ?? 1;
    const at = row ?? first + columns.header + 1;
    const title = columns.titles[column - 1];
    for (const one of [said, ...also]) {
      const readAs = as === 'typed' ? `${text.trim() || 'blank'}${BY_HAND}` : `${one.trim() || 'blank'}${AS_IT_STANDS}`;
      notebook.guess(as === 'typed' ? 'by-hand' : 'as-it-stands', sheet, at, title, one, readAs);
    }
  }
  for (const { sheet, from, to } of left) {
    const rows = lists.flatMap(({ table }) =>
      table.name === sheet ? [...(table.left ?? [])].filter((row) => row >= from && row <= to) : [],
    );
    const n = rows.length;
    if (rows[0] !== undefined)
      notebook.guess(
        'by-hand',
        sheet,
        rows[0],
        undefined,
        '',
        `${n === 1 ? 'no item' : `${n} rows, no items`}${BY_HAND}`,
      );
  }
  for (const { sheet, headerRow, meaning, text } of fixed) {
    const list = lists.find(({ table }) => holdsRow(table, sheet, headerRow));
    if (!list) continue;
    const words = meaningToWords(list.columns.kind, meaning);
    notebook.guess('by-hand', sheet, headerRow, words, '', `${text} in every row that says nothing else${BY_HAND}`);
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
  const isMeant = ({ headerRow }: SheetMapping) =>
    (headerRow >= of.from || (headerRow === 0 && of.from === 1)) && headerRow <= of.to;
  const others = answers.mappings.filter((one) => one.sheet !== sheet || !isMeant(one));
  return { ...answers, mappings: mapping ? [...others, mapping] : others };
}
