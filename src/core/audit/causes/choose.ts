// Which stories to believe: those with the least total cost that cover the differences. Exact where a group that hangs
// together is small; where it is large the best story for its price is taken again and again, and that is said.
import type { Occasion } from '../events.ts';
import { ALONE, type Candidate, candidateToCost } from './cause.ts';

/** Up to so many stories of one group every combination is weighed. */
export const EXACT_UP_TO = 16;

export interface Choice {
  chosen: Candidate[];
  /** False where a group was too large to weigh every combination. */
  exact: boolean;
}

/** Total cost of a choice: the stories', and one for each difference that none of them covers. */
export function choiceToCost(
  chosen: readonly Candidate[],
  facts: ReadonlySet<string>,
  occasion: Occasion | null,
): number {
  const covered = new Set(chosen.flatMap((one) => [...one.covers].filter((id) => facts.has(id))));
  return chosen.reduce((sum, one) => sum + candidateToCost(one, occasion), 0) + ALONE * (facts.size - covered.size);
}

export function choose(candidates: readonly Candidate[], occasion: Occasion | null): Choice {
  const chosen: Candidate[] = [];
  let exact = true;
  for (const group of groupsOf(candidates)) {
    if (group.length <= EXACT_UP_TO) chosen.push(...chooseExactly(group, occasion));
    else {
      exact = false;
      chosen.push(...chooseGreedily(group, occasion));
    }
  }
  return { chosen, exact };
}

/** Stories that share differences, directly or through others. */
function groupsOf(candidates: readonly Candidate[]): Candidate[][] {
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
    if (spent + ALONE * open < least) {
      least = spent + ALONE * open;
      best = taken;
    }
    if (i >= order.length) return;
    let lost = 0;
    for (const id of facts) if (!covered.has(id) && !later[i]!.has(id)) lost += 1;
    if (spent + ALONE * lost >= least) return;
    const at = order[i]!;
    walk(i + 1, [...taken, group[at]!], new Set([...covered, ...group[at]!.covers]), spent + costs[at]!);
    walk(i + 1, taken, covered, spent);
  };
  walk(0, [], new Set(), 0);
  return best;
}

const gain = (one: Candidate, cost: number) => ALONE * one.covers.size - cost;

function chooseGreedily(group: readonly Candidate[], occasion: Occasion | null): Candidate[] {
  const left = new Set(group.flatMap(({ covers }) => [...covers]));
  const chosen: Candidate[] = [];
  const rest = new Set(group);
  for (;;) {
    let best: Candidate | null = null;
    let most = 0;
    for (const one of rest) {
      const saved = ALONE * [...one.covers].filter((id) => left.has(id)).length - candidateToCost(one, occasion);
      if (saved > most) [best, most] = [one, saved];
    }
    if (!best) return chosen;
    chosen.push(best);
    rest.delete(best);
    for (const id of best.covers) left.delete(id);
  }
}
