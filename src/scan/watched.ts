// Owns the smallest watchable value, so that the scan part needs no signal library.
// Must never let one throwing listener keep the news from the others.
import type { Watched } from './scanner.ts';

/** Where bugs of listeners go: they are bugs, so they surface, but after everyone was told. */
export type OnBug = (error: unknown) => void;

export const surfaceBug: OnBug = (error) => globalThis.reportError(error);

export type Listeners<T> = { add(fn: (value: T) => void): () => void; tell(value: T): void };

export function createListeners<T>(onBug: OnBug): Listeners<T> {
  // Each subscription is its own entry: the same function added twice is told twice and removed once at a time.
  const entries = new Set<{ fn: (value: T) => void }>();
  return {
    add(fn) {
      const entry = { fn };
      entries.add(entry);
      return () => {
        entries.delete(entry);
      };
    },
    tell(value) {
      for (const entry of [...entries]) {
        if (!entries.has(entry)) continue;
        try {
          entry.fn(value);
        } catch (error) {
          onBug(error);
        }
      }
    },
  };
}

export function createWatched<T>(first: T, onBug: OnBug): Watched<T> & { set(value: T): void } {
  let value = first;
  const listeners = createListeners<T>(onBug);
  return {
    get: () => value,
    subscribe: (fn) => listeners.add(fn),
    set(next) {
      if (next === value) return;
      value = next;
      listeners.tell(next);
    },
  };
}
