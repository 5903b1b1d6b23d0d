// The exchange: three lanes that run side by side, the pairing they need, and what the screen may say of them. It
// forgets nothing, and no failure of the network is an error here.
import type { Asked } from './ask.ts';
import type { CarryParts } from './carry.ts';
import { runDown } from './documentsDown.ts';
import { runUp } from './documentsUp.ts';
import { runEntries } from './entries.ts';
import type { Told } from './entriesParts.ts';
import { createLane, type Lane, type LaneEnd, type LaneRun, type NudgeWhy } from './lane.ts';
import { askToPair } from './pair.ts';
import type { LaneName, Outbox, Pairing, PairResult, SyncClock, SyncDetails, SyncState, Transport } from './ports.ts';

export type { NudgeWhy } from './lane.ts';

export type SyncParts = {
  transport: Transport;
  outbox: Outbox;
  clock: SyncClock;
  pairing: Pairing;
  /** From 0 up to 1. */
  random: () => number;
  /** SHA-256, hex. */
  hash: (bytes: Uint8Array<ArrayBuffer>) => Promise<string>;
  /** Whether somebody looks at the screen; without it nobody does. */
  visible?: () => boolean;
  /** Photos go over this network; without it they go over any. */
  mayCarryPhotos?: () => boolean;
  /** Listens for news at the server with that token, and tells whether the way is up; the answer ends it. */
  listen?: (token: string, told: { news: () => void; up: (up: boolean) => void }) => () => void;
  /** Told when the phone's own database or this code failed; the state says only `phone-failed`. */
  onFailure?: (error: unknown) => void;
};

export type Sync = {
  state: () => SyncState;
  details: () => SyncDetails;
  subscribe: (listener: (state: SyncState, details: SyncDetails) => void) => () => void;
  nudge: (why: NudgeWhy) => void;
  /** Swaps a scanned or typed code for a token, and starts at once. */
  pair: (code: string, phone: string) => Promise<PairResult>;
  /** For good: nothing is asked, written or reported afterwards. */
  stop: () => void;
};

/** Others' entries are asked for this often while news comes by itself, or while nobody looks. */
const IDLE_MS = 60_000;
/** And this often while somebody looks and something happened not long ago. */
const AWAKE_MS = 5000;
const AWAKE_FOR_MS = 600_000;
/** A slower answer says little about the time at the server. */
const MEASURED_WITHIN_MS = 10_000;

const NAMES: readonly LaneName[] = ['entries', 'up', 'down'];
type Ended = Extract<SyncState, { type: 'unpaired' | 'stopped' }>;

type Running = SyncParts & {
  listeners: Set<(state: SyncState, details: SyncDetails) => void>;
  shown: SyncState;
  ended: Ended | null;
  stopped: boolean;
  lastNews: number;
  clockAhead: number | null;
  listening: { token: string; end: () => void } | null;
  live: boolean | null;
  photosHeld: boolean;
  transport: Transport;
  lanes: Record<LaneName, Lane>;
};

export function createSync(parts: SyncParts): Sync {
  const { clock, random } = parts;

  const transport: Transport = {
    // A run that was in the database when the end came must not ask once more.
    send: async (request) =>
      sync.stopped ? { type: 'nothing', why: 'cancelled' } : await parts.transport.send(request),
    cancel: () => parts.transport.cancel(),
  };

  const lane = (run: (given: CarryParts) => Promise<LaneEnd>): Lane =>
    createLane({
      clock,
      random,
      run: (given) => withToken(sync, run, given),
      changed: () => publish(sync),
      ended: (why) => end(sync, { type: 'stopped', why }),
      onFailure: (error) => parts.onFailure?.(error),
    });
  const lanes: Record<LaneName, Lane> = {
    entries: lane((given) => carryEntries(sync, given)),
    up: lane((given) => runUp({ ...given, mayCarryPhotos: () => mayCarryPhotos(sync), hash: parts.hash })),
    down: lane(runDown),
  };
  const sync: Running = {
    ...parts,
    listeners: new Set<(state: SyncState, details: SyncDetails) => void>(),
    shown: { type: 'idle', lastAt: null },
    ended: null,
    stopped: false,
    lastNews: clock.now(),
    clockAhead: null,
    listening: null,
    live: null,
    photosHeld: false,
    transport,
    lanes,
  };

  return {
    state: () => sync.shown,
    details: () => details(sync),
    subscribe: (listener) => {
      sync.listeners.add(listener);
      return () => void sync.listeners.delete(listener);
    },
    nudge: (why) => nudge(sync, why),
    pair: (text, phone) => pair(sync, text, phone),
    stop: () => {
      for (const name of NAMES) lanes[name].halt();
      stopListening(sync);
      sync.stopped = true;
      transport.cancel();
      sync.listeners.clear();
    },
  };
}

async function withToken(
  sync: Running,
  run: (given: CarryParts) => Promise<LaneEnd>,
  given: LaneRun,
): Promise<LaneEnd> {
  for (;;) {
    const credentials = await sync.pairing.credentials();
    if (!credentials) {
      if ((await sync.pairing.history()) !== null) return { type: 'stop', why: 'needs-pairing' };
      end(sync, { type: 'unpaired' });
      return { type: 'cancelled' };
    }
    const { token } = credentials;
    const went = await run({ ...given, transport: sync.transport, outbox: sync.outbox, token, now: sync.clock.now });
    if (went.type === 'done') listenWith(sync, token);
    if (went.type !== 'stop' || went.why !== 'needs-pairing') return went;
    const now = await sync.pairing.credentials();
    // Paired again while the old token was on its way: the new one has done nothing wrong.
    if (now && now.token !== token) continue;
    await sync.pairing.dropToken();
    return went;
  }
}

