// Tables, their rows and their versions, and the guard that makes events add-only. Sync state never lives on an event
// row: it lives in the outbox, because an event row cannot change.
import type { DBCore, Middleware, Table, Transaction } from 'dexie';
import { Dexie } from 'dexie';
import type { IdbSource } from './factory.ts';
import type { OutboxSum } from './outbox.ts';

export type EventOrigin = 'own' | 'pulled' | 'bundle';

export type EventRow = {
  /** Order in which events reached this database; means nothing elsewhere. */
  arrival: number;
  id: string;
  log: string;
  seq: number;
  audit?: string;
  at: number;
  /** SHA-256 (hex) of the text. */
  hash: string;
  text: string;
  origin: EventOrigin;
};
export type NewEventRow = Omit<EventRow, 'arrival'>;

/** A text that contradicts what stands: kept and named, never taken in its place. */
export type ForkRow = {
  hash: string;
  id: string;
  log: string;
  seq: number;
  text: string;
  origin: EventOrigin;
  at: number;
  /**
   * `same-id-other-text`: only here, not among the events. `same-number`: two events claim one number of a log, both
   * stand. `own-log`: it bears this phone's log and this database never wrote it; it stands.
   */
  why: 'same-id-other-text' | 'same-number' | 'own-log';
  /** Id of the event that it contradicts; its own id when none is here. */
  against: string;
};

export type OutboxWhat = 'statement' | 'photo' | 'note' | 'other';
export type OutboxRow = {
  /** `event:` or `document:` and the id, so that a document's hash can never stand in an event's way. */
  key: string;
  id: string;
  kind: 'event' | 'document';
  what: OutboxWhat;
  state: 'queued' | 'refused' | 'set-aside';
  why?: string;
  sentence?: string;
  at: number;
  bytes: number;
  /** Arrival number of an event, time of a document: the order of sending. */
  order: number;
};

export type DocumentOrigin = 'own' | 'pulled' | 'bundle';
export type DocumentHead = {
  sha: string;
  mime: string;
  bytes: number;
  chunks: number;
  /** 0: wanted, not here yet. A number, because a database cannot index true and false. */
  complete: 0 | 1;
  origin: DocumentOrigin;
  at: number;
};
/** ArrayBuffer and never Blob: one browser family fails to keep blobs. */
export type DocumentChunk = { sha: string; n: number; bytes: ArrayBuffer };
export type ThumbRow = { sha: string; bytes: ArrayBuffer; mime: string };
export type DraftRow = { key: string; value: unknown; at: number };

/** Everything small; one row per key. */
export type Meta = {
  log: string;
  head: { seq: number; hash: string };
  cursor: string;
  token: string;
  pairing: { phoneId: string; history: string; station: { id: string; name: string } };
  outboxSum: OutboxSum;
  home: unknown;
};
export type MetaRow = { key: string; value: unknown };

export type SchemaVersion = {
  version: number;
  stores: Record<string, string | null>;
  upgrade?: (tx: Transaction) => Promise<void>;
};

/** Every version that was ever shipped stays in this list; event bodies are opaque, so that a step touches indexes only. */
export const VERSIONS: readonly SchemaVersion[] = [
  {
    version: 1,
    stores: {
      events: '++arrival, &id, [log+seq]',
      forks: 'hash, id',
      outbox: 'key, [kind+state+order]',
      documents: '[sha+n]',
      documentHeads: 'sha, complete',
      thumbs: 'sha',
      drafts: 'key',
      meta: 'key',
    },
  },
];

const ADD_ONLY: ReadonlySet<string> = new Set(['events', 'forks']);

/** Refuses everything but adding on the tables of the record; put, update, modify, delete and clear all pass here. */
const addOnly: Middleware<DBCore> = {
  stack: 'dbcore',
  name: 'addOnly',
  create: (down) => ({
    ...down,
    table: (name) => {
      const table = down.table(name);
      if (!ADD_ONLY.has(name)) return table;
      return {
        ...table,
        mutate: (request) =>
          request.type === 'add'
            ? table.mutate(request)
            : Promise.reject(new Error(`${name} is add-only: ${request.type} refused`)),
      };
    },
  }),
};

/**
 * The scope of a transaction that awaits anything but a table call must itself be an `async` function: Dexie follows
 * awaits only in those, and commits too early otherwise.
 */
export class StationDb extends Dexie {
  declare events: Table<EventRow, number, NewEventRow>;
  declare forks: Table<ForkRow, string>;
  declare outbox: Table<OutboxRow, string>;
  declare documents: Table<DocumentChunk, [string, number]>;
  declare documentHeads: Table<DocumentHead, string>;
  declare thumbs: Table<ThumbRow, string>;
  declare drafts: Table<DraftRow, string>;
  declare meta: Table<MetaRow, string>;

  constructor(station: string, versions: readonly SchemaVersion[], source?: IdbSource) {
    super(stationToDatabase(station), {
      ...source,
      // A sighting counts as saved when it is on the disk, not when the browser has taken note of it.
      chromeTransactionDurability: 'strict',
      // The cache of live queries gave doubled and missed rows in bulk writes.
      cache: 'disabled',
    });
    for (const { version, stores, upgrade } of versions) {
      const declared = this.version(version).stores(stores);
      if (upgrade) declared.upgrade(upgrade);
    }
    this.use(addOnly);
  }
}

export function stationToDatabase(station: string): string {
  return `asfound-station-${station}`;
}

export async function getMeta<K extends keyof Meta>(db: StationDb, key: K): Promise<Meta[K] | undefined> {
  const row = await db.meta.get(key);
  return row?.value as Meta[K] | undefined;
}

export async function putMeta<K extends keyof Meta>(db: StationDb, key: K, value: Meta[K]): Promise<void> {
  await db.meta.put({ key, value });
}
