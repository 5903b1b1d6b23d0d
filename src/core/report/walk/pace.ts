// What is left, at the pace so far: an estimate, named as one, from the times between one person's own statements.

/** A longer pause between two statements was something else. */
export const BREAK_MS = 10 * 60_000;
/** Fewer statements say nothing about a pace. */
export const LEAST_STATEMENTS = 8;

export interface Pace {
  /** Milliseconds from one statement to the next, the middle one of all. */
  each: number;
  statements: number;
}

/** @param times When the statements were made, in milliseconds, in any order. Null where there are too few. */
export function paceOf(times: readonly number[]): Pace | null {
  const sorted = [...times].sort((a, b) => a - b);
  const gaps = sorted
    .map((at, i) => at - (sorted[i - 1] ?? at))
    .filter((gap) => gap > 0 && gap <= BREAK_MS)
    .sort((a, b) => a - b);
  const each = gaps[Math.floor(gaps.length / 2)];
  return sorted.length < LEAST_STATEMENTS || each === undefined ? null : { each, statements: sorted.length };
}
