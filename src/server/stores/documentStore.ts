// Plans, photos and reports by the SHA-256 of their bytes, in chunks of at most 1 MiB. A document is hashed before it is
// entered and shown after its last chunk, so half of one or a wrong one can never be seen.
import { createHash } from 'node:crypto';
import type { Kysely, Transaction } from 'kysely';
import { DOCUMENT_CHUNK_BYTES } from '../../wire/limits.ts';
import type { DocumentMime } from '../../wire/sync.ts';
import { clearDamage, noteDamage } from '../database/damage.ts';
import type { Database } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';
import { pause } from '../turns.ts';
import { readChunk } from './chunkStore.ts';
import { looksLike } from './documentMime.ts';
import { lockNumbers, moveNumbers } from './numbers.ts';
import { dropParts, readPart, toBuffer } from './partStore.ts';

type DocumentHead = { sha: string; bytes: number; mime: string; number: number | null };

/** Null for one that is not here, and for one that is known to be damaged: whoever still has it may send it again. */
export async function documentHead(
  db: Pick<Database, 'query'>,
  station: string,
  sha: string,
): Promise<DocumentHead | null> {
  const row = await db.query
    .selectFrom('documents')
    .select(['sha', 'bytes', 'mime', 'number'])
    .where('station', '=', station)
    .where('sha', '=', sha)
    .where('complete', '=', 1)
    .where(({ not, exists, selectFrom }) =>
      not(
        exists(
          selectFrom('damaged')
            .select('id')
            .where('station', '=', station)
            .where('kind', '=', 'document')
            .where('id', '=', sha),
        ),
      ),
    )
    .executeTakeFirst();
  return row ?? null;
}

/**
 * One chunk after the other, read as the receiver takes them. The last one leaves only when all together are what the
 * name says; otherwise the damage is noted and the stream breaks, which no receiver takes for the end.
 * @returns Null when that is known before anything was sent.
 */
export async function documentStream(
  db: Database,
  station: string,
  head: DocumentHead,
  now: number,
): Promise<ReadableStream<Uint8Array<ArrayBuffer>> | null> {
  const hash = createHash('sha256');
  const count = Math.ceil(head.bytes / DOCUMENT_CHUNK_BYTES);
  let left = head.bytes;
  let n = 0;
  const next = async (): Promise<Uint8Array<ArrayBuffer> | 'damaged'> => {
    await pause();
    const read = await readChunk(db, station, head.sha, n);
    const chunk = typeof read === 'string' ? null : read;
    n += 1;
    left -= chunk?.byteLength ?? 0;
    if (chunk) hash.update(chunk);
    if (chunk && left >= 0 && (n < count || (left === 0 && hash.digest('hex') === head.sha))) return chunk;
    await noteDamage(db, station, 'document', head.sha, now);
    return 'damaged';
  };
  let ready: Uint8Array<ArrayBuffer> | 'damaged' | null = count > 0 ? await next() : null;
  if (ready === 'damaged') return null;
  return new ReadableStream<Uint8Array<ArrayBuffer>>(
    {
      pull: async (controller) => {
        if (ready === null && n >= count) return controller.close();
        const chunk = ready ?? (await next());
        ready = null;
        if (chunk === 'damaged') return controller.error(new Error(`The document ${head.sha} is damaged.`));
        controller.enqueue(chunk);
        if (n >= count) controller.close();
      },
    },
    { highWaterMark: 0 },
  );
}

/** Reads it through; false when it is not here or turns out to be damaged, which is noted. */
export async function isWhole(db: Database, station: string, sha: string, now: number): Promise<boolean> {
  const head = await documentHead(db, station, sha);
  const stream = head && (await documentStream(db, station, head, now));
  const reader = stream?.getReader();
  if (!reader) return false;
  try {
    while (!(await reader.read()).done);
    return true;
  } catch {
    return (await documentHead(db, station, sha)) !== null;
  }
}

export type Kept =
  | { type: 'stored' | 'already'; sha: string; bytes: number; number?: number }
  | { type: 'parts-missing' }
  | { type: 'hash-differs' }
  | { type: 'mime-refused' };

type Wanted = { sha: string; bytes: number; mime: DocumentMime };

/** Gives the chunk of that number, the same whenever it is asked, or null. */
export type ReadChunk = (n: number, query: Kysely<Tables>) => Promise<Uint8Array | null> | Uint8Array | null;

/** So many chunks go in at once; more would hold up everybody else while they are written. */
const CHUNKS_AT_ONCE = 4;

/**
 * Enters a document out of its chunks, after all together turned out to be what its name says. One that is here already
 * stays as it is, a damaged one gets its chunks anew. It is seen when its last chunk is in, and not before.
 */
