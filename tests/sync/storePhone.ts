// A phone with the real store on an IndexedDB of its own and the real exchange: what a browser would run, without one.
// Closing it and opening it again on the same `disk` is a killed and restarted app.
import { Dexie } from 'dexie';
import { IDBFactory } from 'fake-indexeddb';
import type { EventKind, Payload } from '../../src/core/record/events.ts';
import { type Commands, createCommands } from '../../src/store/commands.ts';
import { openStation, type StationStore } from '../../src/store/database.ts';
import { bytesToHash } from '../../src/store/hash.ts';
import { createPageLocks } from '../../src/store/locks.ts';
import { StationDb } from '../../src/store/schema.ts';
import { createOutbox, createPairing } from '../../src/store/sending/syncPorts.ts';
import type { SyncClock, Transport } from '../../src/sync/ports.ts';
import { createSync, type Sync } from '../../src/sync/sync.ts';
import { HandClock } from './memoryPhone.ts';

export type Disk = IDBFactory;
export const newDisk = (): Disk => new IDBFactory();

/** @param disk Set before each opening, since Dexie takes whatever IndexedDB is in force at that moment. */
export function onDisk(disk: Disk): void {
  Dexie.dependencies.indexedDB = disk;
}

type StorePhoneParts = {
  disk: Disk;
  station: { id: string; name: string };
  transport: Transport;
  /** Begins every id that it makes; two phones must not share it. */
  name: string;
  clock?: SyncClock;
  /** The phone's own clock, which may be wrong. */
  now?: () => number;
  /** How many ids were made before a restart. */
  ids?: { made: number };
};

export type StorePhone = {
  store: StationStore;
  commands: Commands;
  outbox: ReturnType<typeof createOutbox>;
  pairing: ReturnType<typeof createPairing>;
  sync: Sync;
  failures: unknown[];
  record: <K extends EventKind>(kind: K, payload: Payload<K>) => Promise<{ id: string; text: string }>;
  /** Exact texts by id. */
  texts: () => Promise<Map<string, string>>;
  /** Whole documents' hashes. */
  documents: () => Promise<string[]>;
  close: () => void;
};

export async function openStorePhone(parts: StorePhoneParts): Promise<StorePhone> {
  const { disk, station, transport, name, clock = new HandClock(), now = () => clock.now(), ids = { made: 0 } } = parts;
  const opened = await openStation({
    station: station.id,
    create: (id, versions) => {
      onDisk(disk);
      return new StationDb(id, versions);
    },
  });
  if (opened.type !== 'done') throw new Error(`not opened: ${opened.type}`);
  const store = opened.value;
  const newId = () => {
    ids.made += 1;
    return `${name}-${ids.made}`;
  };
  const commands = createCommands({
    store,
    author: () => `Person ${name}`,
    now,
    zone: () => 0,
    newId,
    lock: createPageLocks(),
    after: () => () => undefined,
  });
  const outbox = createOutbox(store, commands, now);
  const pairing = createPairing(store, () => station.name);
  const failures: unknown[] = [];
  const sync = createSync({
    transport,
    outbox,
    pairing,
    clock,
    random: () => 0.5,
    hash: bytesToHash,
    onFailure: (error) => failures.push(error),
  });
  const read = async <T>(operation: (db: StationDb) => PromiseLike<T>): Promise<T> => {
    const ran = await store.run(operation);
    if (ran.type !== 'done') throw new Error(ran.type);
    return ran.value;
  };
  return {
    store,
    commands,
    outbox,
    pairing,
    sync,
    failures,
    record: async (kind, payload) => {
      const saved = await commands.record(kind, payload);
      if (saved.type !== 'saved') throw new Error(saved.type);
      return saved;
    },
    texts: async () => new Map((await read((db) => db.events.toArray())).map((row) => [row.id, row.text])),
    documents: async () =>
      (await read((db) => db.documentHeads.where('complete').equals(1).primaryKeys())).map(String).sort(),
    close: () => {
      sync.stop();
      commands.close();
      store.close();
    },
  };
}
