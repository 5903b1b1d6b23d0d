// Columns of a cable list that belong to the cable and not to an end of it: its number, signal, type, length. By what
// their cells look like; titles were asked before.
import type { Profile } from './profile.ts';

/** Filled rows that are wanted before a column is taken for what its cells look like. */
const ROWS_WANTED = 3;

type Single = [meaning: string, suits: (p: Profile) => number];

const SINGLES: readonly Single[] = [
  ['signal', (p) => p.share('signal')],
  ['cableType', (p) => p.share('type') - p.share('jack') * 0.5 - (numberScore(p) > 0 ? 0.5 : 0)],
  ['length', (p) => p.share('length')],
  ['colour', (p) => p.share('colour')],
  ['notes', (p) => p.share('sentence')],
];
const SUITS = 0.75;

/**
 * The meanings of free columns, each at most once and only where the titles have none.
 * @param free Columns that mean nothing yet, from the left.
 */
export function findSingles(free: readonly Profile[], has: (meaning: string) => boolean): Map<string, number> {
  const at = new Map<string, number>();
  const taken = new Set<number>();
  if (!has('number')) {
    const number = bestNumber(free);
    if (number) {
      at.set('number', number.column);
      taken.add(number.column);
    }
  }
  for (const [meaning, suits] of SINGLES) {
    if (has(meaning)) continue;
    let best: { column: number; score: number } | null = null;
    for (const p of free) {
      if (taken.has(p.column) || p.filled * p.keys.length < ROWS_WANTED) continue;
      const score = suits(p);
      if (score >= SUITS && score > (best?.score ?? 0)) best = { column: p.column, score };
    }
    if (!best) continue;
    at.set(meaning, best.column);
    taken.add(best.column);
  }
  return at;
}

/** The column that is best as the cable's number; a count of the rows only where there is no other. */
export function bestNumber(free: readonly Profile[]): Profile | null {
  let best: { p: Profile; score: number } | null = null;
  for (const p of free) {
    const score = numberScore(p) - (p.counter ? 0.5 : 0);
    if (numberScore(p) > 0 && (!best || score > best.score)) best = { p, score };
  }
  return best?.p ?? null;
}

/** How much a column looks like the numbers of things; 0 where it does not. */
export function numberScore(p: Profile): number {
  if (p.filled < 0.6 || p.distinct < 0.8 || p.values.size < 2) return 0;
  if (Math.max(p.share('length'), p.share('date'), p.share('sentence'), p.share('signal')) > 0.3) return 0;
  const codes = Math.max(p.share('code'), p.counter ? 1 : 0);
  return codes < 0.8 ? 0 : codes + p.distinct + p.filled;
}
