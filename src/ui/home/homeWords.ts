// What the home screen says in a word: how much waits to be sent, which plan. No markup and no state here.
import type { Unsent } from '../services.ts';
import { count } from '../words.ts';

/** Those too that were not taken: they are not at the server either. */
export function unsentCount({ statements, photos, notes, other, refused }: Unsent): number {
  return statements + photos + notes + other + refused;
}

export function planToShort(plan: { name: string; cables: number; arrived: boolean } | null): string {
  if (!plan) return 'none';
  if (!plan.arrived) return 'not here yet';
  const revision = /\brev(?:ision)?\.?\s*([A-Z0-9]{1,4})\b/i.exec(plan.name);
  return revision ? `rev ${revision[1]}` : count(plan.cables, 'cable');
}
