// Which plan revision an audit is counted over: the one it began with, or the one that people moved it to since, as
// standing.ts orders the moves.
import type { EventOf } from './events.ts';
import { standingOf } from './standing.ts';

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
  const { heads, chain: made } = standingOf(moves, ({ payload }) => payload.after);
  const chain = [...made.map(({ payload }) => payload.plan), started.payload.plan];
  const [plan = null] = chain;
  return { plan, chain, heads, disputed: new Set(heads.map(({ payload }) => payload.plan)).size > 1 };
}
