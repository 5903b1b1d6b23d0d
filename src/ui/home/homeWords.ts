// Counts, sizes and times in words, for every screen. No markup and no state here.
import type { Unsent } from '../services.ts';

export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

export function bytesToWords(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  if (bytes < 1_000_000) return `${Math.round(bytes / 1000)} kB`;
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}

/** Those too that were not taken: they are not at the server either. */
export function unsentCount({ statements, photos, notes, other, refused }: Unsent): number {
  return statements + photos + notes + other + refused;
}

/** The time of day for today, else the date. */
export function timeToWords(at: number, now: number): string {
  const [then, today] = [new Date(at), new Date(now)];
  if (then.toDateString() === today.toDateString())
    return then.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  const year = then.getFullYear() === today.getFullYear() ? undefined : ('numeric' as const);
  return then.toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year });
}

export function planToShort(plan: { name: string; cables: number; arrived: boolean } | null): string {
  if (!plan) return 'none';
  if (!plan.arrived) return 'not here yet';
  const revision = /\brev(?:ision)?\.?\s*([A-Z0-9]{1,4})\b/i.exec(plan.name);
  return revision ? `rev ${revision[1]}` : count(plan.cables, 'cable');
}