async function carryEntries(sync: Running, given: CarryParts): Promise<LaneEnd> {
  const went = await runEntries({
    ...given,
    heard: (told, asked) => heard(sync, told, asked),
    received: () => {
      sync.lastNews = sync.clock.now();
      wantAgain(sync);
    },
    documentsQueued: () => nudgeLane(sync, 'up', 'news'),
  });
  return went.type === 'done' ? { type: 'done', next: pollMs(sync) } : went;
}

function pollMs(sync: Running): number {
  const since = sync.clock.now() - sync.lastNews;
  const awake = sync.live !== true && sync.visible?.() === true && since >= 0 && since < AWAKE_FOR_MS;
  return awake ? AWAKE_MS : IDLE_MS;
}

function mayCarryPhotos(sync: Running): boolean {
  const may = sync.mayCarryPhotos?.() ?? true;
  sync.photosHeld = !may;
  return may;
}

async function heard(sync: Running, told: Told, asked: Extract<Asked, { type: 'ok' }>): Promise<boolean> {
  if (told.now !== undefined) await measure(sync, told.now, asked.sentAt, asked.gotAt);
  if (told.history === undefined) return false;
  const { history } = await sync.outbox.numbering();
  if (history === told.history) return false;
  if (history === null) await sync.outbox.learnHistory(told.history);
  else await sync.outbox.newHistory(told.history);
  return history !== null;
}

/** The server's time is taken to be that of the middle of the way there and back. */
async function measure(sync: Running, server: number, sentAt: number, gotAt: number): Promise<void> {
  const way = gotAt - sentAt;
  if (way < 0 || way > MEASURED_WITHIN_MS) return;
  const ahead = Math.round(sentAt + way / 2 - server);
  // Within the uncertainty of the measurement nothing has changed.
  if (sync.clockAhead !== null && Math.abs(ahead - sync.clockAhead) <= Math.max(1000, way)) return;
  sync.clockAhead = ahead;
  await sync.outbox.keepClock(ahead);
}

function listenWith(sync: Running, token: string): void {
  if (!sync.listen || sync.stopped || sync.ended || sync.listening?.token === token) return;
  stopListening(sync);
  const end = sync.listen(token, {
    news: () => {
      sync.lastNews = sync.clock.now();
      nudge(sync, 'news');
    },
    up: (up) => {
      if (sync.live === up) return;
      sync.live = up;
      // The way that has just gone may have swallowed something, and polling goes by another beat now.
      sync.lanes.entries.nudge('news');
      publish(sync);
    },
  });
  sync.listening = { token, end };
}

function stopListening(sync: Running): void {
  sync.listening?.end();
  sync.listening = null;
  sync.live = null;
}

function end(sync: Running, why: Ended): void {
  if (sync.stopped) return;
  sync.ended = why;
  for (const name of NAMES) sync.lanes[name].halt();
  stopListening(sync);
  sync.transport.cancel();
  publish(sync);
}

/** While a lane that was woken has not said yet whether there is anything to do, there is nothing to tell. */
function publish(sync: Running): void {
  if (sync.stopped) return;
  const next = sync.ended ?? sum(sync);
  const quiet = next.type !== 'sending' && NAMES.some((name) => sync.lanes[name].state().type === 'busy');
  if (quiet && !sync.ended) return;
  sync.shown = next;
  const told = details(sync);
  for (const listener of [...sync.listeners]) listener(next, told);
}

function sum(sync: Running): SyncState {
  const states = NAMES.map((name) => sync.lanes[name].state());
  for (const one of states) if (one.type === 'busy' && one.progress) return { type: 'sending', progress: one.progress };
  for (const one of states) if (one.type === 'waiting') return one;
  const { entries } = sync.lanes;
  const state = entries.state();
  return { type: 'idle', lastAt: state.type === 'idle' ? state.lastAt : null };
}

function details(sync: Running): SyncDetails {
  const { entries, up, down } = sync.lanes;
  return {
    lanes: { entries: entries.state(), up: up.state(), down: down.state() },
    live: sync.live,
    clockAhead: sync.clockAhead,
    photosHeld: sync.photosHeld,
  };
}

function nudgeLane(sync: Running, name: LaneName, why: NudgeWhy): void {
  if (!sync.stopped && !sync.ended) sync.lanes[name].nudge(why);
}

function nudge(sync: Running, why: NudgeWhy): void {
  if (sync.stopped || (sync.ended && (why === 'record' || why === 'news'))) return;
  sync.ended = null;
  if (why !== 'news') {
    sync.lastNews = sync.clock.now();
    for (const name of NAMES) sync.lanes[name].nudge(why);
    return;
  }
  sync.lanes.entries.nudge('news');
  wantAgain(sync);
}

/** What another phone had named and not sent may be at the server now. */
function wantAgain(sync: Running): void {
  void sync.outbox.wantAgain().then(
    () => nudgeLane(sync, 'down', 'news'),
    (error: unknown) => sync.onFailure?.(error),
  );
}

async function pair(sync: Running, text: string, phone: string): Promise<PairResult> {
  const asked = await askToPair({ transport: sync.transport, pairing: sync.pairing, now: sync.clock.now }, text, phone);
  if (asked.type !== 'answer') return asked;
  const before = await sync.pairing.history();
  // First, so that a crash in between leaves too much to compare and never too little.
  await sync.outbox.pairedWith(asked.answer.history, before);
  await sync.pairing.keep(asked.answer);
  sync.ended = null;
  for (const name of NAMES) sync.lanes[name].restart();
  return { type: 'paired', station: asked.answer.station };
}
