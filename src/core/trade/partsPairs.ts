// The standard order of the 25 pairs of a telephone or audio multi-pair by colour, and its tip groups. Facts only.
// Source: the 25-pair table of "Telephone cable color code" (everything2.com): tip white, red, black, yellow, violet;
// ring blue, orange, green, brown, slate; pair 1 white-blue, 6 red-blue, 13 black-green, 20 yellow-slate.

export const TIPS = ['white', 'red', 'black', 'yellow', 'violet'] as const;
export const RINGS = ['blue', 'orange', 'green', 'brown', 'slate'] as const;
/** Pairs of one binder; a larger cable begins anew under another binder colour. */
export const PAIRS_OF_BINDER = TIPS.length * RINGS.length;

export interface PairColours {
  tip: (typeof TIPS)[number];
  ring: (typeof RINGS)[number];
}

/** @param pair Counted from 1; above 25 the colours of its place in its own binder. */
export function pairToColours(pair: number): PairColours {
  const n = (pair - 1) % PAIRS_OF_BINDER;
  return { tip: TIPS[Math.floor(n / RINGS.length)]!, ring: RINGS[n % RINGS.length]! };
}

/** Pairs of one tip colour in the first binder: red is 6 to 10. */
export function tipToPairs(tip: PairColours['tip']): number[] {
  const first = TIPS.indexOf(tip) * RINGS.length;
  return RINGS.map((_, i) => first + i + 1);
}
