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

type LiveParts = {
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

type Running = {
  open: (token: string) => LiveOpening;
  clock: SyncClock;
  random: () => number;
  onMessage: (message: LiveMessage) => void;
  onState: (state: LiveState) => void;
  token: string | null;
  state: LiveState;
  /** Goes up whenever what is under way is given up: whatever it still brings is passed over. */
  turn: number;
  abort: () => void;
  cancelSilence: () => void;
  cancelWait: (() => void) | null;
  tries: number;
  openedAt: number;
  heardAt: number;
  /** The server asked for peace until then. */
  notBefore: number;
};

export function createLive({ open, clock, random, onMessage, onState }: LiveParts): Live {
  const live: Running = {
    open,
    clock,
    random,
    onMessage,
    onState,
    token: null,
    state: 'none',
    turn: 0,
    abort: () => undefined,
    cancelSilence: () => undefined,
    cancelWait: null,
    tries: 0,
    openedAt: 0,
    heardAt: 0,
    notBefore: 0,
  };

  return {
    start: (next) => start(live, next),
    retry: () => retry(live),
    stop: () => stop(live),
  };
}

function set(live: Running, next: LiveState): void {
  if (live.state === next) return;
  live.state = next;
  live.onState(next);
}

function giveUp(live: Running): void {
  live.turn += 1;
  live.abort();
  live.cancelSilence();
  live.cancelWait?.();
  live.cancelWait = null;
}

function connect(live: Running): void {
  giveUp(live);
  if (live.token === null) return;
  const mine = live.turn;
  live.openedAt = live.clock.now();
  const opening = live.open(live.token);
  live.abort = opening.abort;
  listenFor(live, mine);
  void follow(live, mine, opening);
}

function listenFor(live: Running, mine: number): void {
  live.cancelSilence();
  live.heardAt = live.clock.now();
  live.cancelSilence = live.clock.after(SILENCE_MS, () => lost(live, mine));
}

async function follow(live: Running, mine: number, opening: LiveOpening): Promise<void> {
  const answer = await opening.answer;
  if (mine !== live.turn) return;
  if (!answer || !isStream(answer)) {
    lost(live, mine, answer ? waitAsked(answer, live.clock.now()) : 0);
    return;
  }
  let rest = '';
  for (;;) {
    const piece = await answer.read();
    if (mine !== live.turn) return;
    if (piece === null) break;
    const lines = (rest + piece).split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) if (mine === live.turn && line.startsWith('data:')) take(live, mine, line.slice(5));
    if (mine !== live.turn) return;
    if (rest.length > LONGEST_LINE) break;
  }
  lost(live, mine);
}

function take(live: Running, mine: number, text: string): void {
  const read = z.safeParse(liveMessageSchema, readJson(text));
  // A kind that this app does not know is a sign of life all the same.
  listenFor(live, mine);
  set(live, 'live');
  if (read.success && mine === live.turn) live.onMessage(read.data);
}

/** @param asked Until when the server wants to be left alone. */
function lost(live: Running, mine: number, asked = 0): void {
  if (mine !== live.turn) return;
  // Only a stream that stood a while makes up for failures: one that is cut again and again must not be hammered.
  live.tries = live.state === 'live' && live.clock.now() - live.openedAt >= SILENCE_MS ? 1 : live.tries + 1;
  giveUp(live);
  live.notBefore = asked;
  const wait = Math.max(backoff(live.tries, live.random), live.notBefore - live.clock.now());
  live.cancelWait = live.clock.after(wait, () => connect(live));
  set(live, 'none');
}

function stop(live: Running): void {
  live.token = null;
  live.tries = 0;
  live.notBefore = 0;
  giveUp(live);
  set(live, 'none');
}

function start(live: Running, next: string): void {
  if (next === live.token) return;
  stop(live);
  live.token = next;
  connect(live);
}

function retry(live: Running): void {
  const waits = live.cancelWait !== null && live.clock.now() >= live.notBefore;
  // Timers stand still while a phone sleeps; the stream may have died in that time.
  const silent = live.cancelWait === null && live.clock.now() - live.heardAt > SILENCE_MS;
  if (live.token === null || !(waits || silent)) return;
  if (silent) set(live, 'none');
  connect(live);
}

function isStream(answer: LiveAnswer): boolean {
  const ours = /^[0-9]{1,6}$/.test(answer.header(WIRE_HEADER) ?? '');
  return ours && answer.status === 200 && (answer.header('content-type') ?? '').startsWith('text/event-stream');
}

function waitAsked(answer: LiveAnswer, now: number): number {
  const ours = answer.header(WIRE_HEADER) !== null;
  return ours && answer.status === 404 ? now + UNKNOWN_MS : retryAfter(answer.header('retry-after'), now);
}
