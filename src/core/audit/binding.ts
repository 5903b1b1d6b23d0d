// Which plan revision an audit is counted over: the one it began with, or the one that people moved it to since. Free of
// order: a move names the moves it knew of, so clocks decide only between two that did not know of each other.
import type { EventOf } from './events.ts';

export type Bound = EventOf<'audit-bound'>;

export interface Binding {
  /** The revision that counts; null where the audit began without a plan and was not moved. */
  plan: string | null;
  /** Revisions in the order in which they stand in for one whose document has not arrived. */
  chain: (string | null)[];
  /** Moves that no other one knew of, the one that counts first. A next move names all of them. */
  heads: Bound[];
  /** Two phones moved it to different revisions, and nobody has moved it since. */
  disputed: boolean;
}

/** @param moves Those that were not taken back, in any order. */
export function bindingOf(started: EventOf<'audit-started'>, moves: readonly Bound[]): Binding {
  const byId = new Map(moves.map((move) => [move.id, move]));
  const known = new Set(moves.flatMap(({ payload }) => payload.after));
  const later = (a: Bound, b: Bound) => b.at - a.at || (a.id < b.id ? 1 : -1);
  const heads = moves.filter(({ id }) => !known.has(id)).sort(later);
  const chain: (string | null)[] = [];
  const seen = new Set<string>();
  const waiting = [...heads];
  for (let move = waiting.shift(); move; move = waiting.shift()) {
    if (seen.has(move.id)) continue;
    seen.add(move.id);
    chain.push(move.payload.plan);
    waiting.push(...move.payload.after.flatMap((id) => byId.get(id) ?? []).sort(later));
  }
  chain.push(started.payload.plan);
  const [plan = null] = chain;
  return { plan, chain, heads, disputed: new Set(heads.map(({ payload }) => payload.plan)).size > 1 };
}
