// Documents that should be here and are not, each with a time of its own at which it is asked for again. What was asked
// for in vain is named, and holds up no other.
import type { StationStore } from '../database.ts';
import { readDocument } from '../documents.ts';
import type { StoreResult } from '../failures.ts';
import { bytesToHash, SHA_NAME } from '../hash.ts';
import type { DocumentHead, StationDb } from '../schema.ts';
import { growing, isDue } from './putOff.ts';

function missing(db: StationDb): PromiseLike<DocumentHead[]> {
  return db.documentHeads.where('complete').equals(0).toArray();
}

/** Earlier builds noted names that are no hashes; nobody asks a server for those. */
export async function wantedDocuments(db: StationDb, now: number): Promise<string[]> {
  return (await missing(db)).filter((head) => SHA_NAME.test(head.sha) && isDue(head, now)).map((head) => head.sha);
}

export async function nextWanted(db: StationDb): Promise<number | null> {
  const heads = (await missing(db)).filter((head) => SHA_NAME.test(head.sha));
  return heads.length === 0 ? null : Math.min(...heads.map((head) => head.dueAt ?? 0));
}

/** Those that were asked for in vain, for the screen. */
export async function missedDocuments(db: StationDb): Promise<DocumentHead[]> {
  return (await missing(db)).filter((head) => SHA_NAME.test(head.sha) && head.why !== undefined);
}

/** Longest wait for one that another phone is about to send. */
const NOT_THERE_MS = 600_000;

export function missDocument(
  db: StationDb,
  sha: string,
  why: 'not-there' | 'differs' | 'failed',
  now: number,
): PromiseLike<void> {
  return db.transaction('rw', db.documentHeads, async () => {
    const head = await db.documentHeads.get(sha);
    if (head?.complete !== 0) return;
    const tries = (head.why === why ? (head.tries ?? 0) : 0) + 1;
    const wait = why === 'not-there' ? Math.min(NOT_THERE_MS, growing(tries)) : growing(tries);
    await db.documentHeads.put({ ...head, why, tries, triedAt: now, dueAt: now + wait });
  });
}

/** What was not at the server may be there now. */
export function wantAgain(db: StationDb): PromiseLike<void> {
  return db.transaction('rw', db.documentHeads, async () => {
    for (const head of await missing(db)) {
      if (head.why !== 'not-there' || head.dueAt === undefined) continue;
      const { dueAt: _, ...rest } = head;
      await db.documentHeads.put(rest);
    }
  });
}

/** The bytes under a hash, checked against it: what is damaged may be shown, and must not be sent. */
export async function checkedDocument(
  store: StationStore,
  sha: string,
): Promise<StoreResult<{ type: 'bytes'; bytes: Uint8Array<ArrayBuffer> } | { type: 'missing' } | { type: 'damaged' }>> {
  const head = await store.run((db) => db.documentHeads.get(sha));
  if (head.type !== 'done') return head;
  if (head.value?.complete !== 1) return { type: 'done', value: { type: 'missing' } };
  const read = await readDocument(store, sha);
  if (read.type !== 'done') return read;
  if (!read.value || (await bytesToHash(read.value.bytes)) !== sha) return { type: 'done', value: { type: 'damaged' } };
  return { type: 'done', value: { type: 'bytes', bytes: read.value.bytes } };
}
