// Of several events that each take the place of the ones before (a plan adopted, a name given, rules set, an audit moved),
// which one stands. Free of order: each names the ones that its author knew of, so clocks decide only between those
// that did not know of each other.
import type { EventId } from '../plan/identity.ts';

interface Claim {
  id: EventId;
  /** Milliseconds by the clock of the phone that made it. */
  at: number;
}

interface Standing<C> {
  /** Those that no other one knew of, the one that stands first. A next one names all of them. */
  heads: C[];
  /** All of them, in the order in which they stand in for one that cannot be used. */
  chain: C[];
}

/**
 * @param claims In any order, each once.
 * @param afterOf Ids of the ones that its author knew of. Those that name each other, or themselves, are a forger's work:
 *   one of them counts as a head, by the clock.
 */
export function standingOf<C extends Claim>(
  claims: readonly C[],
  afterOf: (claim: C) => readonly EventId[],
): Standing<C> {
  const byId = new Map(claims.map((claim) => [claim.id, claim]));
  const named = new Set(claims.flatMap((claim) => afterOf(claim).filter((id) => id !== claim.id)));
  const later = (a: C, b: C) => b.at - a.at || (a.id < b.id ? 1 : -1);
  const sorted = [...claims].sort(later);
  const heads = sorted.filter(({ id }) => !named.has(id));
  const chain: C[] = [];
  const met = new Set<EventId>();
  const follow = (from: readonly C[]): void => {
    const waiting = [...from];
    for (let next = 0; next < waiting.length; next++) {
      const claim = waiting[next]!;
      if (met.has(claim.id)) continue;
      met.add(claim.id);
      chain.push(claim);
      for (const one of afterOf(claim)
        .flatMap((id) => byId.get(id) ?? [])
        .sort(later))
        waiting.push(one);
    }
  };
  follow(heads);
  for (const claim of sorted) {
    if (met.has(claim.id)) continue;
    heads.push(claim);
    follow([claim]);
  }
  return { heads: heads.sort(later), chain };
}
