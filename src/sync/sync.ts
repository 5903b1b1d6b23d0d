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

export function createSync(parts: SyncParts): Sync {
  const { outbox, clock, pairing, random } = parts;
  const listeners = new Set<(state: SyncState, details: SyncDetails) => void>();
  let shown: SyncState = { type: 'idle', lastAt: null };
  let ended: Ended | null = null;
  let stopped = false;
  let lastNews = clock.now();
  let clockAhead: number | null = null;
  let listening: { token: string; end: () => void } | null = null;
  let live: boolean | null = null;
  let photosHeld = false;

  const transport: Transport = {
    // A run that was in the database when the end came must not ask once more.
    send: async (request) => (stopped ? { type: 'nothing', why: 'cancelled' } : await parts.transport.send(request)),
    cancel: () => parts.transport.cancel(),
  };

  const lane = (run: (given: CarryParts) => Promise<LaneEnd>): Lane =>
    createLane({
      clock,
      random,
      run: (given) => withToken(run, given),
      changed: publish,
      ended: (why) => end({ type: 'stopped', why }),
      onFailure: (error) => parts.onFailure?.(error),
    });
  const lanes: Record<LaneName, Lane> = {
    entries: lane(carryEntries),
    up: lane((given) => runUp({ ...given, mayCarryPhotos, hash: parts.hash })),
    down: lane(runDown),
  };

  async function withToken(run: (given: CarryParts) => Promise<LaneEnd>, given: LaneRun): Promise<LaneEnd> {
    for (;;) {
      const credentials = await pairing.credentials();
      if (!credentials) {
        if ((await pairing.history()) !== null) return { type: 'stop', why: 'needs-pairing' };
        end({ type: 'unpaired' });
        return { type: 'cancelled' };
      }
      const { token } = credentials;
      const went = await run({ ...given, transport, outbox, token, now: clock.now });
      if (went.type === 'done') listenWith(token);
      if (went.type !== 'stop' || went.why !== 'needs-pairing') return went;
      const now = await pairing.credentials();
      // Paired again while the old token was on its way: the new one has done nothing wrong.
      if (now && now.token !== token) continue;
      await pairing.dropToken();
      return went;
    }
  }

  async function carryEntries(given: CarryParts): Promise<LaneEnd> {
    const went = await runEntries({
      ...given,
      heard,
      received: () => {
        lastNews = clock.now();
        wantAgain();
      },
      documentsQueued: () => nudgeLane('up', 'news'),
    });
    return went.type === 'done' ? { type: 'done', next: pollMs() } : went;
  }

  function pollMs(): number {
    const since = clock.now() - lastNews;
    const awake = live !== true && parts.visible?.() === true && since >= 0 && since < AWAKE_FOR_MS;
    return awake ? AWAKE_MS : IDLE_MS;
  }

  function mayCarryPhotos(): boolean {
    const may = parts.mayCarryPhotos?.() ?? true;
    photosHeld = !may;
    return may;
  }

  async function heard(told: Told, asked: Extract<Asked, { type: 'ok' }>): Promise<boolean> {
    if (told.now !== undefined) await measure(told.now, asked.sentAt, asked.gotAt);
    if (told.history === undefined) return false;
    const { history } = await outbox.numbering();
    if (history === told.history) return false;
    if (history === null) await outbox.learnHistory(told.history);
    else await outbox.newHistory(told.history);
    return history !== null;
  }

  /** The server's time is taken to be that of the middle of the way there and back. */
  async function measure(server: number, sentAt: number, gotAt: number): Promise<void> {
    const way = gotAt - sentAt;
    if (way < 0 || way > MEASURED_WITHIN_MS) return;
    const ahead = Math.round(sentAt + way / 2 - server);
    // Within the uncertainty of the measurement nothing has changed.
    if (clockAhead !== null && Math.abs(ahead - clockAhead) <= Math.max(1000, way)) return;
    clockAhead = ahead;
    await outbox.keepClock(ahead);
  }

  function listenWith(token: string): void {
    if (!parts.listen || stopped || ended || listening?.token === token) return;
    stopListening();
    const end = parts.listen(token, {
      news: () => {
        lastNews = clock.now();
        nudge('news');
      },
      up: (up) => {
        if (live === up) return;
        live = up;
        // The way that has just gone may have swallowed something, and polling goes by another beat now.
        lanes.entries.nudge('news');
        publish();
      },
    });
    listening = { token, end };
  }

  function stopListening(): void {
    listening?.end();
    listening = null;
    live = null;
  }

  function end(why: Ended): void {
    if (stopped) return;
    ended = why;
    for (const name of NAMES) lanes[name].halt();
    stopListening();
    transport.cancel();
    publish();
  }

  /** While a lane that was woken has not said yet whether there is anything to do, there is nothing to tell. */
  function publish(): void {
    if (stopped) return;
    const next = ended ?? sum();
    const quiet = next.type !== 'sending' && NAMES.some((name) => lanes[name].state().type === 'busy');
    if (quiet && !ended) return;
    shown = next;
    const told = details();
    for (const listener of [...listeners]) listener(next, told);
  }

  function sum(): SyncState {
    const states = NAMES.map((name) => lanes[name].state());
    for (const one of states)
      if (one.type === 'busy' && one.progress) return { type: 'sending', progress: one.progress };
    for (const one of states) if (one.type === 'waiting') return one;
    const { entries } = lanes;
    const state = entries.state();
    return { type: 'idle', lastAt: state.type === 'idle' ? state.lastAt : null };
  }

  function details(): SyncDetails {
    const { entries, up, down } = lanes;
    return { lanes: { entries: entries.state(), up: up.state(), down: down.state() }, live, clockAhead, photosHeld };
  }

  function nudgeLane(name: LaneName, why: NudgeWhy): void {
    if (!stopped && !ended) lanes[name].nudge(why);
  }

  function nudge(why: NudgeWhy): void {
    if (stopped || (ended && (why === 'record' || why === 'news'))) return;
    ended = null;
    if (why !== 'news') {
      lastNews = clock.now();
      for (const name of NAMES) lanes[name].nudge(why);
      return;
    }
    lanes.entries.nudge('news');
    wantAgain();
  }

  /** What another phone had named and not sent may be at the server now. */
  function wantAgain(): void {
    void outbox.wantAgain().then(
      () => nudgeLane('down', 'news'),
      (error: unknown) => parts.onFailure?.(error),
    );
  }

  async function pair(text: string, phone: string): Promise<PairResult> {
    const asked = await askToPair({ transport, pairing, now: clock.now }, text, phone);
    if (asked.type !== 'answer') return asked;
    const before = await pairing.history();
    // First, so that a crash in between leaves too much to compare and never too little.
    await outbox.pairedWith(asked.answer.history, before);
    await pairing.keep(asked.answer);
    ended = null;
    for (const name of NAMES) lanes[name].restart();
    return { type: 'paired', station: asked.answer.station };
  }

  return {
    state: () => shown,
    details,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    nudge,
    pair,
    stop: () => {
      for (const name of NAMES) lanes[name].halt();
      stopListening();
      stopped = true;
      transport.cancel();
      listeners.clear();
    },
  };
}
