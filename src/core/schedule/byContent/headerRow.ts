// Where a list begins whose titles nobody knows: the first row that looks like the rows further down, and what stands
// above it. By the looks of cells alone.
import { SEARCHED_ROWS } from '../columns.ts';
import { type Profile, profilesOf } from './profile.ts';

/** A longer cell is a sentence, not a title. */
const TITLE_LENGTH = 40;
const FILLED_WANTED = 3;

type Rows = readonly (readonly string[])[];

/** Index of the header row and of the group titles above it, if any. −1: the first row is an item already. */
export interface HeaderRow {
  header: number;
  /** Do titles stand in that row? */
  titled: boolean;
  groups: number | null;
}

export function findHeaderRow(rows: Rows): HeaderRow | null {
  const within = Math.min(SEARCHED_ROWS, Math.floor(rows.length / 2));
  const figures = profilesOf(rows, within - 1).filter((p) => p.filled > 0.5 && p.share('digits') >= 0.7);
  if (figures.length === 0) return null;
  const first = rows.slice(0, within + 1).findIndex((row) => isItem(row, figures));
  if (first < 0) return null;
  const header = first - 1;
  const titled = header >= 0 && isTitles(rows[header] ?? []);
  const groups = titled && header > 0 && isGroups(rows[header - 1] ?? []) ? header - 1 : null;
  return { header, titled, groups };
}

/** Figures stand where they stand in the rows below. */
function isItem(row: readonly string[], figures: readonly Profile[]): boolean {
  if (filledIn(row) < FILLED_WANTED) return false;
  const filled = figures.filter(({ column }) => (row[column] ?? '').trim() !== '');
  const alike = filled.filter(({ column }) => /\d/.test(row[column] ?? ''));
  return alike.length > 0 && alike.length * 2 >= filled.length && filled.length * 2 >= figures.length;
}

function isTitles(row: readonly string[]): boolean {
  const filled = row.filter((cell) => cell.trim() !== '');
  return filled.length >= 2 && filled.every((cell) => cell.length <= TITLE_LENGTH);
}

/** One or two merged titles, such as FROM and TO, with blanks between. */
function isGroups(row: readonly string[]): boolean {
  const filled = row.filter((cell) => cell.trim() !== '');
  return filled.length >= 2 && filled.length < row.length && filled.every((cell) => cell.length <= TITLE_LENGTH);
}

function filledIn(row: readonly string[]): number {
  return row.filter((cell) => cell.trim() !== '').length;
}
