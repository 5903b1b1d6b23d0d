// The order of groups of work: what takes the same circuit off the air stands together, so that it goes off once, and
// the rest goes as a person walks. Knows steps and circuits only.
//
// Limits: Blocks of more than six groups are ordered step by step, circles of more than 48 plugs are begun anywhere:
// both may keep a circuit off longer than need be. Within one circle a circuit over several of its cables is off from
// the first to the last.
import type { PlaceId } from '../plan/identity.ts';
import { spanOf } from './plugs.ts';
import { type Group, onAirOf, placesOf, type Step } from './step.ts';

/** Place to its number on the way that the walk goes; a place that the walk does not know comes last. */
export type Rank = (place: PlaceId) => number;

/** Up to so many groups of one block every order is weighed. */
const EXACT_UP_TO = 6;

/** Groups that share an on-air circuit, directly or through others, in the order that keeps circuits off the least. */
export function toBlocks(groups: readonly Group[], rank: Rank): Group[][] {
  const parent = groups.map((_, i) => i);
  const rootOf = (i: number): number => {
    let at = i;
    while (parent[at] !== at) at = parent[at]!;
    for (let next = i; parent[next] !== at; ) {
      const up = parent[next]!;
      parent[next] = at;
      next = up;
    }
    return at;
  };
  const byCircuit = new Map<string, number>();
  const circuits = groups.map(({ steps }) => onAirOf(steps));
  circuits.forEach((keys, i) => {
    for (const key of keys) {
      const other = byCircuit.get(key);
      if (other === undefined) byCircuit.set(key, i);
      else parent[rootOf(i)] = rootOf(other);
    }
  });
  const blocks = new Map<number, Group[]>();
  groups.forEach((group, i) => {
    const root = rootOf(i);
    blocks.set(root, [...(blocks.get(root) ?? []), group]);
  });
  return [...blocks.values()].map((block) => together(inWalkingOrder(block, rank)));
}

export function inWalkingOrder<T extends Group | Group[]>(list: readonly T[], rank: Rank): T[] {
  const first = (one: T) => {
    const steps = Array.isArray(one) ? one.flatMap((group) => group.steps) : one.steps;
    const places = placesOf(steps);
    return { at: Math.min(...places.map(rank), Number.MAX_SAFE_INTEGER), name: [...places].sort()[0] ?? '' };
  };
  return list
    .map((one) => ({ one, ...first(one) }))
    .sort((a, b) => a.at - b.at || (a.name < b.name ? -1 : a.name > b.name ? 1 : 0))
    .map(({ one }) => one);
}

function together(block: readonly Group[]): Group[] {
  if (block.length < 3) return [...block];
  if (block.length <= EXACT_UP_TO) {
    let best = [...block];
    let least = costOf(best);
    for (const order of ordersOf(block)) {
      const cost = costOf(order);
      if (cost < least) [best, least] = [order, cost];
    }
    return best;
  }
  // From the group with the fewest circuits on, always the one that shares most with what is open.
  const rest = [...block].sort((a, b) => onAirOf(a.steps).size - onAirOf(b.steps).size);
  const order = [rest.shift()!];
  while (rest.length > 0) {
    const open = onAirOf(order.at(-1)!.steps);
    const shared = (group: Group) => [...onAirOf(group.steps)].filter((key) => open.has(key)).length;
    const next = rest.reduce((a, b) => (shared(b) > shared(a) ? b : a));
    rest.splice(rest.indexOf(next), 1);
    order.push(next);
  }
  return order;
}

const costOf = (order: readonly Group[]) => spanOf(order.flatMap(({ steps }): Step[] => steps));

function* ordersOf<T>(items: readonly T[]): Generator<T[]> {
  if (items.length <= 1) {
    yield [...items];
    return;
  }
  for (let i = 0; i < items.length; i++) {
    for (const rest of ordersOf([...items.slice(0, i), ...items.slice(i + 1)])) yield [items[i]!, ...rest];
  }
}
