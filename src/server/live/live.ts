// Streams of news to phones that are online: that there is something to pull, and who else is where. It carries
// nothing that the other routes do not answer too, so a stream that ends or never opens costs time and nothing else.
import { LIVE_PING_MS, type LiveMessage, PRESENCE_LIFE_MS, type Presence } from '../../wire/sync.ts';
import type { Database } from '../database/database.ts';
import { othersOf, rowsToPresent } from './presence.ts';

/** How often the numbers of stations with listeners are looked at: the way news of other processes gets here. */
const LOOK_MS = 1000;
/** Pushes that come this close together are told as one. */
const GATHER_MS = 40;
/** A stream ends then and the phone comes back: tokens, proxies and processes change under long ones. */
export const LIVE_LIFE_MS = 3_600_000;
/** Bytes that may wait for a phone which does not read; after that it is dropped and comes back. */
const MOST_WAITING = 16 * 1024;

export type LiveLimits = { streamsPerPhone: number; streamsInAll: number };

type LiveParts = {
  db: Database;
  now: () => number;
  /** Calls back once after that many milliseconds; the answer undoes it. */
  after: (ms: number, call: () => void) => () => void;
  limits: LiveLimits;
  onFailure: (error: unknown) => void;
  /** Tells the other processes that a station has news; they look for themselves, sooner than they would have. */
  tellOthers?: (station: string) => void;
};

export type Live = {
  /** The stream of one phone; null when there are too many in all. A phone's oldest makes room for its newest. */
  open: (phone: { id: string; station: string }) => Promise<ReadableStream<Uint8Array> | null>;
  /** After something of the station has been committed here; `top` is the highest number it got. */
  notify: (station: string, top: number) => void;
  /** Something of the station may have changed, says another process. Looked at soon, believed never. */
  hint: (station: string) => void;
  dropPhone: (phone: string) => void;
  /** Ends every stream, for good. */
  close: () => void;
};

type Listener = {
  phone: string;
  openedAt: number;
  sentAt: number;
  /** False until the first words are on their way: before them nothing else may be. */
  ready: boolean;
  top: number;
  /** What it was told last of who is about, and of which edition of the station's list that was. */
  present: string;
  edition: number;
  controller: ReadableStreamDefaultController<Uint8Array>;
};
type Station = {
  top: number;
  history: string;
  present: Presence[];
  presentText: string;
  edition: number;
  listeners: Set<Listener>;
};

function newStation(): Station {
  return { top: -1, history: '', present: [], presentText: '[]', edition: 0, listeners: new Set() };
}

function keepPresent(station: Station, present: Presence[]): void {
  const text = JSON.stringify(present);
  if (text === station.presentText) return;
  Object.assign(station, { present, presentText: text, edition: station.edition + 1 });
}

type LiveState = LiveParts & {
  stations: Map<string, Station>;
  /** Stations with news that is not told yet: from here, and from other processes. */
  fresh: Set<string>;
  hinted: Set<string>;
  inAll: number;
  closed: boolean;
  looking: boolean;
  /** One line of a log for each outage, not one for each second of it. */
  failing: boolean;
  cancelTick: (() => void) | null;
  cancelTell: (() => void) | null;
};

export function createLive(parts: LiveParts): Live {
  const live: LiveState = {
    ...parts,
    stations: new Map<string, Station>(),
    fresh: new Set<string>(),
    hinted: new Set<string>(),
    inAll: 0,
    closed: false,
    looking: false,
    failing: false,
    cancelTick: null,
    cancelTell: null,
  };

  return {
    open: (phone) => open(live, phone),
    notify: (id, top) => notify(live, id, top),
    hint: (id) => hint(live, id),
    dropPhone: (phone) => dropPhone(live, phone),
    close: () => {
      live.closed = true;
      live.cancelTick?.();
      live.cancelTell?.();
      for (const [id, station] of [...live.stations])
        for (const listener of [...station.listeners]) end(live, id, listener);
    },
  };
}

