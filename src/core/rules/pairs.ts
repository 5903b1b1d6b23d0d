// The pairs of a cable that lands as a range at each end: which were followed, which only went by the order of their
// colours, which are exchanged. Derived from looks and what was followed; never says that a pair was proven by order.

import { rangeToMembers } from '../plan/containment.ts';
import { type PlaceId, unitOf } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import type { Severity } from '../trade/kinds.ts';
import { type PairColours, pairToColours } from '../trade/partsPairs.ts';
import { type Discrepancy, type Finding, makeDiscrepancy } from './discrepancy.ts';
import type { FoldView } from './foldView.ts';

const PAIR_FATES = ['dead', 'spare'] as const;
export type PairFate = (typeof PAIR_FATES)[number];
/** The setting, read at a landing, that says it. */
export const PAIR_SETTING = 'pair';

interface PairState {
  /** Counted from 1, as the landings are. */
  pair: number;
  colours: PairColours;
  /** Its landing at each end of the cable. */
  from: PlaceId;
  to: PlaceId;
  how: 'followed' | 'elsewhere' | 'by-colour' | 'seen' | 'not-seen';
  /** Said of the pair itself, at either end: it carries nothing, or is kept for later. */
  fate: PairFate | null;
  /** Pair whose landing at the to end it was followed to. */
  landedAt: number | null;
}

/** Null for a cable that does not land as a range of the same size at two ends. */
export function pairsOf(view: FoldView, cable: Cable): PairState[] | null {
  if (cable.ends.length !== 2) return null;
  const from = rangeToMembers(cable.ends[0]!.place ?? '');
  if (from.length === 0) return null;
  const to = rangeToMembers(cable.ends[1]!.place ?? '');
  if (from.length !== to.length) return null;
  return from.map((place, i): PairState => {
    const far = to[i]!;
    const fate = fateAt(view, place) ?? fateAt(view, far);
    const base = { pair: i + 1, colours: pairToColours(i + 1, view.pairOrder), from: place, to: far, fate };
    const joined = view.joined(place);
    if (joined.includes(far)) return { ...base, how: 'followed', landedAt: i + 1 };
    const other = to.findIndex((one) => joined.includes(one));
    if (other >= 0) return { ...base, how: 'elsewhere', landedAt: other + 1 };
    const looks = [...view.stateAt(place).looks, ...view.stateAt(far).looks];
    const how = looks.some((look) => look.basis !== 'inferred' && look.plugs.length > 0)
      ? 'seen'
      : looks.some(({ order }) => order === 'colour')
        ? 'by-colour'
        : 'not-seen';
    return { ...base, how, landedAt: null };
  });
}

function fateAt(view: FoldView, place: PlaceId): PairFate | null {
  const value = view.settings.valueOf({ unit: unitOf(place), place, name: PAIR_SETTING });
  return PAIR_FATES.find((fate) => fate === value) ?? null;
}

/** What the wires of a cable are called: a trunk tells it, everything else has pairs. */
export function wiresOf(cable: Pick<Cable, 'type'>): 'pairs' | 'fibres' | 'cores' {
  return (['fibres', 'cores'] as const).find((word) => cable.type?.endsWith(word)) ?? 'pairs';
}

/** One difference for each pair that was followed to another landing than its own. */
export function pairDiscrepancies(view: FoldView, cable: Cable, severity: Severity): Discrepancy[] {
  const pairs = pairsOf(view, cable);
  if (!pairs) return [];
  return pairs.flatMap((pair) => {
    const at = pair.landedAt === null ? undefined : pairs[pair.landedAt - 1];
    if (!at || at === pair) return [];
    const name = (one: PairState) => `${cable.label} pair ${one.pair}`;
    const evidence = [pair.from, at.to].flatMap((place) => view.stateAt(place).looks.map(({ event }) => event));
    const finding: Finding = {
      kind: 'wrong-jack',
      cable: cable.id,
      found: name(pair),
      plan: name(at),
      home: pair.to,
      // No label was read: the pair itself was followed, so it cannot be the labels that are exchanged.
      by: 'followed',
    };
    return [makeDiscrepancy(finding, severity, [at.to, pair.from], [name(pair)], evidence)];
  });
}

interface GroupsExchanged {
  tips: [PairColours['tip'], PairColours['tip']];
  /** Pairs of the same ring colour that would be exchanged as well, and that nobody has followed. */
  predicts: [number, number][];
  /** The pair to follow next: in the middle of what is not proven. */
  look: number;
}

