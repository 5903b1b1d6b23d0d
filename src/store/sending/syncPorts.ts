// The exchange's view of a station's database. Nothing leaves the outbox here before the server has answered for it,
// and a lost token never touches the record.
import { CURSOR_START, type EventAnswer, toMark } from '../../wire/sync.ts';
import type { Commands } from '../commands.ts';
import type { StationStore } from '../database.ts';
import { storeBytes } from '../documents.ts';
import { bytesToHash } from '../hash.ts';
import { getMeta, type OutboxRow, putMeta, type StationDb } from '../schema.ts';
import {
  beginCompare,
  compareBatch,
  compared,
  comparing,
  keepMark,
  learnHistory,
  newHistory,
  numbering,
  pairedWith,
  startOver,
} from './comparing.ts';
import { StoreFailed, unwrap } from './failed.ts';
import { dequeue, EMPTY_SUM, outboxKey } from './outbox.ts';
import { heldRows, hold, isDue, ofKind, release } from './putOff.ts';
import { type QueuedText, queuedTexts, sortByHash } from './queuedTexts.ts';
import { keepUntaken, retryUntaken } from './untaken.ts';
import { checkedDocument, missDocument, nextWanted, wantAgain, wantedDocuments } from './wanted.ts';

// The forms are the exchange's own (sync/ports.ts); they are not imported, since storage must not depend on it. The
// compiler holds the two together where they are joined.
type Held = { type: 'refused' | 'later'; why: string; sentence: string };
type SettledEvent = { id: string; answer: EventAnswer | Held };
type DocumentSettlement = { type: 'stored'; number?: number } | Held;
type Credentials = { token: string; phoneId: string; station: { id: string; name: string }; history: string };

export function createOutbox(store: StationStore, commands: Pick<Commands, 'receive'>, now: () => number) {
  const run = <T>(operation: (db: StationDb) => PromiseLike<T>): Promise<T> => unwrap(store.run(operation));
  const takeIn = async (text: string): Promise<void> => void (await unwrap(commands.receive([text], 'pulled')));

  return {
    count: () => run(async (db) => sumToCount((await getMeta(db, 'outboxSum')) ?? EMPTY_SUM)),
    pendingEvents: async (limit: number) => {
      for (;;) {
        const { whole, damaged } = await sortByHash(await run((db) => pendingTexts(db, limit, now())));
        if (damaged.length > 0) await run((db) => holdDamaged(db, damaged, now()));
        if (whole.length > 0 || damaged.length === 0) return whole.map(({ id, text }) => ({ id, text }));
      }
    },
    settleEvents: (settled: SettledEvent[]) =>
      run((db) =>
        db.transaction(
          'rw',
          [db.outbox, db.events, db.aside, db.forks, db.meta],
          async () => await settle(db, settled, now()),
        ),
      ),
    pendingDocuments: (limit: number, photos: boolean) =>
      run((db) =>
        db.transaction('r', [db.outbox, db.documentHeads], async () => {
          const rows = await queued(db, 'document', limit, now(), photos);
          const heads = await db.documentHeads.bulkGet(rows.map((row) => row.id));
          return heads.flatMap((head) => (head ? [{ sha: head.sha, mime: head.mime, bytes: head.bytes }] : []));
        }),
      ),
    documentBytes: (sha: string) => unwrap(checkedDocument(store, sha)),
    settleDocument: (sha: string, settlement: DocumentSettlement) =>
      run((db) =>
        db.transaction('rw', [db.outbox, db.meta], async () => {
          const key = outboxKey('document', sha);
          if (settlement.type !== 'stored') return await holdAs(db, key, settlement, now());
          await dequeue(db, [key]);
          if (settlement.number !== undefined) await keepMark(db, toMark(settlement.number, sha));
        }),
      ),
    nextDocument: () => run(nextDocument),
    tend: async () => {
      await run((db) => db.transaction('rw', [db.outbox, db.meta], async () => await releaseDue(db, now())));
      await retryUntaken(run, takeIn, now);
    },
    numbering: () => run(numbering),
    cursor: () => run(async (db) => (await getMeta(db, 'cursor')) ?? CURSOR_START),
    receive: async (texts: string[], cursor: string) => {
      try {
        await unwrap(commands.receive(texts, 'pulled', cursor));
      } catch (error) {
        if (error instanceof StoreFailed) throw error;
        // One of them is more than the reader can bear: each by itself, so that it holds up no other.
        for (const text of texts) await takeIn(text).catch((why: unknown) => keepUntaken(run, text, why, now()));
        await run((db) => db.transaction('rw', db.meta, () => putMeta(db, 'cursor', cursor)));
      }
    },
    wantedDocuments: () => run((db) => wantedDocuments(db, now())),
    nextWanted: () => run(nextWanted),
    storeDocument: async (sha: string, bytes: Uint8Array<ArrayBuffer>, mime: string) => {
      if ((await bytesToHash(bytes)) !== sha) return false;
      const kept = await storeBytes(store, bytes, mime, 'pulled', now());
      if (kept.type !== 'stored') throw new StoreFailed(kept);
      return true;
    },
    missDocument: (sha: string, why: 'not-there' | 'differs' | 'failed') =>
      run((db) => missDocument(db, sha, why, now())),
    wantAgain: () => run(wantAgain),
    pairedWith: (history: string, before: string | null) => run((db) => pairedWith(db, history, before, now())),
    newHistory: (history: string | null) => run((db) => newHistory(db, history, now())),
    learnHistory: (history: string) => run((db) => learnHistory(db, history)),
    comparing: () => run(comparing),
    beginCompare: () => run((db) => beginCompare(db, now())),
    compareBatch: (limit: number) => run((db) => compareBatch(db, limit)),
    compared: (missing: { events: string[]; documents: string[] }, next: Parameters<typeof compared>[2]) =>
      run((db) => compared(db, missing, next, now())),
    startOver: () => run((db) => startOver(db, now())),
    keepClock: (ahead: number) =>
      run((db) => db.transaction('rw', db.meta, () => putMeta(db, 'clockAhead', Math.round(ahead)))),
    /** A person wants it tried now. @param key Of the outbox; null for all that was put off or refused. */
    sendAgain: (key: string | null) =>
      run((db) => db.transaction('rw', [db.outbox, db.meta], async () => await sendAgain(db, key))),
    photosWait: () => run(async (db) => (await getMeta(db, 'photosWait')) ?? false),
    setPhotosWait: (wait: boolean) => run((db) => db.transaction('rw', db.meta, () => putMeta(db, 'photosWait', wait))),
  };
}