async function open(
  live: LiveState,
  phone: { id: string; station: string },
): Promise<ReadableStream<Uint8Array> | null> {
  const mine = [...(live.stations.get(phone.station)?.listeners ?? [])].filter((one) => one.phone === phone.id);
  // The older one is most often of a connection that has died without a word.
  if (mine[0] && mine.length >= live.limits.streamsPerPhone) end(live, phone.station, mine[0]);
  if (live.closed || live.inAll >= live.limits.streamsInAll) return null;
  let listener: Listener | null = null;
  const stream = new ReadableStream<Uint8Array>(
    {
      start: (controller) => {
        listener = add(live, phone, controller);
      },
      cancel: () => void (listener && remove(live, phone.station, listener)),
    },
    new ByteLengthQueuingStrategy({ highWaterMark: MOST_WAITING }),
  );
  try {
    await look(live, [phone.station]);
  } catch (error) {
    await stream.cancel();
    throw error;
  }
  const station = live.stations.get(phone.station);
  if (station && listener) {
    begin(live, phone.station, station, listener);
    live.cancelTick ??= live.after(LOOK_MS, () => tick(live));
  }
  return stream;
}

function add(live: LiveState, phone: { id: string; station: string }, controller: Listener['controller']): Listener {
  const at = live.now();
  const listener: Listener = {
    phone: phone.id,
    openedAt: at,
    sentAt: at,
    ready: false,
    top: -1,
    present: '[]',
    edition: 0,
    controller,
  };
  const station = live.stations.get(phone.station) ?? newStation();
  station.listeners.add(listener);
  live.stations.set(phone.station, station);
  live.inAll += 1;
  return listener;
}

function begin(live: LiveState, id: string, station: Station, listener: Listener): void {
  listener.ready = true;
  ping(live, id, station, listener);
  tell(live, id, station);
}

function remove(live: LiveState, id: string, listener: Listener): void {
  const station = live.stations.get(id);
  if (!station?.listeners.delete(listener)) return;
  live.inAll -= 1;
  if (station.listeners.size === 0) live.stations.delete(id);
}

function end(live: LiveState, id: string, listener: Listener): void {
  remove(live, id, listener);
  listener.controller.close();
}

function send(live: LiveState, id: string, listener: Listener, message: LiveMessage): void {
  if (!live.stations.get(id)?.listeners.has(listener)) return;
  if ((listener.controller.desiredSize ?? 0) <= 0) {
    end(live, id, listener);
    return;
  }
  listener.sentAt = live.now();
  listener.controller.enqueue(new TextEncoder().encode(`data: ${JSON.stringify(message)}\n\n`));
}

function ping(live: LiveState, id: string, station: Station, listener: Listener): void {
  send(live, id, listener, { type: 'ping', now: live.now(), history: station.history });
}

/** To each listener of a station what it was not told yet. */
function tell(live: LiveState, id: string, station: Station): void {
  for (const listener of [...station.listeners]) {
    if (!listener.ready) continue;
    if (station.top > listener.top) {
      listener.top = station.top;
      send(live, id, listener, { type: 'events', top: station.top });
    }
    if (listener.edition === station.edition) continue;
    listener.edition = station.edition;
    const present = othersOf(station.present, listener.phone);
    const text = JSON.stringify(present);
    if (text === listener.present) continue;
    listener.present = text;
    send(live, id, listener, { type: 'present', present });
  }
}

