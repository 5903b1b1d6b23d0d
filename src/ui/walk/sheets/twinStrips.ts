// Strips of temporary numbers that this phone printed: a second copy of one puts the same number on two cables. Kept on
// this phone alone, no part of the record.
export interface PrintedStrip {
  first: number;
  count: number;
  at: number;
}

/** Name of the draft that they are kept under. */
export const STRIPS_KEY = 'twin-strips';
const KEPT = 40;

/** The strip printed last that shares a number with this one, and the first number that none of them has. */
export function printedBefore(
  printed: readonly PrintedStrip[],
  first: number,
  count: number,
): { strip: PrintedStrip; next: number } | null {
  const strip = printed.findLast((one) => one.first < first + count && first < one.first + one.count);
  return strip ? { strip, next: Math.max(...printed.map((one) => one.first + one.count)) } : null;
}

export function withPrinted(printed: readonly PrintedStrip[], strip: PrintedStrip): PrintedStrip[] {
  return [...printed, strip].slice(-KEPT);
}
