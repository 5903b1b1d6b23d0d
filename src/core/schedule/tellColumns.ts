// What is said of a list's columns as a whole before its rows are read: those that are not read, one that was recognised
// by its cells alone, and what the file's reader had to guess.
import { profilesOf } from './byContent/profile.ts';
import { numberScore } from './byContent/singles.ts';
import type { Columns } from './columns.ts';
import { meaningToWords } from './meanings.ts';
import type { Notebook, Table } from './rows/readTypes.ts';
import { mappingOf, type SheetAnswers } from './sheetAnswers.ts';
import { typeReadAsSignal } from './typeColumn.ts';

/**
 * Columns that no meaning was found for: said once each, since what stands in them is not in the plan. Numbers of things,
 * such as those of cables, are asked about unless a person said what the columns mean.
 */
export function tellUnread(
  table: Table,
  columns: Columns,
  answers: SheetAnswers | undefined,
  notebook: Notebook,
): void {
  const isMapped = answers !== undefined && mappingOf(table, answers) !== undefined;
  const profiles = columns.kind === 'cables' && !isMapped ? profilesOf(table.rows, columns.header) : [];
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
    const profile = profiles[column];
    if (profile && !profile.counter && numberScore(profile) > 0 && !isSettled(table, first + columns.header, column)) {
      const said = title || `column ${columnLetters(column)}`;
      notebook.ask('column', table.name, at, title, said, 'What do these numbers name? The column is not read.');
      continue;
    }
    notebook.guess('column-unread', table.name, at, title, title || (rows[row]?.[column] ?? ''), readAs);
  }
}

/** Columns that were recognised by their cells, once each; where that is no more than likely, as a question. */
export function tellInferred(table: Table, columns: Columns, notebook: Notebook): void {
  const row = Math.max((table.firstRow ?? 1) + columns.header, 1);
  for (const { meaning, column, doubtful } of columns.inferred ?? []) {
    const title = columns.titles[column] ?? '';
    const said = title || `column ${columnLetters(column)}`;
    const words = meaningToWords(columns.kind, meaning);
    if (doubtful && !isSettled(table, row, column))
      notebook.ask('column', table.name, row, title, said, `Is this column ${words}?`);
    else notebook.guess('column-inferred', table.name, row, title, said, `${words}, by what stands in the column`);
  }
}

/** A title that a person put in or takes as it stands. */
function isSettled(table: Table, row: number, column: number): boolean {
  return table.literal?.has(`${row} ${column + 1}`) === true;
}

/** A column as a spreadsheet calls it, from 0: A, B … Z, AA. */
function columnLetters(column: number): string {
  const letter = String.fromCharCode(65 + (column % 26));
  return column < 26 ? letter : columnLetters(Math.floor(column / 26) - 1) + letter;
}

/** A column called Type that holds signals was recognised by its cells alone. */
export function tellType(table: Table, columns: Columns, answers: SheetAnswers | undefined, notebook: Notebook): void {
  const title = typeReadAsSignal(columns);
  if (title === null || (answers && mappingOf(table, answers))) return;
  const row = (table.firstRow ?? 1) + columns.header;
  notebook.guess('signal', table.name, row, title, title, 'signal of the cable, since its cells name signals');
}

/** Meanings of columns in which a yes or no is what it should be. */
const YES_OR_NO = ['onAir', 'phantom', 'spare', 'mult', 'share', 'pad'];

/** What the file reader had to guess counts where the cell is a number or a name, not in a length or a date column. */
export function tellFileNotes(table: Table, columns: Columns, notebook: Notebook): void {
  const free = new Set(['length', 'notes', 'u', 'fromU', 'toU', 'uTop', 'height', 'gain', 'status', ...YES_OR_NO]);
  const meanings = new Map([...columns.at].map(([meaning, column]) => [column, meaning]));
  for (const note of table.notes ?? []) {
    // Column 0 is the whole row or sheet.
    if (note.column === 0) notebook.guess('file', table.name, note.row, undefined, note.said, note.readAs);
    const meaning = meanings.get(note.column - 1);
    if (meaning === undefined || free.has(meaning)) continue;
    notebook.guess(note.kind ?? 'file', table.name, note.row, columns.titles[note.column - 1], note.said, note.readAs);
  }
}
