// Owns what every adapter shares: states, delivery of readings, repeats, pausing, and the order of starts and stops.
// Must never know where readings come from; an adapter gives it `open`, `close` and what it saw.
import { sanitize } from './hostile.ts';
import { createRepeats } from './repeats.ts';
import type { Reading, ScanFailure, Scanner, ScannerState, StartResult } from './scanner.ts';
import { createListeners, createWatched, type OnBug, surfaceBug } from './watched.ts';

export type Source = {
  /** Answers the failure as data, or null when the source runs. */
  open(): Promise<ScanFailure | null>;
  /** Must bear being called when nothing is open. */
  close(): Promise<void>;
};

export type Sight = { text: string; format?: string; corners?: Reading['corners'] };

export type HubOptions = {
  by: Reading['by'];
  now: () => number;
  onBug?: OnBug | undefined;
  blindAfterMs?: number;
};

export type Hub = Scanner & {
  /** Another jack is meant from now on. */
  moved(): void;
  /** One look of the source. Nothing comes of it unless the scanner is scanning. */
  look(inView: readonly Sight[], taken: { sight: Sight; aimed: boolean } | null): void;
  /** Runs a job in line with starts and stops; skipped when the scanner was stopped meanwhile. */
  whileRunning(job: () => Promise<void>): Promise<void>;
  /** Runs a job in line with starts and stops, whatever the state. */
  inLine<T>(job: () => Promise<T>): Promise<T>;
  /** Closes the source and shows why. Must not be awaited from a job in line, which it waits for. */
  fail(failure: ScanFailure): Promise<void>;
};

export function createHub(options: HubOptions, source: Source): Hub {
  const onBug = options.onBug ?? surfaceBug;
  const state = createWatched<ScannerState>({ type: 'off' }, onBug);
  const readings = createListeners<Reading>(onBug);
  const repeatOptions = options.blindAfterMs === undefined ? {} : { blindAfterMs: options.blindAfterMs };
  let repeats = createRepeats(repeatOptions);
  // Every start and stop takes a new turn; work that finds its turn gone gives its result up.
  let turn = 0;
  let starting: Promise<StartResult> | null = null;
  let pauseWanted = false;
  let tail: Promise<unknown> = Promise.resolve();

  function inLine<T>(job: () => Promise<T>): Promise<T> {
    const result = tail.then(job);
    tail = result.catch(() => undefined);
    return result;
  }

  async function begin(mine: number): Promise<StartResult> {
    if (mine !== turn) return { type: 'stopped' };
    let failure: ScanFailure | null;
    try {
      failure = await source.open();
    } catch (bug) {
      await source.close();
      if (mine === turn) state.set({ type: 'off' });
      throw bug;
    }
    if (mine !== turn || failure) await source.close();
    if (mine !== turn) return { type: 'stopped' };
    starting = null;
    if (failure) {
      state.set({ type: 'failed', failure });
      return { type: 'failed', failure };
    }
    repeats = createRepeats(repeatOptions);
    state.set({ type: pauseWanted ? 'paused' : 'scanning' });
    return { type: 'started' };
  }

  function running(): boolean {
    const { type } = state.get();
    return type === 'scanning' || type === 'paused';
  }

  function halt(next: ScannerState): Promise<void> {
    turn += 1;
    starting = null;
    pauseWanted = false;
    state.set(next);
    return inLine(() => source.close());
  }

  return {
    state,
    start() {
      if (running()) return Promise.resolve({ type: 'started' });
      if (starting) return starting;
      turn += 1;
      const mine = turn;
      const promise = inLine(() => begin(mine));
      starting = promise;
      promise.catch(() => {
        if (starting === promise) starting = null;
      });
      state.set({ type: 'starting' });
      return promise;
    },
    stop: () => halt({ type: 'off' }),
    fail: (failure) => halt({ type: 'failed', failure }),
    pause() {
      pauseWanted = running() || starting !== null;
      if (state.get().type === 'scanning') state.set({ type: 'paused' });
    },
    resume() {
      pauseWanted = false;
      if (state.get().type === 'paused') state.set({ type: 'scanning' });
    },
    inLine,
    again: () => repeats.again(),
    moved: () => repeats.moved(),
    onReading: (fn) => readings.add(fn),
    look(inView, taken) {
      if (state.get().type !== 'scanning') return;
      const at = options.now();
      const heard = taken === null ? null : sanitize(taken.sight.text);
      const texts = inView.map((sight) => sanitize(sight.text)?.text ?? sight.text);
      const news = repeats.look(texts, heard?.text ?? null, at);
      if (!news || heard === null || taken === null) return;
      const { format, corners } = taken.sight;
      readings.tell({
        ...heard,
        by: options.by,
        at,
        aimed: taken.aimed,
        others: Math.max(0, inView.length - 1),
        ...(format === undefined ? {} : { format }),
        ...(corners === undefined ? {} : { corners }),
      });
    },
    async whileRunning(job) {
      const mine = turn;
      await inLine(async () => {
        if (mine === turn && running()) await job();
      });
    },
  };
}
