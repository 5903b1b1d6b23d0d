// Values that can be watched: a plain one, and the answer of a query that follows the database through a new
// connection. Must never hold more than the last value.
import { liveQuery } from 'dexie';
import type { StationStore } from './database.ts';
import { errorToFailure, type StoreFailure } from './failures.ts';
import type { StationDb } from './schema.ts';

export type Watched<T> = {
  current: () => T;
  /** Calls at once with the present value, then on each change. */
  subscribe: (call: (value: T) => void) => () => void;
  set: (value: T) => void;
};

export function createWatched<T>(first: T): Watched<T> {
  let value = first;
  const calls = new Set<(value: T) => void>();
  return {
    current: () => value,
    subscribe: (call) => {
      calls.add(call);
      call(value);
      return () => calls.delete(call);
    },
    set: (next) => {
      if (Object.is(next, value)) return;
      value = next;
      for (const call of [...calls]) call(next);
    },
  };
}

type Observed<T> = {
  subscribe: (next: (value: T) => void, failed: (failure: StoreFailure) => void) => () => void;
};

/** Follows a query of a station's database: asked again when what it read has changed, here or in another tab. */
export function observe<T>(store: StationStore, query: (db: StationDb) => Promise<T>): Observed<T> {
  return {
    subscribe: (next, failed) => {
      let stop: () => void = () => {};
      let over = false;
      const begin = async (mayBeginAgain: boolean): Promise<void> => {
        // Through `run` once, so that a dead connection is replaced before it is watched.
        const live = await store.run(async (db) => {
          await query(db);
          return db;
        });
        if (over) return;
        if (live.type !== 'done') return failed(live);
        let answered = false;
        // Async, because Dexie keeps track across awaits only then.
        const watching = liveQuery(async () => await query(live.value)).subscribe({
          next: (value) => {
            answered = true;
            next(value);
          },
          error: (error: unknown) => {
            watching.unsubscribe();
            const failure = errorToFailure(error);
            if (!failure) throw error;
            if (failure.type === 'store-lost' && (mayBeginAgain || answered)) void begin(false);
            else failed(failure);
          },
        });
        stop = () => watching.unsubscribe();
      };
      void begin(true);
      const unwatch = store.onTrouble((trouble) => {
        if (trouble.type !== 'reopened' || over) return;
        stop();
        void begin(true);
      });
      return () => {
        over = true;
        unwatch();
        stop();
      };
    },
  };
}
