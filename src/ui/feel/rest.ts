// Owns when a camera that nobody uses is let go. Must never read a clock; the timer is an argument.

/** Long enough to move a bundle aside, short enough to spare phone and battery. */
export const REST_MS = 60_000;

export interface Rest {
  /** A camera runs, or does not. */
  runs(running: boolean): void;
  /** A reading, a touch, a key. */
  used(): void;
}

export function createRest(after: (ms: number, fn: () => void) => () => void, rest: () => void): Rest {
  let running = false;
  let stop = () => {};
  const again = () => {
    stop();
    stop = running ? after(REST_MS, rest) : () => {};
  };
  return {
    runs(next) {
      if (next === running) return;
      running = next;
      again();
    },
    used: again,
  };
}
