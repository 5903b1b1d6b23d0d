// The order of the pairs of a multi-pair cable by colour, and its groups. Facts, and arithmetic over whatever order a
// station has. The usual order is the 25-pair table of "Telephone cable color code" (everything2.com): tip white, red,
// black, yellow, violet; ring blue, orange, green, brown, slate; pair 1 white-blue, 6 red-blue, 20 yellow-slate.

export interface PairColours {
  tip: string;
  ring: string;
}

const TIPS = ['white', 'red', 'black', 'yellow', 'violet'];
const RINGS = ['blue', 'orange', 'green', 'brown', 'slate'];

/** One binder; a larger cable begins anew under another binder colour. */
export const USUAL_PAIRS: readonly PairColours[] = TIPS.flatMap((tip) => RINGS.map((ring) => ({ tip, ring })));

/** @param pair Counted from 1; beyond the order the colours of its place in its own binder. */
export function pairToColours(pair: number, order: readonly PairColours[] = USUAL_PAIRS): PairColours {
  return order[(pair - 1) % order.length]!;
}
