// Documents named by the hash of their bytes: plan revisions, photos, signed reports. Bytes are stored in their own
// transaction, never in the one of an event, and are not removed before the server has them.
import { DOCUMENT_CHUNK_BYTES } from '../wire/limits.ts';
import type { StationStore } from './database.ts';
import type { StoreFailure, StoreResult } from './failures.ts';
import { bytesToHash, SHA_NAME } from './hash.ts';
import type { DocumentChunk, DocumentHead, DocumentOrigin, OutboxWhat, StationDb } from './schema.ts';
import { enqueue, outboxKey } from './sending/outbox.ts';

export type StoredDocument = { type: 'stored'; sha: string; already: boolean } | StoreFailure;

/**
 * Stores bytes under their hash; what was made or brought here also waits for the server.
 * @param known Hash of these very bytes, where a worker has it: hashing copies them all, which holds the page up.
 */
export async function storeBytes(
  store: StationStore,
  bytes: Uint8Array<ArrayBuffer>,
  mime: string,
  origin: DocumentOrigin,
  now: number,
  known?: string,
): Promise<StoredDocument> {
  const sha = known ?? (await bytesToHash(bytes));
  const chunks = Math.max(1, Math.ceil(bytes.length / DOCUMENT_CHUNK_BYTES));
  const head: DocumentHead = { sha, mime, bytes: bytes.length, chunks, complete: 1, origin, at: now };
  const write = () => store.run((db) => writeDocument(db, head, bytes));
  let wrote = await write();
  if (wrote.type === 'full' && (await freeSpace(store))) wrote = await write();
  return wrote.type === 'done' ? { type: 'stored', sha, already: wrote.value } : wrote;
}

function toChunk(sha: string, bytes: Uint8Array<ArrayBuffer>, n: number): DocumentChunk {
  return { sha, n, bytes: bytes.slice(n * DOCUMENT_CHUNK_BYTES, (n + 1) * DOCUMENT_CHUNK_BYTES).buffer };
}

/** True when the very bytes were here already. Chunk by chunk, so that a long plan never holds the page up. */
function writeDocument(db: StationDb, head: DocumentHead, bytes: Uint8Array<ArrayBuffer>): PromiseLike<boolean> {
  return db.transaction('rw', [db.documents, db.documentHeads, db.outbox, db.meta], async () => {
    const known = await db.documentHeads.get(head.sha);
    if (known?.complete === 1) return true;
    for (let n = 0; n < head.chunks; n += 1) await db.documents.put(toChunk(head.sha, bytes, n));
    await db.documentHeads.put(head);
    if (head.origin !== 'pulled') await enqueue(db, [documentToOutbox(head)]);
    return false;
  });
}

function mimeToWhat(mime: string): OutboxWhat {
  return mime.startsWith('image/') ? 'photo' : mime.startsWith('audio/') ? 'note' : 'other';
}

export function documentToOutbox(head: DocumentHead) {
  return {
    id: head.sha,
    kind: 'document' as const,
    what: mimeToWhat(head.mime),
    at: head.at,
    bytes: head.bytes,
    order: head.at,
  };
}

/** The bytes under a hash, or null when they are not (all) here. Chunk by chunk: all at once would hold the page up. */
export function readDocument(
  store: StationStore,
  sha: string,
): Promise<StoreResult<{ bytes: Uint8Array<ArrayBuffer>; mime: string } | null>> {
  return store.run((db) =>
    db.transaction('r', [db.documents, db.documentHeads], async () => {
      const head = await db.documentHeads.get(sha);
      if (head?.complete !== 1) return null;
      const bytes = new Uint8Array(head.bytes);
      let at = 0;
      for (let n = 0; n < head.chunks; n += 1) {
        const chunk = await db.documents.get([sha, n]);
        const part = new Uint8Array(chunk?.bytes ?? new ArrayBuffer(0));
        if (at + part.length > bytes.length) return null;
        bytes.set(part, at);
        at += part.length;
      }
      return at === head.bytes ? { bytes, mime: head.mime } : null;
    }),
  );
}

/**
 * Notes that a document should be fetched: the plan in force, a photo somebody opened. An event may name anything;
 * what is no hash is no document and is only noted.
 */
export async function wantDocument(store: StationStore, sha: string, now: number): Promise<StoreResult<void>> {
  if (!SHA_NAME.test(sha)) {
    const { noteMisnamed } = await import('./sending/misnamed.ts');
    return store.run((db) => noteMisnamed(db, sha));
  }
  return store.run((db) =>
    db.transaction('rw', db.documentHeads, async () => {
      if (await db.documentHeads.get(sha)) return;
      await db.documentHeads.put({ sha, mime: '', bytes: 0, chunks: 0, complete: 0, origin: 'pulled', at: now });
    }),
  );
}

/**
 * Makes room without touching the record: small pictures of photos the server has acknowledged, which can be drawn
 * again from the photo. False when there was nothing to remove.
 */
export async function freeSpace(store: StationStore): Promise<boolean> {
  const freed = await store.run((db) =>
    db.transaction('rw', [db.thumbs, db.outbox], async () => {
      const thumbs = await db.thumbs.toCollection().primaryKeys();
      const waiting = await db.outbox.bulkGet(thumbs.map((sha) => outboxKey('document', sha)));
      const acknowledged = thumbs.filter((_, index) => !waiting[index]);
      await db.thumbs.bulkDelete(acknowledged);
      return acknowledged.length > 0;
    }),
  );
  return freed.type === 'done' && freed.value;
}
