// Tables, their rows and their versions, and the guard that makes events add-only. Sync state never lives on an event
// row: it lives in the outbox, because an event row cannot change.
import type { DBCore, Middleware, Table, Transaction } from 'dexie';
import { Dexie } from 'dexie';
import type { IdbSource } from './factory.ts';

export type OutboxSum = {
  events: Record<OutboxWhat, number>;
  documents: Record<OutboxWhat, number>;
  /** Of what is queued; refused and set-aside ones are only counted. */
  bytes: number;
  refused: number;
  /** Of what is queued, those that were put off for a time of their own; absent from sums of earlier builds. */
  putOff?: number;
};

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

/**
 * A text whose place in its log does not follow from what is here: kept, named, and taken by itself as soon as what it
 * needs arrives. It is moved then: it leaves this table in the transaction that adds it to the events.
 */
export type AsideRow = NewEventRow & { prev: string | null; kind: string; bytes: number };

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
   * `same-id-other-text`: only here, not among the events, yet what follows it in its log may follow. `same-number`: two
   * events claim one number of a log and both continue it, both stand. `own-log`: it bears this phone's log, continues
   * it, and this database never wrote it; it stands.
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
  /** When it was last tried in vain, how often, and when it is tried again. */
  triedAt?: number;
  tries?: number;
  dueAt?: number;
  at: number;
  bytes: number;
  /** Arrival number of an event, time of a document: the order of sending. */
  order: number;
  /** Hash of a text that was kept aside when it was queued; it has no arrival number, and its order says nothing else. */
  aside?: string;
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
  /** Of a wanted one that was asked for in vain. */
  why?: 'not-there' | 'differs' | 'failed';
  triedAt?: number;
  tries?: number;
  dueAt?: number;
};
/** A text that could not be taken in: kept as it came, named, and tried again. */
export type Untaken = { text: string; why: string; triedAt: number; tries: number; dueAt: number };
/**
 * A comparison under way: what of the record was asked for, up to that arrival number, that hash of what is kept aside
 * (absent from an earlier build's) and that hash of a document.
 */
export type Comparing = { run: number; arrival: number; aside?: string; sha: string; forAll: boolean };
/** ArrayBuffer and never Blob: one browser family fails to keep blobs. */
export type DocumentChunk = { sha: string; n: number; bytes: ArrayBuffer };
export type ThumbRow = { sha: string; bytes: ArrayBuffer; mime: string };
/** `version` of its kind, 0 where an earlier build kept it; `of`: the key that one put aside was kept under. */
export type DraftRow = { key: string; value: unknown; at: number; version?: number; of?: string };

/** Everything small; one row per key. */
export type Meta = {
  log: string;
  head: { seq: number; hash: string };
  cursor: string;
  token: string;
  pairing: { phoneId: string; history: string; station: { id: string; name: string } };
  outboxSum: OutboxSum;
  /** Sequence up to which the own log was looked through for what was kept aside and continues it. */
  followed: number;
  home: unknown;
  /** What is claimed of the server's numbering; absent until something was acknowledged or told. */
  numbering: { history: string | null; mark: string | null };
  comparing: Comparing;
  comparedAt: number;
  /** Names of documents that are no hashes and so of no document; the first few, cut off. */
  misnamed: string[];
  /** Milliseconds by which this phone's clock is ahead of the server's. */
  clockAhead: number;
  /** Photos go over a good network only. */
  photosWait: boolean;
};
type MetaRow = { key: string; value: unknown };

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
  {
    version: 2,
    stores: { forks: 'hash, id, [log+seq]', aside: 'hash, prev, [log+seq]' },
    upgrade: followOwnLog,
  },
];

/** An earlier build let an event from elsewhere move the head of the own log; the head is what this database wrote last. */
async function followOwnLog(tx: Transaction): Promise<void> {
  const log: MetaRow | undefined = await tx.table('meta').get('log');
  if (log === undefined) return;
  const last: EventRow | undefined = await tx
    .table('events')
    .where('[log+seq]')
    .between([log.value, Dexie.minKey], [log.value, Dexie.maxKey])
    .reverse()
    .filter((row: EventRow) => row.origin === 'own')
    .first();
  if (last) await tx.table('meta').put({ key: 'head', value: { seq: last.seq, hash: last.hash } });
  else await tx.table('meta').delete('head');
}

/** What may be done to the tables of the record, and nothing else. */
const ALLOWED: ReadonlyMap<string, ReadonlySet<string>> = new Map([
  ['events', new Set(['add'])],
  ['forks', new Set(['add'])],
  ['aside', new Set(['add', 'delete'])],
]);

/** Refuses everything but adding, and moving what was kept aside, on the tables of the record; put, update, modify, delete and clear all pass here. */
const addOnly: Middleware<DBCore> = {
  stack: 'dbcore',
  name: 'addOnly',
  create: (down) => ({
    ...down,
    table: (name) => {
      const table = down.table(name);
      const allowed = ALLOWED.get(name);
      if (!allowed) return table;
      return {
        ...table,
        mutate: (request) =>
          allowed.has(request.type)
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
  declare aside: Table<AsideRow, string>;
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
