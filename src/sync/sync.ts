// The exchange as a state machine: when a round runs, when the next try is, and what the screen may say about it.
// It forgets nothing, and no failure of the network is an error here.
import * as z from 'zod/mini';
import { type PairRequest, pairAnswerSchema, textToCode } from '../wire/sync.ts';
import { ask, backoff, readJson, timeoutFor } from './ask.ts';
import type { Outbox, PairFailure, Pairing, PairResult, SyncClock, SyncState, Transport } from './ports.ts';
import { type RoundEnd, runRound } from './round.ts';

export type SyncParts = {
  transport: Transport;
  outbox: Outbox;
  clock: SyncClock;
  pairing: Pairing;
  /** From 0 up to 1. */
  random: () => number;
  /** Told when the phone's own database or this code failed; the state says only `phone-failed`. */
  onFailure?: (error: unknown) => void;
};

/** `record` never cuts a wait short: in a cellar every scan would ask the radio in vain. */
export type NudgeWhy = 'start' | 'online' | 'person' | 'record';

export type Sync = {
  state: () => SyncState;
  subscribe: (listener: (state: SyncState) => void) => () => void;
  nudge: (why: NudgeWhy) => void;
  /** Swaps a scanned or typed code for a token, and starts at once. */
  pair: (code: string, phone: string) => Promise<PairResult>;
  /** For good: nothing is asked, written or reported afterwards. */
  stop: () => void;
};

type End = RoundEnd | { type: 'unpaired' } | { type: 'new-token' };

/** While idle, others' sightings are asked for this often. */
const IDLE_MS = 60_000;

export function createSync(parts: SyncParts): Sync {
  const { outbox, clock, pairing, random, onFailure } = parts;
  const listeners = new Set<(state: SyncState) => void>();
  let state: SyncState = { type: 'idle', lastAt: null };
  let lastAt: number | null = null;
  let tries = 0;
  /** The server asked for peace until then; not even a person's tap goes before. */
  let notBefore = 0;
  let running = false;
  let again = false;
  let stopped = false;
  let cancelTimer: () => void = () => undefined;

  const transport: Transport = {
    // A round that was in the database when the end came must not ask once more.
    send: async (request) => (stopped ? { type: 'nothing', why: 'cancelled' } : await parts.transport.send(request)),
    cancel: () => parts.transport.cancel(),
  };

  function set(next: SyncState): void {
    if (stopped) return;
    state = next;
    for (const listener of [...listeners]) listener(state);
  }

  function later(ms: number): void {
    cancelTimer();
    if (!stopped) cancelTimer = clock.after(ms, () => void run());
  }

  async function run(): Promise<void> {
    if (stopped) return;
    if (running) {
      again = true;
      return;
    }
    running = true;
    again = false;
    cancelTimer();
    const end = await once().catch((error: unknown): End => {
      onFailure?.(error);
      return { type: 'wait', why: 'phone-failed', notBefore: 0 };
    });
    // Before anybody is told: a listener may nudge at once, and that has to start a round of its own.
    running = false;
    if (!stopped) settle(end);
  }

  async function once(): Promise<End> {
    const credentials = await pairing.credentials();
    if (!credentials) {
      return (await pairing.history()) === null ? { type: 'unpaired' } : { type: 'stop', why: 'needs-pairing' };
    }
    const end = await runRound({
      transport,
      outbox,
      token: credentials.token,
      now: clock.now,
      progress: (progress) => {
        if (progress.done > 0) tries = 0;
        set({ type: 'sending', progress });
      },
      interrupted: () => {
        const was = again;
        again = false;
        return was;
      },
    });
    if (end.type !== 'stop' || end.why !== 'needs-pairing') return end;
    const now = await pairing.credentials();
    // Paired again while the old token was on its way: the new one has done nothing wrong.
    if (now && now.token !== credentials.token) return { type: 'new-token' };
    await pairing.dropToken();
    return end;
  }

  function settle(end: End): void {
    switch (end.type) {
      case 'cancelled':
        return;
      case 'new-token':
        void run();
        return;
      case 'unpaired':
        set({ type: 'unpaired' });
        return;
      case 'stop':
        set({ type: 'stopped', why: end.why });
        return;
      case 'done':
        tries = 0;
        notBefore = 0;
        lastAt = clock.now();
        // Recorded during the round: goes out now.
        if (again) {
          void run();
          return;
        }
        later(IDLE_MS);
        set({ type: 'idle', lastAt });
        return;
      case 'wait': {
        tries += 1;
        notBefore = end.notBefore;
        const retryAt = Math.max(clock.now() + backoff(tries, random), notBefore);
        later(retryAt - clock.now());
        set({ type: 'waiting', why: end.why, retryAt, tries });
      }
    }
  }

  function nudge(why: NudgeWhy): void {
    if (stopped) return;
    const atRest = state.type === 'waiting' || state.type === 'stopped';
    if (!running && atRest && (why === 'record' || clock.now() < notBefore)) return;
    void run();
  }

  async function pair(text: string, phone: string): Promise<PairResult> {
    const code = textToCode(text);
    if (!code) return failed('not-a-code', 'That is not a pairing code. It has ten letters and digits.');
    const request: PairRequest = { code, phone, station: await pairing.station() };
    const asked = await ask(transport, {
      token: null,
      now: clock.now,
      method: 'POST',
      path: '/api/pair',
      body: JSON.stringify(request),
      want: 'text',
      timeoutMs: timeoutFor(0),
    });
    if (asked.type === 'no') return failed(toFailure(asked.error.type), asked.error.sentence);
    if (asked.type === 'stop') {
      return failed(asked.why === 'needs-pairing' ? 'answer-unreadable' : asked.why, 'Server and app do not fit.');
    }
    if (asked.type === 'wait') return failed(asked.why, 'The server could not be asked. The code stays good.');
    if (asked.type === 'cancelled') return failed('no-answer', 'The question was called off.');
    const read = z.safeParse(pairAnswerSchema, readJson(asked.answer.text));
    if (!read.success) return failed('answer-unreadable', 'The server answered something this app cannot read.');
    const before = await pairing.history();
    // First, so that a crash in between leaves too much to send and never too little.
    if (before !== null && before !== read.data.history) await outbox.startOver();
    await pairing.keep(read.data);
    tries = 0;
    notBefore = 0;
    void run();
    return { type: 'paired', station: read.data.station };
  }

  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    nudge,
    pair,
    stop: () => {
      stopped = true;
      cancelTimer();
      transport.cancel();
      listeners.clear();
    },
  };
}

function failed(why: PairFailure, sentence: string): PairResult {
  return { type: 'not-paired', why, sentence };
}

function toFailure(type: string): PairFailure {
  switch (type) {
    case 'code-unknown':
    case 'code-used':
    case 'code-expired':
    case 'station-needed':
    case 'station-differs':
      return type;
    default:
      return 'answer-unreadable';
  }
}
