// Owns what every adapter shares: states, delivery of readings, repeats, pausing, and the order of starts and stops.
// Must never know where readings come from; an adapter gives it `open`, `close` and what it saw.

import { sanitize } from './hostile.ts';
import type { Repeats } from './repeats.ts';
import { createRepeats } from './repeats.ts';
import type { Reading, ScanFailure, Scanner, ScannerState, StartResult, Watched } from './scanner.ts';
import type { Listeners } from './watched.ts';
import { createListeners, createWatched, type OnBug, surfaceBug } from './watched.ts';

type Source = {
  /** Answers the failure as data, or null when the source runs. */
  open(): Promise<ScanFailure | null>;
  /** Must bear being called when nothing is open. */
  close(): Promise<void>;
};

type Sight = { text: string; format?: string; corners?: Reading['corners'] };

type HubOptions = {
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

type HubState = {
  options: HubOptions;
  source: Source;
  state: Watched<ScannerState> & { set(value: ScannerState): void };
  readings: Listeners<Reading>;
  repeatOptions: { blindAfterMs?: never } | { blindAfterMs: number };
  repeats: Repeats;
  // Every start and stop takes a new turn; work that finds its turn gone gives its result up.
  turn: number;
  starting: Promise<StartResult> | null;
  pauseWanted: boolean;
  tail: Promise<unknown>;
};

export function createHub(options: HubOptions, source: Source): Hub {
  const onBug = options.onBug ?? surfaceBug;
  const repeatOptions = options.blindAfterMs === undefined ? {} : { blindAfterMs: options.blindAfterMs };
  const hub: HubState = {
    options,
    source,
    state: createWatched<ScannerState>({ type: 'off' }, onBug),
    readings: createListeners<Reading>(onBug),
    repeatOptions,
    repeats: createRepeats(repeatOptions),
    turn: 0,
    starting: null,
    pauseWanted: false,
    tail: Promise.resolve(),
  };

  return {
    state: hub.state,
    start: () => start(hub),
    stop: () => halt(hub, { type: 'off' }),
    fail: (failure) => halt(hub, { type: 'failed', failure }),
    pause() {
      hub.pauseWanted = running(hub) || hub.starting !== null;
      if (hub.state.get().type === 'scanning') hub.state.set({ type: 'paused' });
    },
    resume() {
      hub.pauseWanted = false;
      if (hub.state.get().type === 'paused') hub.state.set({ type: 'scanning' });
    },
    inLine: (job) => inLine(hub, job),
    again: () => hub.repeats.again(),
    moved: () => hub.repeats.moved(),
    onReading: (fn) => hub.readings.add(fn),
    look: (inView, taken) => look(hub, inView, taken),
    whileRunning: (job) => whileRunning(hub, job),
  };
}

function inLine<T>(hub: HubState, job: () => Promise<T>): Promise<T> {
  const result = hub.tail.then(job);
  hub.tail = result.catch(() => undefined);
  return result;
}

async function begin(hub: HubState, mine: number): Promise<StartResult> {
  if (mine !== hub.turn) return { type: 'stopped' };
  let failure: ScanFailure | null;
  try {
    failure = await hub.source.open();
  } catch (bug) {
    await hub.source.close();
    if (mine === hub.turn) hub.state.set({ type: 'off' });
    throw bug;
  }
  if (mine !== hub.turn || failure) await hub.source.close();
  if (mine !== hub.turn) return { type: 'stopped' };
  hub.starting = null;
  if (failure) {
    hub.state.set({ type: 'failed', failure });
    return { type: 'failed', failure };
  }
  hub.repeats = createRepeats(hub.repeatOptions);
  hub.state.set({ type: hub.pauseWanted ? 'paused' : 'scanning' });
  return { type: 'started' };
}

function running(hub: HubState): boolean {
  const { type } = hub.state.get();
  return type === 'scanning' || type === 'paused';
}

function halt(hub: HubState, next: ScannerState): Promise<void> {
  hub.turn += 1;
  hub.starting = null;
  hub.pauseWanted = false;
  hub.state.set(next);
  return inLine(hub, () => hub.source.close());
}

function start(hub: HubState): Promise<StartResult> {
  if (running(hub)) return Promise.resolve({ type: 'started' });
  if (hub.starting) return hub.starting;
  hub.turn += 1;
  const mine = hub.turn;
  const promise = inLine(hub, () => begin(hub, mine));
  hub.starting = promise;
  promise.catch(() => {
    if (hub.starting === promise) hub.starting = null;
  });
  hub.state.set({ type: 'starting' });
  return promise;
}

function look(hub: HubState, inView: readonly Sight[], taken: { sight: Sight; aimed: boolean } | null): void {
  if (hub.state.get().type !== 'scanning') return;
  const at = hub.options.now();
  const heard = taken === null ? null : sanitize(taken.sight.text);
  const texts = inView.map((sight) => sanitize(sight.text)?.text ?? sight.text);
  const news = hub.repeats.look(texts, heard?.text ?? null, at);
  if (!news || heard === null || taken === null) return;
  const { format, corners } = taken.sight;
  hub.readings.tell({
    ...heard,
    by: hub.options.by,
    at,
    aimed: taken.aimed,
    others: Math.max(0, inView.length - 1),
    ...(format === undefined ? {} : { format }),
    ...(corners === undefined ? {} : { corners }),
  });
}

async function whileRunning(hub: HubState, job: () => Promise<void>): Promise<void> {
  const mine = hub.turn;
  await inLine(hub, async () => {
    if (mine === hub.turn && running(hub)) await job();
  });
}
