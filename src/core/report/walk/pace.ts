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
  const gaps = sorted.flatMap((at, i) => {
    const gap = i === 0 ? 0 : at - sorted[i - 1]!;
    return gap > 0 && gap <= BREAK_MS ? [gap] : [];
  });
  if (sorted.length < LEAST_STATEMENTS || gaps.length === 0) return null;
  const middle = gaps.sort((a, b) => a - b);
  return { each: middle[Math.floor(middle.length / 2)]!, statements: sorted.length };
}

/** "About 40 min at the pace so far, an estimate from 18 entries." Null where nothing can be said. */
export function paceToWords(pace: Pace | null, left: number): string | null {
  if (!pace || left === 0) return null;
  const minutes = Math.max(1, Math.round((pace.each * left) / 60_000));
  const time =
    minutes < 60
      ? `${minutes} min`
      : minutes < 600
        ? `${Math.round(minutes / 6) / 10} h`
        : `${Math.round(minutes / 60)} h`;
  return `About ${time} at the pace so far, an estimate from ${pace.statements} entries.`;
}
