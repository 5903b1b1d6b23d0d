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

type LaneParts = {
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

type Running = LaneParts & {
  state: LaneState;
  lastAt: number | null;
  tries: number;
  /** The server asked for peace until then; not even a person's tap goes before. */
  notBefore: number;
  again: boolean;
  cancelTimer: () => void;
};

export function createLane(parts: LaneParts): Lane {
  const lane: Running = {
    ...parts,
    state: { type: 'idle', lastAt: null },
    lastAt: null,
    tries: 0,
    notBefore: 0,
    again: false,
    cancelTimer: () => undefined,
  };

  return {
    state: () => lane.state,
    nudge: (why) => nudge(lane, why),
    restart: () => {
      lane.tries = 0;
      lane.notBefore = 0;
      start(lane);
    },
    rest: (ms) => {
      if (lane.state.type === 'idle') later(lane, ms);
    },
    halt: () => {
      lane.cancelTimer();
      lane.again = false;
    },
  };
}

function later(lane: Running, ms: number): void {
  lane.cancelTimer();
  lane.cancelTimer = lane.clock.after(Math.max(0, ms), () => start(lane));
}

function start(lane: Running): void {
  if (lane.state.type === 'busy') {
    lane.again = true;
    return;
  }
  lane.again = false;
  lane.cancelTimer();
  // At once and not after the first answer, so that whoever asks sees every lane that was woken as busy.
  lane.state = { type: 'busy', progress: null };
  void run(lane);
}

async function run(lane: Running): Promise<void> {
  const given: LaneRun = {
    tries: lane.tries,
    progress: (progress) => {
      if (progress.done > 0) lane.tries = 0;
      lane.state = { type: 'busy', progress };
      lane.changed();
    },
  };
  const end = await lane.run(given).catch((error: unknown): LaneEnd => {
    lane.onFailure(error);
    return { type: 'wait', why: 'phone-failed', notBefore: 0 };
  });
  settle(lane, end);
}

function settle(lane: Running, end: LaneEnd): void {
  lane.state = { type: 'idle', lastAt: lane.lastAt };
  switch (end.type) {
    case 'cancelled':
      return;
    case 'stop':
      lane.ended(end.why);
      return;
    case 'done':
      lane.tries = 0;
      lane.notBefore = 0;
      lane.lastAt = lane.clock.now();
      lane.state = { type: 'idle', lastAt: lane.lastAt };
      // Asked for during the run: goes out now.
      if (lane.again) {
        start(lane);
        return;
      }
      if (end.next !== null) later(lane, end.next);
      break;
    case 'wait':
      waitFor(lane, end.why, end.notBefore);
  }
  lane.changed();
}

function waitFor(lane: Running, why: WaitingWhy, asked: number): void {
  lane.tries += 1;
  lane.notBefore = asked;
  const retryAt = Math.max(lane.clock.now() + backoff(lane.tries, lane.random), lane.notBefore);
  lane.state = { type: 'waiting', why, retryAt, tries: lane.tries };
  later(lane, retryAt - lane.clock.now());
}

function nudge(lane: Running, why: NudgeWhy): void {
  if (lane.state.type === 'waiting' && (why === 'record' || lane.clock.now() < lane.notBefore)) return;
  start(lane);
}
