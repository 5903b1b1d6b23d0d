// Whose entries bear a time that has not come yet. A wrong clock is told and nothing else: it drops no entry and
// orders none of what one phone did.

/** Milliseconds: less may be two good clocks. */
const SKEW = 5 * 60_000;

export interface Ahead {
  author: string;
  entries: number;
  /** The latest time among them. */
  latest: number;
}

export function createClocks() {
  const times = new Map<string, number[]>();
  return {
    add({ author, at }: { author: string; at: number }): void {
      const list = times.get(author);
      if (list) list.push(at);
      else times.set(author, [at]);
    },
    /** @param now Present time, as well as it is known. */
    ahead(now: number): Ahead[] {
      return [...times]
        .map(([author, all]) => {
          const late = all.filter((at) => at > now + SKEW);
          return { author, entries: late.length, latest: late.reduce((a, b) => Math.max(a, b), 0) };
        })
        .filter(({ entries }) => entries > 0)
        .sort((a, b) => b.entries - a.entries || (a.author < b.author ? -1 : 1));
    },
  };
}
