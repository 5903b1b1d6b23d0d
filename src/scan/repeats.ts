// Owns when a text counts as read again: once, then not until it was out of view for a while or a person asks.
// Must never read a clock; the time of each look is an argument.

export const OUT_OF_VIEW_MS = 1000;

export type Repeats = {
  /** One look: every text in view, and the one taken. Answers whether the taken one is news. */
  look(inView: readonly string[], taken: string | null, now: number): boolean;
  /** A person asks to read what is in view once more. */
  again(): void;
};

/**
 * `blindAfterMs`: a longer gap between two looks means that nobody was looking (paused, hidden, stalled),
 * so the gap does not count as out of view. Leave it out for sources that have no frames, such as keys.
 */
export function createRepeats(options: { outOfViewMs?: number; blindAfterMs?: number } = {}): Repeats {
  const outOfView = options.outOfViewMs ?? OUT_OF_VIEW_MS;
  const blindAfter = options.blindAfterMs ?? Number.POSITIVE_INFINITY;
  // Only texts that were reported, each with the watched time at which it was last in view.
  const reported = new Map<string, number>();
  let watched = 0;
  let lastLook: number | null = null;
  return {
    look(inView, taken, now) {
      const gap = lastLook === null ? 0 : Math.max(0, now - lastLook);
      watched += gap > blindAfter ? 0 : gap;
      lastLook = now;
      for (const [text, seen] of reported) if (watched - seen >= outOfView) reported.delete(text);
      for (const text of inView) if (reported.has(text)) reported.set(text, watched);
      if (taken === null) return false;
      const news = !reported.has(taken);
      reported.set(taken, watched);
      return news;
    },
    again() {
      reported.clear();
    },
  };
}
