// The stream of news from the server as a state machine: opened, read, taken for dead after silence, opened again with
// growing waits. It only says that there is something to ask for; while it says `none`, the caller has to poll.
import * as z from 'zod/mini';
import { LIVE_PING_MS, type LiveMessage, liveMessageSchema, WIRE_HEADER } from '../wire/sync.ts';
import { backoff, readJson, retryAfter } from './ask.ts';
import type { SyncClock } from './ports.ts';

/** What came back to the question for the stream. */
export type LiveAnswer = {
  status: number;
  /** Names in lower case. */
  header: (name: string) => string | null;
  /** The next piece of text, wherever it was cut; null when the stream is over, also when its way broke. */
  read: () => Promise<string | null>;
};
/** `answer` is null when nobody answered; `abort` ends question and stream, at any time. */
export type LiveOpening = { answer: Promise<LiveAnswer | null>; abort: () => void };

/** `live`: news comes by itself. `none`: it has to be asked for. */
export type LiveState = 'live' | 'none';

export type LiveParts = {
  /** Asks `GET /api/live`. Never throws. */
  open: (token: string) => LiveOpening;
  clock: SyncClock;
  /** From 0 up to 1. */
  random: () => number;
  onMessage: (message: LiveMessage) => void;
  onState: (state: LiveState) => void;
};

export type Live = {
  /** Keeps a stream open with this token from now on; with the one it has already, nothing changes. */
  start: (token: string) => void;
  /** The network may be back, or the phone awake again: a wait is cut short, unless the server asked for it. */
  retry: () => void;
  stop: () => void;
};

const SILENCE_MS = 2 * LIVE_PING_MS;
/** A server that does not know the question may be replaced by one that does. */
const UNKNOWN_MS = 3_600_000;
/** No message comes near it; whoever sends a line without an end is not our server. */
const LONGEST_LINE = 1024 * 1024;

export function createLive({ open, clock, random, onMessage, onState }: LiveParts): Live {
  let token: string | null = null;
  let state: LiveState = 'none';
  /** Goes up whenever what is under way is given up: whatever it still brings is passed over. */
  let turn = 0;
  let abort: () => void = () => undefined;
  let cancelSilence: () => void = () => undefined;
  let cancelWait: (() => void) | null = null;
  let tries = 0;
  let openedAt = 0;
  let heardAt = 0;
  /** The server asked for peace until then. */
  let notBefore = 0;

  function set(next: LiveState): void {
    if (state === next) return;
    state = next;
    onState(next);
  }

  function giveUp(): void {
    turn += 1;
    abort();
    cancelSilence();
    cancelWait?.();
    cancelWait = null;
  }

  function connect(): void {
    giveUp();
    if (token === null) return;
    const mine = turn;
    openedAt = clock.now();
    const opening = open(token);
    abort = opening.abort;
    listenFor(mine);
    void follow(mine, opening);
  }

  function listenFor(mine: number): void {
    cancelSilence();
    heardAt = clock.now();
    cancelSilence = clock.after(SILENCE_MS, () => lost(mine));
  }

  async function follow(mine: number, opening: LiveOpening): Promise<void> {
    const answer = await opening.answer;
    if (mine !== turn) return;
    if (!answer || !isStream(answer)) {
      lost(mine, answer ? waitAsked(answer, clock.now()) : 0);
      return;
    }
    let rest = '';
    for (;;) {
      const piece = await answer.read();
      if (mine !== turn) return;
      if (piece === null) break;
      const lines = (rest + piece).split('\n');
      rest = lines.pop() ?? '';
      for (const line of lines) if (mine === turn && line.startsWith('data:')) take(mine, line.slice(5));
      if (mine !== turn) return;
      if (rest.length > LONGEST_LINE) break;
    }
    lost(mine);
  }

  function take(mine: number, text: string): void {
    const read = z.safeParse(liveMessageSchema, readJson(text));
    // A kind that this app does not know is a sign of life all the same.
    listenFor(mine);
    set('live');
    if (read.success && mine === turn) onMessage(read.data);
  }

  /** @param asked Until when the server wants to be left alone. */
  function lost(mine: number, asked = 0): void {
    if (mine !== turn) return;
    // Only a stream that stood a while makes up for failures: one that is cut again and again must not be hammered.
    tries = state === 'live' && clock.now() - openedAt >= SILENCE_MS ? 1 : tries + 1;
    giveUp();
    notBefore = asked;
    const wait = Math.max(backoff(tries, random), notBefore - clock.now());
    cancelWait = clock.after(wait, connect);
    set('none');
  }

  function stop(): void {
    token = null;
    tries = 0;
    notBefore = 0;
    giveUp();
    set('none');
  }

  return {
    start: (next) => {
      if (next === token) return;
      stop();
      token = next;
      connect();
    },
    retry: () => {
      const waits = cancelWait !== null && clock.now() >= notBefore;
      // Timers stand still while a phone sleeps; the stream may have died in that time.
      const silent = cancelWait === null && clock.now() - heardAt > SILENCE_MS;
      if (token === null || !(waits || silent)) return;
      if (silent) set('none');
      connect();
    },
    stop,
  };
}

function isStream(answer: LiveAnswer): boolean {
  const ours = /^[0-9]{1,6}$/.test(answer.header(WIRE_HEADER) ?? '');
  return ours && answer.status === 200 && (answer.header('content-type') ?? '').startsWith('text/event-stream');
}

function waitAsked(answer: LiveAnswer, now: number): number {
  const ours = answer.header(WIRE_HEADER) !== null;
  return ours && answer.status === 404 ? now + UNKNOWN_MS : retryAfter(answer.header('retry-after'), now);
}