function sumToCount({ events, documents, refused }: typeof EMPTY_SUM) {
  const all = (by: Record<string, number>): number => Object.values(by).reduce((sum, one) => sum + one, 0);
  return { events: all(events), documents: all(documents), refused };
}

/** Oldest first, without those that were put off and are not due. */
function queued(
  db: StationDb,
  kind: OutboxRow['kind'],
  limit: number,
  now: number,
  photos = true,
): PromiseLike<OutboxRow[]> {
  return db.outbox
    .where('[kind+state+order]')
    .between(...ofKind(kind, 'queued'))
    .filter((row) => isDue(row, now) && (photos || row.what !== 'photo'))
    .limit(limit)
    .toArray();
}

function pendingTexts(db: StationDb, limit: number, now: number): PromiseLike<QueuedText[]> {
  return db.transaction('r', [db.outbox, db.events, db.aside, db.forks], async () => {
    const texts = await queuedTexts(db, await queued(db, 'event', limit, now));
    return texts.flatMap((one) => (one ? [one] : []));
  });
}

const DAMAGED_HERE = 'Its text on this phone has changed since it was made, so it is shown here but not sent.';

/** A server that was put back would take an altered text for the right one, and set the right one aside. */
function holdDamaged(db: StationDb, texts: readonly QueuedText[], now: number): PromiseLike<void> {
  return db.transaction('rw', [db.outbox, db.meta], async () => {
    for (const { id } of texts) await hold(db, outboxKey('event', id), 'refused', 'damaged-here', DAMAGED_HERE, now);
  });
}

async function settle(db: StationDb, settled: readonly SettledEvent[], now: number): Promise<void> {
  const acknowledged: string[] = [];
  let top: { number: number; key: string } | null = null;
  for (const { id, answer } of settled) {
    const key = outboxKey('event', id);
    if (answer.type === 'stored' || answer.type === 'already') {
      acknowledged.push(key);
      if (answer.number > (top?.number ?? 0)) top = { number: answer.number, key };
    } else if (answer.type === 'set-aside') await hold(db, key, 'set-aside', answer.why, null, now);
    else await holdAs(db, key, answer, now);
  }
  if (top) {
    const row = await db.outbox.get(top.key);
    const [event] = row ? await queuedTexts(db, [row]) : [];
    if (event) await keepMark(db, toMark(top.number, event.hash));
  }
  await dequeue(db, acknowledged);
}

function holdAs(db: StationDb, key: string, held: Held, now: number): Promise<void> {
  return hold(db, key, held.type === 'later' ? 'queued' : 'refused', held.why, held.sentence, now);
}

async function releaseDue(db: StationDb, now: number): Promise<void> {
  const sum = await getMeta(db, 'outboxSum');
  if (!sum || sum.refused === 0) return;
  const due = (await heldRows(db)).filter((row) => isDue(row, now));
  await release(
    db,
    due.map((row) => row.key),
  );
}

async function sendAgain(db: StationDb, key: string | null): Promise<void> {
  if (key !== null) return await release(db, [key]);
  const rows = await db.outbox.filter((row) => row.state !== 'queued' || row.dueAt !== undefined).toArray();
  await release(
    db,
    rows.map((row) => row.key),
  );
}

async function nextDocument(db: StationDb): Promise<number | null> {
  const sum = await getMeta(db, 'outboxSum');
  if (!sum || sum.refused + (sum.putOff ?? 0) === 0) return null;
  const rows = await db.outbox.filter((row) => row.kind === 'document' && row.dueAt !== undefined).toArray();
  return rows.length === 0 ? null : Math.min(...rows.map((row) => row.dueAt ?? 0));
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