export async function keepDocument(
  db: Database,
  station: string,
  wanted: Wanted,
  read: ReadChunk,
  now: number,
): Promise<Kept> {
  const there = await documentHead(db, station, wanted.sha);
  if (there) return stood('already', there);
  const checked = await checkChunks(db, wanted, read);
  if (checked.type !== 'right') return checked;
  const { hashes } = checked;
  for (let at = 0; ; at += CHUNKS_AT_ONCE) {
    const kept = await db.query.transaction().execute(async (tx) => {
      if (at === 0) await announce(tx, station, wanted);
      const group = hashes.slice(at, at + CHUNKS_AT_ONCE);
      if (!(await enterChunks(tx, station, wanted.sha, at, group, read))) return { type: 'hash-differs' } as const;
      return at + CHUNKS_AT_ONCE < hashes.length ? null : await show(tx, station, wanted, now);
    });
    if (kept) return kept;
  }
}

function stood(type: 'stored' | 'already', { sha, bytes, number }: Omit<DocumentHead, 'mime'>): Kept {
  return { type, sha, bytes, ...(number === null ? {} : { number }) };
}

type Checked = { type: 'right'; hashes: string[] } | Exclude<Kept, { type: 'stored' | 'already' }>;

/** @returns The hash of each chunk, for telling that it is still the same when it is entered. */
async function checkChunks(db: Database, { sha, bytes, mime }: Wanted, read: ReadChunk): Promise<Checked> {
  const whole = createHash('sha256');
  const hashes: string[] = [];
  const count = Math.ceil(bytes / DOCUMENT_CHUNK_BYTES);
  if (count === 0 && !looksLike(mime, new Uint8Array())) return { type: 'mime-refused' };
  let left = bytes;
  for (let n = 0; n < count; n += 1) {
    await pause();
    const chunk = await read(n, db.query);
    if (!chunk) return { type: 'parts-missing' };
    left -= chunk.byteLength;
    if (left < 0 || (n < count - 1 && chunk.byteLength !== DOCUMENT_CHUNK_BYTES)) return { type: 'hash-differs' };
    if (n === 0 && !looksLike(mime, chunk)) return { type: 'mime-refused' };
    whole.update(chunk);
    hashes.push(bytesToHash(chunk));
  }
  return whole.digest('hex') === sha ? { type: 'right', hashes } : { type: 'hash-differs' };
}

function bytesToHash(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** Its row, which no one sees yet. */
async function announce(tx: Transaction<Tables>, station: string, { sha, bytes, mime }: Wanted): Promise<void> {
  await tx
    .insertInto('documents')
    .values({ station, sha, bytes, mime, complete: 0, number: null, received_at: null })
    .onConflict((oc) => oc.columns(['station', 'sha']).doNothing())
    .execute();
}

/**
 * Two who enter the same document at once write the same bytes, because both were checked.
 * @returns False when a chunk is no longer the one that was checked.
 */
async function enterChunks(
  tx: Transaction<Tables>,
  station: string,
  sha: string,
  from: number,
  hashes: string[],
  read: ReadChunk,
): Promise<boolean> {
  for (const [i, hash] of hashes.entries()) {
    const chunk = await read(from + i, tx);
    if (!chunk || bytesToHash(chunk) !== hash) return false;
    const entered = { bytes: toBuffer(chunk) };
    await tx
      .insertInto('chunks')
      .values({ station, sha, n: from + i, ...entered })
      .onConflict((oc) => oc.columns(['station', 'sha', 'n']).doUpdateSet(entered))
      .execute();
    await pause();
  }
  return true;
}

/** Gives a document whose chunks are all in its number and shows it. */
async function show(tx: Transaction<Tables>, station: string, wanted: Wanted, now: number): Promise<Kept> {
  const { sha, bytes, mime } = wanted;
  const { next } = await lockNumbers(tx, station);
  const there = await documentHead({ query: tx }, station, sha);
  if (there) return stood('already', there);
  const row = await tx
    .selectFrom('documents')
    .select('number')
    .where('station', '=', station)
    .where('sha', '=', sha)
    .executeTakeFirstOrThrow();
  const number = row.number ?? next;
  if (row.number === null) await moveNumbers(tx, station, next + 1);
  await tx
    .updateTable('documents')
    .set({ bytes, mime, complete: 1, number, received_at: now })
    .where('station', '=', station)
    .where('sha', '=', sha)
    .execute();
  await clearDamage({ query: tx }, station, 'document', sha);
  return stood('stored', { sha, bytes, number });
}

/**
 * Makes a document of the parts kept under a name. Whatever comes of it but `parts-missing`, the parts are gone
 * afterwards: wrong ones would stay wrong.
 */
export async function joinParts(
  db: Database,
  station: string,
  name: string,
  wanted: Wanted,
  now: number,
): Promise<Kept> {
  const kept = await keepDocument(db, station, wanted, (n, query) => readPart({ query }, station, name, n), now);
  if (kept.type !== 'parts-missing') await dropParts(db, station, name);
  return kept;
}
