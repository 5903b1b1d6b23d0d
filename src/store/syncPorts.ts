// The exchange's view of a station's database. Nothing leaves the outbox here before the server has answered for it,
// and a lost token never touches the record.
import { readEvent } from '../core/audit/events.ts';
import { utf8Bytes } from '../wire/limits.ts';
import { CURSOR_START, type EventAnswer } from '../wire/sync.ts';
import type { Commands } from './commands.ts';
import type { StationStore } from './database.ts';
import { documentToOutbox, readDocument, storeBytes } from './documents.ts';
import type { Ran, StoreFailure } from './failures.ts';
import { bytesToHash } from './hash.ts';
import { dequeue, EMPTY_SUM, enqueue, hold, kindToWhat, outboxKey } from './outbox.ts';
import { type EventRow, getMeta, type OutboxRow, putMeta, type StationDb } from './schema.ts';

// The forms are the exchange's own (sync/ports.ts); they are not imported, since storage must not depend on it. The
// compiler holds the two together where they are joined.
type SettledEvent = { id: string; answer: EventAnswer };
type DocumentSettlement = { type: 'stored' } | { type: 'refused'; why: string; sentence: string };
type Credentials = { token: string; phoneId: string; station: { id: string; name: string }; history: string };

/** The exchange takes any exception of its outbox as "the phone's own database refused" and tries again later. */
export class StoreFailed extends Error {
  override readonly name = 'StoreFailed';
  readonly failure: StoreFailure;
  constructor(failure: StoreFailure) {
    super(failure.type);
    this.failure = failure;
  }
}

async function unwrap<T>(running: Promise<Ran<T>>): Promise<T> {
  const ran = await running;
  if (ran.type === 'done') return ran.value;
  throw new StoreFailed(ran);
}

export function createOutbox(store: StationStore, commands: Pick<Commands, 'receive'>, now: () => number) {
  const run = <T>(operation: (db: StationDb) => PromiseLike<T>): Promise<T> => unwrap(store.run(operation));

  return {
    count: () => run(async (db) => sumToCount((await getMeta(db, 'outboxSum')) ?? EMPTY_SUM)),
    pendingEvents: (limit: number) =>
      run((db) =>
        db.transaction('r', [db.outbox, db.events], async () => {
          const rows = await queued(db, 'event', limit);
          const events = await db.events.bulkGet(rows.map((row) => row.order));
          return events.flatMap((event) => (event ? [{ id: event.id, text: event.text }] : []));
        }),
      ),
    settleEvents: (settled: SettledEvent[]) =>
      run((db) => db.transaction('rw', [db.outbox, db.meta], async () => await settle(db, settled))),
    pendingDocuments: (limit: number) =>
      run((db) =>
        db.transaction('r', [db.outbox, db.documentHeads], async () => {
          const rows = await queued(db, 'document', limit);
          const heads = await db.documentHeads.bulkGet(rows.map((row) => row.id));
          return heads.flatMap((head) => (head ? [{ sha: head.sha, mime: head.mime, bytes: head.bytes }] : []));
        }),
      ),
    documentBytes: async (sha: string) => (await unwrap(readDocument(store, sha)))?.bytes ?? null,
    settleDocument: (sha: string, settlement: DocumentSettlement) =>
      run((db) =>
        db.transaction('rw', [db.outbox, db.meta], async () => {
          const key = outboxKey('document', sha);
          return settlement.type === 'stored'
            ? await dequeue(db, [key])
            : await hold(db, key, 'refused', settlement.why, settlement.sentence);
        }),
      ),
    cursor: () => run(async (db) => (await getMeta(db, 'cursor')) ?? CURSOR_START),
    receive: async (texts: string[], cursor: string) => void (await unwrap(commands.receive(texts, 'pulled', cursor))),
    wantedDocuments: () =>
      run(async (db) => (await db.documentHeads.where('complete').equals(0).primaryKeys()).map(String)),
    storeDocument: async (sha: string, bytes: Uint8Array<ArrayBuffer>, mime: string) => {
      if ((await bytesToHash(bytes)) !== sha) return false;
      const kept = await storeBytes(store, bytes, mime, 'pulled', now());
      if (kept.type !== 'stored') throw new StoreFailed(kept);
      return true;
    },
    startOver: () => run(queueAll),
  };
}

function sumToCount({ events, documents, refused }: typeof EMPTY_SUM) {
  const all = (by: Record<string, number>): number => Object.values(by).reduce((sum, one) => sum + one, 0);
  return { events: all(events), documents: all(documents), refused };
}

/** Oldest first. */
function queued(db: StationDb, kind: OutboxRow['kind'], limit: number): PromiseLike<OutboxRow[]> {
  return db.outbox
    .where('[kind+state+order]')
    .between([kind, 'queued', 0], [kind, 'queued', Number.POSITIVE_INFINITY])
    .limit(limit)
    .toArray();
}

async function settle(db: StationDb, settled: readonly SettledEvent[]): Promise<void> {
  const acknowledged: string[] = [];
  for (const { id, answer } of settled) {
    const key = outboxKey('event', id);
    if (answer.type === 'stored' || answer.type === 'already') acknowledged.push(key);
    else await hold(db, key, answer.type, answer.why, answer.type === 'refused' ? answer.sentence : null);
  }
  await dequeue(db, acknowledged);
}

/** Everything that is here waits again, whoever made it, in the order in which it came here. */
function queueAll(db: StationDb): PromiseLike<void> {
  return db.transaction('rw', [db.events, db.documentHeads, db.outbox, db.meta], async () => {
    for (let after = 0; ; ) {
      const rows = await db.events.where('arrival').above(after).limit(2000).toArray();
      const last = rows.at(-1);
      if (!last) break;
      after = last.arrival;
      await enqueue(db, rows.map(eventToOutbox));
    }
    const heads = await db.documentHeads.where('complete').equals(1).toArray();
    await enqueue(db, heads.map(documentToOutbox));
    await putMeta(db, 'cursor', CURSOR_START);
  });
}

function eventToOutbox(row: EventRow) {
  const read = readEvent(row.text);
  const kind = read.type === 'event' ? read.event.kind : '';
  return {
    id: row.id,
    kind: 'event' as const,
    what: kindToWhat(kind),
    at: row.at,
    bytes: utf8Bytes(row.text),
    order: row.arrival,
  };
}

export function createPairing(store: StationStore, name: () => string) {
  const run = <T>(operation: (db: StationDb) => PromiseLike<T>): Promise<T> => unwrap(store.run(operation));

  return {
    credentials: () =>
      run((db) =>
        db.transaction('r', db.meta, async () => {
          const token = await getMeta(db, 'token');
          const pairing = await getMeta(db, 'pairing');
          return token === undefined || !pairing ? null : { token, ...pairing };
        }),
      ),
    station: () => run(async (db) => (await getMeta(db, 'pairing'))?.station ?? { id: store.station, name: name() }),
    keep: ({ token, phoneId, station, history }: Credentials) =>
      run((db) =>
        db.transaction('rw', db.meta, async () => {
          await putMeta(db, 'token', token);
          await putMeta(db, 'pairing', { phoneId, history, station });
        }),
      ),
    dropToken: () => run((db) => db.transaction('rw', db.meta, () => db.meta.delete('token'))),
    history: () => run(async (db) => (await getMeta(db, 'pairing'))?.history ?? null),
  };
}
