// Addresses of cells and ranges, as a workbook writes them.

/** Both from 1. */
export interface Cell {
  row: number;
  column: number;
}

export interface Range {
  from: Cell;
  to: Cell;
}

/** `27` is `AA`. */
export function columnToLetters(column: number): string {
  const rest = Math.floor((column - 1) / 26);
  return (rest > 0 ? columnToLetters(rest) : '') + String.fromCharCode(65 + ((column - 1) % 26));
}

export function lettersToColumn(letters: string): number {
  let column = 0;
  for (const letter of letters) column = column * 26 + letter.charCodeAt(0) - 64;
  return column;
}

/** `AB12`; null when it is no address. */
export function addressOf(text: string): Cell | null {
  const match = /^([A-Z]{1,3})(\d{1,7})$/.exec(text);
  return match ? { row: Number(match[2]), column: lettersToColumn(match[1] ?? '') } : null;
}

/** `A1:H20`, or one cell. */
export function rangeOf(text: string): Range | null {
  const [first = '', last = first] = text.split(':');
  const [from, to] = [addressOf(first), addressOf(last)];
  return from && to ? { from, to } : null;
}

export const cellName = ({ row, column }: Cell) => `${columnToLetters(column)}${row}`;
export const rangeName = ({ from, to }: Range) => `${cellName(from)}:${cellName(to)}`;

export function isIn({ from, to }: Range, { row, column }: Cell): boolean {
  return row >= from.row && row <= to.row && column >= from.column && column <= to.column;
}
