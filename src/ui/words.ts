// Counts, lists, sizes and times in words, for every screen: the grammar comes from Intl. No markup and no state here.
import { counted } from '../core/report/words/plain.ts';

/** "1 jack", "2 jacks"; "P01, P02 and P03". */
export { counted as count, listed as list } from '../core/report/words/plain.ts';

export function bytesToWords(bytes: number): string {
  if (bytes < 1000) return counted(bytes, 'byte');
  if (bytes < 1_000_000) return `${Math.round(bytes / 1000)} kB`;
  return `${(bytes / 1_000_000).toFixed(1)} MB`;
}

/** The time of day for today, else the date. */
export function timeToWords(at: number, now: number): string {
  const [then, today] = [new Date(at), new Date(now)];
  if (then.toDateString() === today.toDateString())
    return then.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  const year = then.getFullYear() === today.getFullYear() ? undefined : ('numeric' as const);
  return then.toLocaleDateString('en-GB', { day: 'numeric', month: 'long', year });
}

/** What became of a file that was to be shared or saved. */
export function handedToWords(how: 'shared' | 'saved' | 'cancelled', name: string): string {
  switch (how) {
    case 'shared':
      return `${name} was shared.`;
    case 'saved':
      return `${name} was saved.`;
    case 'cancelled':
      return `${name} was not shared; it is still ready.`;
  }
}
