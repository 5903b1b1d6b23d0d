// Owns the test double: a scanner whose view the test sets.
// Must never be part of what a person runs.
import { createHub } from './hub.ts';
import type { ScanFailure, Scanner } from './scanner.ts';
import type { OnBug } from './watched.ts';

type DoubleScanner = Scanner & {
  /** One look with these texts in view; the first is the aimed one. */
  show(...texts: string[]): void;
  /** Makes the next start fail, or a running scanner fail now. */
  breakWith(failure: ScanFailure): Promise<void>;
  opened(): number;
};

export function createDouble(options: { now: () => number; onBug?: OnBug }): DoubleScanner {
  let next: ScanFailure | null = null;
  let opened = 0;
  const hub = createHub(
    { by: 'double', ...options },
    {
      async open() {
        const failure = next;
        next = null;
        if (!failure) opened += 1;
        return failure;
      },
      async close() {},
    },
  );
  return {
    ...hub,
    show(...texts) {
      const [first] = texts;
      const sights = texts.map((text) => ({ text }));
      hub.look(sights, first === undefined ? null : { sight: { text: first }, aimed: true });
    },
    async breakWith(failure) {
      const { type } = hub.state.get();
      if (type === 'scanning' || type === 'paused') await hub.fail(failure);
      else next = failure;
    },
    opened: () => opened,
  };
}
