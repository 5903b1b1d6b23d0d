// Owns when a text counts as read again: once, then not until it was out of view for a while or a person asks.
// Must never read a clock; the time of each look is an argument.

export const OUT_OF_VIEW_MS = 1000;
/** No hand gets from one label to the next in this time: a second reading is the trigger's own. Common practice, no source. */
export const BOUNCE_MS = 300;

export type Repeats = {
  /** One look: every text in view, and the one taken. Answers whether the taken one is news. */
  look(inView: readonly string[], taken: string | null, now: number): boolean;
  /** A person asks to read what is in view once more. */
  again(): void;
  /** Another place is meant now: what was read before may well stand there too, but for a bounce of the trigger. */
  moved(): void;
};

/**
 * `blindAfterMs`: a longer gap between two looks means that nobody was looking (paused, hidden, stalled),
 * so the gap does not count as out of view. Leave it out for sources that have no frames, such as keys.
 */
export function createRepeats(options: { outOfViewMs?: number; blindAfterMs?: number } = {}): Repeats {
  const outOfView = options.outOfViewMs ?? OUT_OF_VIEW_MS;
  const blindAfter = options.blindAfterMs ?? Number.POSITIVE_INFINITY;
  // Only texts that were reported, each with the watched time at which it was last in view, and how long that holds.
  const reported = new Map<string, { seen: number; holds: number }>();
  let watched = 0;
  let lastLook: number | null = null;
  return {
    look(inView, taken, now) {
      const gap = lastLook === null ? 0 : Math.max(0, now - lastLook);
      watched += gap > blindAfter ? 0 : gap;
      lastLook = now;
      for (const [text, { seen, holds }] of reported) if (watched - seen >= holds) reported.delete(text);
      for (const text of inView) {
        const one = reported.get(text);
        if (one) one.seen = watched;
      }
      if (taken === null) return false;
      const news = !reported.has(taken);
      if (news) reported.set(taken, { seen: watched, holds: outOfView });
      return news;
    },
    again() {
      reported.clear();
    },
    moved() {
      for (const one of reported.values()) one.holds = Math.min(one.holds, BOUNCE_MS);
    },
  };
}
