// Rows that a person says are no item: a row, some rows in a run, or all that look like one of them. Pure: which rows are
// meant follows from the sheet and the answer alone.
import { isLegendTitle, isReserved, isSignature, isTotal } from '../words.ts';

/** What rows of one kind have in common. */
export interface RowLike {
  /** Columns that are filled, from 1. */
  filled: number[];
  /** Kind of remark that the first filled cell is; null where it is none. */
  remark: Remark | null;
  /** Text of the first filled cell, folded; null where a remark or a cell that stands alone may say anything. */
  first: string | null;
}
type Remark = 'sum' | 'signature' | 'legend' | 'reserved';

/** Rows of a sheet that are no item, as the spreadsheet numbers them; `like`: only those of this kind. */
export interface LeftRows {
  sheet: string;
  from: number;
  to: number;
  like: RowLike | null;
}

/** The kind of a row; null for a blank one, which is no item anyway. */
export function rowToLike(row: readonly string[]): RowLike | null {
  const filled = row.flatMap((cell, i) => (cell.trim() === '' ? [] : [i + 1]));
  const [column] = filled;
  if (column === undefined) return null;
  const text = row[column - 1] ?? '';
  const remark = textToRemark(text);
  return { filled, remark, first: remark !== null || filled.length === 1 ? null : toFirst(text) };
}

function textToRemark(text: string): Remark | null {
  if (isTotal(text)) return 'sum';
  if (isSignature(text)) return 'signature';
  if (isLegendTitle(text)) return 'legend';
  return isReserved(text) ? 'reserved' : null;
}

const toFirst = (text: string) => text.trim().replace(/\s+/g, ' ').toLowerCase();

export function isLike(row: readonly string[], { filled, remark, first }: RowLike): boolean {
  let found = 0;
  let text = '';
  for (const [i, cell] of row.entries()) {
    if (cell === '' || cell.trim() === '') continue;
    if (found === 0) text = cell;
    // Every row of the sheet is asked: the first column that differs is enough.
    if (filled[found] !== i + 1) return false;
    found += 1;
  }
  if (found !== filled.length) return false;
  return remark !== null ? textToRemark(text) === remark : first === null || toFirst(text) === first;
}

/** Is this row, numbered as the spreadsheet shows it, meant? */
export function isLeft(left: LeftRows, number: number, row: readonly string[]): boolean {
  return number >= left.from && number <= left.to && (left.like === null || isLike(row, left.like));
}
