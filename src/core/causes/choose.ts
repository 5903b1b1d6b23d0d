// Which stories to believe: those with the least total cost that cover the differences. Exact where a group that hangs
// together is small; where it is large the best story for its price is taken again and again, and how far that may be
// from the cheapest is said.
import type { Occasion } from '../record/events.ts';
import { type Candidate, COST_ALONE, candidateToCost } from './cause.ts';

/** Up to so many stories of one group every combination is weighed. */
export const EXACT_UP_TO = 16;

interface Choice {
  chosen: Candidate[];
  /** False where a group was too large to weigh every combination and a cheaper choice cannot be ruled out. */
  exact: boolean;
  /** No other choice is cheaper than this one by more. */
  gap: number;
}

/** Total cost of a choice: the stories', and one for each difference that none of them covers. */
export function choiceToCost(
  chosen: readonly Candidate[],
  facts: ReadonlySet<string>,
  occasion: Occasion | null,
): number {
  const covered = new Set(chosen.flatMap((one) => [...one.covers].filter((id) => facts.has(id))));
  return (
    chosen.reduce((sum, one) => sum + candidateToCost(one, occasion), 0) + COST_ALONE * (facts.size - covered.size)
  );
}

export function choose(candidates: readonly Candidate[], occasion: Occasion | null): Choice {
  const chosen: Candidate[] = [];
  let gap = 0;
  for (const group of groupsOf(candidates)) {
    if (group.length <= EXACT_UP_TO) chosen.push(...chooseExactly(group, occasion));
    else {
      const taken = chooseGreedily(group, occasion);
      const facts = new Set(group.flatMap(({ covers }) => [...covers]));
      gap += Math.max(0, choiceToCost(taken, facts, occasion) - leastPossible(group, occasion));
      chosen.push(...taken);
    }
  }
  return { chosen, exact: gap < ROUNDING, gap: gap < ROUNDING ? 0 : gap };
}

/** Sums of costs that differ by less are the same. */
const ROUNDING = 1e-9;

/** Stories that share differences, directly or through others. */
export function groupsOf(candidates: readonly Candidate[]): Candidate[][] {
  const byFact = new Map<string, Candidate[]>();
  for (const one of candidates) for (const id of one.covers) byFact.set(id, [...(byFact.get(id) ?? []), one]);
  const done = new Set<Candidate>();
  return candidates.flatMap((start) => {
    if (done.has(start)) return [];
    done.add(start);
    const group = [start];
    for (const one of group) {
      for (const id of one.covers) {
        for (const next of byFact.get(id) ?? []) {
          if (done.has(next)) continue;
          done.add(next);
          group.push(next);
        }
      }
    }
    return [group];
  });
}

/** Every combination, the promising ones first; a branch that cannot get cheaper than the best is left. */
export function chooseExactly(group: readonly Candidate[], occasion: Occasion | null): Candidate[] {
  const facts = new Set(group.flatMap(({ covers }) => [...covers]));
  const costs = group.map((one) => candidateToCost(one, occasion));
  const order = group.map((_, i) => i).sort((a, b) => gain(group[b]!, costs[b]!) - gain(group[a]!, costs[a]!));
  /** Facts that no story from here on covers. */
  const later = order.map((_, i) => new Set(order.slice(i).flatMap((j) => [...group[j]!.covers])));
  let best: Candidate[] = [];
  let least = choiceToCost(best, facts, occasion);
  const walk = (i: number, taken: Candidate[], covered: ReadonlySet<string>, spent: number): void => {
    const open = facts.size - covered.size;
    if (spent + COST_ALONE * open < least) {
      least = spent + COST_ALONE * open;
      best = taken;
    }
    if (i >= order.length) return;
    let lost = 0;
    for (const id of facts) if (!covered.has(id) && !later[i]!.has(id)) lost += 1;
    if (spent + COST_ALONE * lost >= least) return;
    const at = order[i]!;
    walk(i + 1, [...taken, group[at]!], new Set([...covered, ...group[at]!.covers]), spent + costs[at]!);
    walk(i + 1, taken, covered, spent);
  };
  walk(0, [], new Set(), 0);
  return best;
}

const gain = (one: Candidate, cost: number) => COST_ALONE * one.covers.size - cost;

/**
 * Always the story that is cheapest for each further difference, while that is less than the difference alone. Never
 * dearer than the cheapest choice times 1 + 1/2 + … + 1/n, where n is the most that one story covers (V. Chvátal, A
 * greedy heuristic for the set-covering problem, 1979).
 */
export function chooseGreedily(group: readonly Candidate[], occasion: Occasion | null): Candidate[] {
  const left = new Set(group.flatMap(({ covers }) => [...covers]));
  const chosen: Candidate[] = [];
  const rest = new Set(group);
  for (;;) {
    let best: Candidate | null = null;
    let least = COST_ALONE;
    for (const one of rest) {
      let further = 0;
      for (const id of one.covers) if (left.has(id)) further += 1;
      // What covers nothing further never will.
      if (further === 0) rest.delete(one);
      else if (candidateToCost(one, occasion) / further < least - ROUNDING)
        [best, least] = [one, candidateToCost(one, occasion) / further];
    }
    if (!best) return chosen;
    chosen.push(best);
    rest.delete(best);
    for (const id of best.covers) left.delete(id);
  }
}

/** No choice costs less: each difference pays its share of the story that is cheapest for it, or itself alone. */
export function leastPossible(group: readonly Candidate[], occasion: Occasion | null): number {
  const share = new Map<string, number>();
  for (const one of group) {
    const each = candidateToCost(one, occasion) / one.covers.size;
    for (const id of one.covers) share.set(id, Math.min(share.get(id) ?? COST_ALONE, each));
  }
  return [...share.values()].reduce((sum, each) => sum + each, 0);
}
