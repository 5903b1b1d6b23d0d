// One phone of the fault run: the real store and exchange behind the proxy, a clock that runs fast and can be set
// wrong, and an app that dies and starts again on the same disk.

import { getMeta } from '../../src/store/schema.ts';
import { createFetchTransport } from '../../src/sync/fetchTransport.ts';
import type { SyncClock, SyncState, Transport } from '../../src/sync/ports.ts';
import type { StationName } from '../../src/wire/sync.ts';
import { sha } from '../server/help.ts';
import { type Holding, NOTHING_HELD } from './faultServer.ts';
import type { StorePhone } from './storePhone.ts';
import { newDisk, openStorePhone } from './storePhone.ts';

/** So many milliseconds of the phone's clock go by in one: waits of minutes are over in a second. */
const SPEED = 200;
const DAY_MS = 86_400_000;
const LONGEST_ASK_MS = 4000;
const LONGEST_ROUND_MS = 60_000;

export type FaultPhone = {
  name: string;
  /** Entries made here, as they were shown to be kept. */
  made: Map<string, string>;
  /** Hashes of what was photographed here. */
  taken: Set<string>;
  pair: (code: string) => Promise<string>;
  note: (text: string) => Promise<void>;
  photo: (bytes: Uint8Array<ArrayBuffer>) => Promise<void>;
  want: (name: string) => Promise<void>;
  nudge: () => void;
  /** The app dies at this moment and is started again. */
  restart: () => Promise<void>;
  /** @param days Fractions and negative ones too. */
  jumpClock: (days: number) => void;
  log: () => Promise<string | null>;
  /** A round a day later on its clock, to its end; answers with the state it came to. */
  nextDay: () => Promise<SyncState['type'] | 'no end'>;
  waiting: () => Promise<number>;
  /** Why what waits does, each reason once. */
  reasons: () => Promise<string[]>;
  held: () => Promise<Holding>;
  failures: unknown[];
  close: () => void;
};

export async function openFaultPhone(name: string, station: StationName, origin: string): Promise<FaultPhone> {
  const disk = newDisk();
  const ids = { made: 0 };
  const began = Date.now();
  let offset = 0;
  const clock: SyncClock = {
    now: () => Math.round(began + (Date.now() - began) * SPEED + offset),
    after: (ms, call) => {
      const timer = setTimeout(call, Math.max(1, ms / SPEED));
      return () => clearTimeout(timer);
    },
  };
  const failures: unknown[] = [];
  const made = new Map<string, string>();
  const taken = new Set<string>();
  let phone = await begin();

  /** Once dead, nothing that was on its way is ever heard of again. */
  function mortal(): Transport & { die: () => void } {
    const plain = createFetchTransport({
      fetch,
      makeAbort: () => {
        const controller = new AbortController();
        return { signal: controller.signal, abort: () => controller.abort() };
      },
      after: (ms, call) => {
        const timer = setTimeout(call, Math.min(ms, LONGEST_ASK_MS));
        return () => clearTimeout(timer);
      },
      origin,
    });
    let dead = false;
    const never = new Promise<never>(() => undefined);
    return {
      send: async (request) => {
        const answer = dead ? await never : await plain.send(request);
        return dead ? await never : answer;
      },
      cancel: plain.cancel,
      die: () => {
        dead = true;
        plain.cancel();
      },
    };
  }

  async function begin(): Promise<StorePhone & { die: () => void }> {
    const transport = mortal();
    const opened = await openStorePhone({ disk, station, transport, name, clock, ids });
    return { ...opened, die: transport.die };
  }

  return {
    name,
    made,
    taken,
    failures,
    pair: async (code) => {
      const paired = await phone.sync.pair(code, `Phone ${name}`);
      if (paired.type !== 'paired') throw new Error(`${name}: ${paired.sentence}`);
      return (await phone.pairing.credentials())?.token ?? '';
    },
    note: async (text) => {
      const saved = await phone.record('note', { text });
      made.set(saved.id, saved.text);
      phone.sync.nudge('record');
    },
    photo: async (bytes) => {
      const photo = { bytes, mime: 'image/jpeg', width: 8, height: 8 };
      const saved = await phone.commands.addPhoto(photo);
      if (saved.type !== 'saved') throw new Error(saved.type);
      made.set(saved.id, saved.text);
      taken.add(saved.sha);
      phone.sync.nudge('record');
    },
    want: async (sought) => void (await phone.commands.wantDocument(sought)),
    nudge: () => phone.sync.nudge('person'),
    restart: async () => {
      phone.die();
      failures.push(...phone.failures);
      phone.close();
      phone = await begin();
      phone.sync.nudge('start');
    },
    jumpClock: (days) => {
      offset += days * DAY_MS;
    },
    log: async () => {
      const ran = await phone.store.run((db) => getMeta(db, 'log'));
      return ran.type === 'done' ? (ran.value ?? null) : null;
    },
    nextDay: async () => {
      offset += DAY_MS + DAY_MS / 24;
      return await round(phone);
    },
    waiting: async () => {
      const { events, documents, refused } = await phone.outbox.count();
      return events + documents + refused;
    },
    reasons: async () => {
      const ran = await phone.store.run((db) => db.outbox.toArray());
      if (ran.type !== 'done') return [ran.type];
      return [...new Set(ran.value.map((row) => `${row.kind} ${row.state} ${row.why ?? ''} ${row.sentence ?? ''}`))];
    },
    held: () => heldByPhone(phone),
    close: () => {
      failures.push(...phone.failures);
      phone.close();
    },
  };
}

async function round(phone: StorePhone): Promise<SyncState['type'] | 'no end'> {
  return await new Promise((done) => {
    const end = (how: SyncState['type'] | 'no end') => {
      clearTimeout(timer);
      undo();
      done(how);
    };
    const timer = setTimeout(() => end('no end'), LONGEST_ROUND_MS);
    const undo = phone.sync.subscribe((state) => {
      if (state.type !== 'sending') end(state.type);
    });
    phone.sync.nudge('person');
  });
}

async function heldByPhone(phone: StorePhone): Promise<Holding> {
  const held = NOTHING_HELD();
  const ran = await phone.store.run((db) => db.events.toArray());
  if (ran.type !== 'done') throw new Error(ran.type);
  for (const { id, text } of ran.value) held.events.set(id, [...(held.events.get(id) ?? []), text]);
  for (const name of await phone.documents()) {
    const read = await phone.store.run((db) =>
      db.documents.where('[sha+n]').between([name, 0], [name, Number.MAX_SAFE_INTEGER]).toArray(),
    );
    if (read.type !== 'done') throw new Error(read.type);
    held.documents.set(name, [sha(Buffer.concat(read.value.map((chunk) => new Uint8Array(chunk.bytes))))]);
  }
  return held;
}
