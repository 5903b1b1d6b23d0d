// Owns how often the picture is looked at: about ten times a second while labels come and go, half as often while
// nothing changes, so that a phone stays cool. Must never read a clock.

/** At most about ten looks a second: more only makes the phone hot. */
export const BUSY_MS = 100;
export const CALM_MS = 200;
/** Without any change in view for this long there is no hurry. */
export const CALM_AFTER_MS = 3000;

export type Pace = {
  /** The texts of one look. */
  saw(texts: readonly string[], now: number): void;
  /** The least time between two looks, in ms. */
  gap(now: number): number;
};

export function createPace(): Pace {
  let before = '';
  let changed = Number.NEGATIVE_INFINITY;
  return {
    saw(texts, now) {
      const view = [...texts].sort().join('\n');
      if (changed === Number.NEGATIVE_INFINITY || view !== before) changed = now;
      before = view;
    },
    gap: (now) => (now - changed >= CALM_AFTER_MS && changed !== Number.NEGATIVE_INFINITY ? CALM_MS : BUSY_MS),
  };
}
