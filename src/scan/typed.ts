// Owns typed entry: a person reads the label with their own eyes and types it.
// Must never correct what was typed; suggestions come from the caller and are only offered.
import { createHub } from './hub.ts';
import type { Scanner } from './scanner.ts';
import type { OnBug } from './watched.ts';

type TypedScanner<S> = Scanner & {
  enter(text: string): void;
  suggest(text: string): S[];
};

export function createTyped<S>(options: {
  now: () => number;
  suggest: (text: string) => S[];
  onBug?: OnBug;
}): TypedScanner<S> {
  const { suggest, ...rest } = options;
  const hub = createHub({ by: 'typed', ...rest }, { open: async () => null, close: async () => undefined });
  return {
    ...hub,
    suggest,
    enter(text) {
      // Spaces at the ends come from the phone's keyboard, not from the label.
      const sight = { text: text.trim() };
      hub.look([sight], { sight, aimed: true });
    },
  };
}