/** Brings what is known of these stations up to date with the database. */
async function look(live: LiveState, ids: string[]): Promise<void> {
  const rows = await live.db.query
    .selectFrom('stations')
    .leftJoin('presence', (join) =>
      join.onRef('presence.station', '=', 'stations.id').on('presence.at', '>', live.now() - PRESENCE_LIFE_MS),
    )
    .select(['stations.id', 'next_number', 'history', 'phone', 'said', 'at'])
    .where('stations.id', 'in', ids)
    .execute();
  const byStation = new Map<string, typeof rows>();
  for (const row of rows) byStation.set(row.id, [...(byStation.get(row.id) ?? []), row]);
  for (const [id, of] of byStation) {
    const station = live.stations.get(id);
    const [first] = of;
    if (!station || !first) continue;
    const there = of.flatMap(({ phone, said, at }) =>
      phone !== null && said !== null && at !== null ? [{ phone, said, at }] : [],
    );
    keepPresent(station, rowsToPresent(there));
    // What was told here meanwhile may be newer than what was read; another numbering makes both worthless.
    const same = station.history === first.history;
    station.top = same ? Math.max(station.top, first.next_number - 1) : first.next_number - 1;
    if (same) continue;
    const began = station.history === '';
    station.history = first.history;
    for (const listener of began ? [] : [...station.listeners]) {
      listener.top = -1;
      if (listener.ready) ping(live, id, station, listener);
    }
  }
}

async function lookAtAll(live: LiveState): Promise<void> {
  const ids = [...live.stations.keys()];
  const phones = [...live.stations.values()].flatMap((station) => [...station.listeners].map((one) => one.phone));
  live.hinted.clear();
  if (ids.length === 0) return;
  await look(live, ids);
  const gone = await live.db.query
    .selectFrom('phones')
    .select('id')
    .where('id', 'in', [...new Set(phones)])
    .where('revoked_at', 'is not', null)
    .execute();
  for (const { id } of gone) dropPhone(live, id);
  for (const [id, station] of live.stations) tell(live, id, station);
}

/** One question at a time: while the database is away, none may pile up behind it. */
async function lookNow(live: LiveState, look: () => Promise<void>): Promise<void> {
  if (live.looking || live.closed) return;
  live.looking = true;
  try {
    await look();
    live.failing = false;
  } catch (error) {
    if (!live.failing && !live.closed) live.onFailure(error);
    live.failing = true;
  }
  live.looking = false;
  // Of what was hinted at meanwhile this look may have seen too little.
  if (live.hinted.size > 0 && !live.failing) void lookNow(live, () => lookAtHinted(live));
}

async function lookAtHinted(live: LiveState): Promise<void> {
  const ids = [...live.hinted].filter((id) => live.stations.has(id));
  live.hinted.clear();
  if (ids.length === 0) return;
  await look(live, ids);
  for (const id of ids) {
    const station = live.stations.get(id);
    if (station) tell(live, id, station);
  }
}

function tick(live: LiveState): void {
  live.cancelTick = null;
  for (const [id, station] of [...live.stations]) {
    for (const listener of [...station.listeners]) {
      if (!listener.ready) continue;
      if (live.now() - listener.openedAt >= LIVE_LIFE_MS) end(live, id, listener);
      // One look early: the silence may not grow longer than was promised.
      else if (live.now() - listener.sentAt >= LIVE_PING_MS - LOOK_MS) ping(live, id, station, listener);
    }
  }
  void lookNow(live, () => lookAtAll(live));
  if (live.stations.size > 0 && !live.closed) live.cancelTick = live.after(LOOK_MS, () => tick(live));
}

function soon(live: LiveState): void {
  live.cancelTell ??= live.after(GATHER_MS, () => {
    live.cancelTell = null;
    for (const id of live.fresh) {
      live.tellOthers?.(id);
      const station = live.stations.get(id);
      if (station) tell(live, id, station);
    }
    live.fresh.clear();
    if (live.hinted.size > 0) void lookNow(live, () => lookAtHinted(live));
  });
}

function notify(live: LiveState, id: string, top: number): void {
  const station = live.stations.get(id);
  if (live.closed || (station ? top <= station.top : !live.tellOthers)) return;
  if (station) station.top = top;
  live.fresh.add(id);
  soon(live);
}

function hint(live: LiveState, id: string): void {
  if (live.closed || !live.stations.has(id)) return;
  live.hinted.add(id);
  soon(live);
}

function dropPhone(live: LiveState, phone: string): void {
  for (const [id, station] of [...live.stations]) {
    for (const listener of [...station.listeners]) if (listener.phone === phone) end(live, id, listener);
  }
}
