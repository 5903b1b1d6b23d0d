// Counts, lists, sizes and times in words, for every screen: the grammar comes from Intl. No markup and no state here.

const plural = new Intl.PluralRules('en-GB');
const conjunction = new Intl.ListFormat('en-GB');

/** A number with its noun: "1 jack", "2 jacks". */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${plural.select(n) === 'one' ? one : many}`;
}

/** Things in a row: "P01, P02 and P03". */
export function list(items: readonly string[]): string {
  return conjunction.format(items);
}

export function bytesToWords(bytes: number): string {
  if (bytes < 1000) return count(bytes, 'byte');
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
