// One way of the exchange as a state machine: when it runs, when the next try is, and what is known of it meanwhile.
// It knows nothing of what is carried, and no lane waits for another.
import { backoff, type Problem, type StopWhy } from './ask.ts';
import type { LaneState, SendProgress, SyncClock, WaitingWhy } from './ports.ts';

/** `record` never cuts a wait short: in a cellar every scan would ask the radio in vain. */
export type NudgeWhy = 'start' | 'online' | 'person' | 'record' | 'news';

export type LaneEnd =
  /** @param next Milliseconds until it should run again by itself; null when nothing calls for it. */
  { type: 'done'; next: number | null } | Problem;

export type LaneRun = {
  /** Failures in a row before this run. */
  tries: number;
  progress: (progress: SendProgress) => void;
};

export type LaneParts = {
  clock: SyncClock;
  random: () => number;
  run: (given: LaneRun) => Promise<LaneEnd>;
  changed: () => void;
  /** Ends everything: no lane may go on without a pairing or a fitting version. */
  ended: (why: StopWhy) => void;
  onFailure: (error: unknown) => void;
};

export type Lane = {
  state: () => LaneState;
  nudge: (why: NudgeWhy) => void;
  /** Forgets waits and failures, as a new pairing does, and runs. */
  restart: () => void;
  /** Runs after so many milliseconds at the latest, if it rests by then. */
  rest: (ms: number) => void;
  /** Takes no further step until it is nudged. */
  halt: () => void;
};

export function createLane(parts: LaneParts): Lane {
  const { clock, random, changed } = parts;
  let state: LaneState = { type: 'idle', lastAt: null };
  let lastAt: number | null = null;
  let tries = 0;
  /** The server asked for peace until then; not even a person's tap goes before. */
  let notBefore = 0;
  let again = false;
  let cancelTimer: () => void = () => undefined;

  function later(ms: number): void {
    cancelTimer();
    cancelTimer = clock.after(Math.max(0, ms), start);
  }

  function start(): void {
    if (state.type === 'busy') {
      again = true;
      return;
    }
    again = false;
    cancelTimer();
    // At once and not after the first answer, so that whoever asks sees every lane that was woken as busy.
    state = { type: 'busy', progress: null };
    void run();
  }

  async function run(): Promise<void> {
    const given: LaneRun = {
      tries,
      progress: (progress) => {
        if (progress.done > 0) tries = 0;
        state = { type: 'busy', progress };
        changed();
      },
    };
    const end = await parts.run(given).catch((error: unknown): LaneEnd => {
      parts.onFailure(error);
      return { type: 'wait', why: 'phone-failed', notBefore: 0 };
    });
    settle(end);
  }

  function settle(end: LaneEnd): void {
    state = { type: 'idle', lastAt };
    switch (end.type) {
      case 'cancelled':
        return;
      case 'stop':
        parts.ended(end.why);
        return;
      case 'done':
        tries = 0;
        notBefore = 0;
        lastAt = clock.now();
        state = { type: 'idle', lastAt };
        // Asked for during the run: goes out now.
        if (again) {
          start();
          return;
        }
        if (end.next !== null) later(end.next);
        break;
      case 'wait':
        waitFor(end.why, end.notBefore);
    }
    changed();
  }

  function waitFor(why: WaitingWhy, asked: number): void {
    tries += 1;
    notBefore = asked;
    const retryAt = Math.max(clock.now() + backoff(tries, random), notBefore);
    state = { type: 'waiting', why, retryAt, tries };
    later(retryAt - clock.now());
  }

  return {
    state: () => state,
    nudge: (why) => {
      if (state.type === 'waiting' && (why === 'record' || clock.now() < notBefore)) return;
      start();
    },
    restart: () => {
      tries = 0;
      notBefore = 0;
      start();
    },
    rest: (ms) => {
      if (state.type === 'idle') later(ms);
    },
    halt: () => {
      cancelTimer();
      again = false;
    },
  };
}