/**
 * Two tip groups landed one for the other is possible where every exchange that was followed lies between the same
 * two groups, ring for ring, and none of their pairs was followed to its own landing.
 */
export function groupsExchanged(pairs: readonly PairState[]): GroupsExchanged | null {
  const moved = pairs.filter(({ how }) => how === 'elsewhere');
  const [first] = moved;
  const other = first && pairs[first.landedAt! - 1];
  if (!first || !other || first.colours.tip === other.colours.tip) return null;
  const tips: GroupsExchanged['tips'] =
    first.pair < other.pair ? [first.colours.tip, other.colours.tip] : [other.colours.tip, first.colours.tip];
  const fits = moved.every((pair) => {
    const at = pairs[pair.landedAt! - 1]!;
    return (
      pair.colours.ring === at.colours.ring &&
      tips.includes(pair.colours.tip) &&
      tips.includes(at.colours.tip) &&
      pair.colours.tip !== at.colours.tip
    );
  });
  // Of a larger cable the first binder: the colours begin anew behind it.
  const binder = pairs.slice(0, binderOf(pairs));
  const one = binder.filter(({ colours }) => colours.tip === tips[0]);
  const two = one.flatMap((pair) =>
    binder.filter((at) => at.colours.tip === tips[1] && at.colours.ring === pair.colours.ring),
  );
  const isWhole = two.length === binder.filter(({ colours }) => colours.tip === tips[1]).length;
  if (!fits || one.length === 0 || one.length !== two.length || !isWhole) return null;
  if ([...one, ...two].some(({ how }) => how === 'followed')) return null;
  const open = one.flatMap((pair, i): [number, number][] =>
    pair.how === 'elsewhere' || two[i]!.how === 'elsewhere' ? [] : [[pair.pair, two[i]!.pair]],
  );
  const middle = open[Math.floor((open.length - 1) / 2)];
  return middle ? { tips, predicts: open, look: middle[0] } : null;
}

/** Pairs up to where the colours of the first one come again. */
function binderOf([first, ...rest]: readonly PairState[]): number {
  const again = rest.findIndex(
    ({ colours }) => colours.tip === first?.colours.tip && colours.ring === first.colours.ring,
  );
  return again < 0 ? rest.length + 1 : again + 1;
}

/** "25 pairs: 0 followed to their own landing, 2 swapped, 23 landed by colour, not proven." Null without pairs. */
export function pairsToWords(pairs: readonly PairState[], wires: ReturnType<typeof wiresOf> = 'pairs'): string {
  const count = (how: PairState['how']) => pairs.filter((pair) => pair.how === how).length;
  const exchanged = pairs.filter((pair) => pair.landedAt !== null && pair.landedAt > pair.pair);
  const both = exchanged.filter((pair) => pairs[pair.landedAt! - 1]?.landedAt === pair.pair);
  const alone = count('elsewhere') - 2 * both.length;
  // Groups go by the colours of pairs.
  const group = wires === 'pairs' ? groupsExchanged(pairs) : null;
  const those = wires[0]!.toUpperCase() + wires.slice(1);
  const fates = PAIR_FATES.flatMap((fate) => {
    const numbers = pairs.filter((pair) => pair.fate === fate).map(({ pair }) => pair);
    return numbers.length === 0 ? [] : [`${numbersToWords(numbers)} ${fate}.`];
  });
  return [
    `${pairs.length} ${wires}.`,
    ...fates,
    count('followed') > 0 && `${count('followed')} followed to their own landing.`,
    ...both.map((pair) => `${those} ${pair.pair} and ${pair.landedAt} swapped.`),
    alone > 0 && `${alone} followed to another landing.`,
    count('by-colour') > 0 && `${count('by-colour')} landed by ${wires === 'pairs' ? 'colour' : 'number'}, not proven.`,
    count('seen') > 0 && `${count('seen')} seen, not followed.`,
    count('not-seen') > 0 && `${count('not-seen')} not seen.`,
    group &&
      `Possible: the ${group.tips[0]} and ${group.tips[1]} tip groups swapped; then ${group.predicts
        .map(([a, b]) => `${a} and ${b}`)
        .join(', ')} too. Follow pair ${group.look}.`,
  ]
    .filter(Boolean)
    .join(' ');
}

/** `7`, `20 to 24`. */
function numbersToWords(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const n of numbers) {
    const last = runs.at(-1);
    if (last && last[1] === n - 1) last[1] = n;
    else runs.push([n, n]);
  }
  return runs.map(([a, b]) => (a === b ? `${a}` : b === a + 1 ? `${a}, ${b}` : `${a} to ${b}`)).join(', ');
}
