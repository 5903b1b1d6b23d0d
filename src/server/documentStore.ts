// Plans, photos and reports by the SHA-256 of their bytes, in chunks of at most 1 MiB. A document is entered in one
// transaction after its hash was computed here, so half of one can never be seen.
import { createHash } from 'node:crypto';
import { DOCUMENT_CHUNK_BYTES } from '../wire/limits.ts';
import { DOCUMENT_MIMES, type DocumentMime } from '../wire/sync.ts';
import type { Database } from './database.ts';

export type DocumentHead = { sha: string; bytes: number; mime: string };

export async function documentHead(db: Database, station: string, sha: string): Promise<DocumentHead | null> {
  const row = await db.query
    .selectFrom('documents')
    .select(['sha', 'bytes', 'mime'])
    .where('station', '=', station)
    .where('sha', '=', sha)
    .where('complete', '=', 1)
    .executeTakeFirst();
  return row ?? null;
}

/** One chunk after the other, read as the receiver takes them. */
export function documentStream(db: Database, station: string, sha: string): ReadableStream<Uint8Array<ArrayBuffer>> {
  let n = 0;
  return new ReadableStream<Uint8Array<ArrayBuffer>>({
    pull: async (controller) => {
      const row = await db.query
        .selectFrom('chunks')
        .select('bytes')
        .where('station', '=', station)
        .where('sha', '=', sha)
        .where('n', '=', n)
        .executeTakeFirst();
      n += 1;
      if (row) controller.enqueue(new Uint8Array(row.bytes));
      else controller.close();
    },
  });
}

export type Received =
  | { type: 'chunks'; chunks: Uint8Array[]; bytes: number; sha: string }
  | { type: 'too-large' }
  /** The sender went away in the middle. */
  | { type: 'broken' };

/** Reads a body into chunks of storing size, and stops reading as soon as it is over the cap. */
export async function receiveBody(body: ReadableStream<Uint8Array> | null, cap: number): Promise<Received> {
  const hash = createHash('sha256');
  const chunks: Uint8Array[] = [];
  let open = new Uint8Array(DOCUMENT_CHUNK_BYTES);
  let filled = 0;
  let bytes = 0;
  const reader = body?.getReader();
  try {
    for (;;) {
      const part = await reader?.read();
      if (!part || part.done) break;
      bytes += part.value.byteLength;
      if (bytes > cap) {
        await reader?.cancel();
        return { type: 'too-large' };
      }
      hash.update(part.value);
      for (let at = 0; at < part.value.byteLength; ) {
        const piece = part.value.subarray(at, at + open.byteLength - filled);
        open.set(piece, filled);
        filled += piece.byteLength;
        at += piece.byteLength;
        if (filled === open.byteLength) {
          chunks.push(open);
          open = new Uint8Array(DOCUMENT_CHUNK_BYTES);
          filled = 0;
        }
      }
    }
  } catch {
    return { type: 'broken' };
  }
  if (filled > 0) chunks.push(open.slice(0, filled));
  return { type: 'chunks', chunks, bytes, sha: hash.digest('hex') };
}

export async function keepDocument(
  db: Database,
  station: string,
  document: DocumentHead,
  chunks: Uint8Array[],
): Promise<'stored' | 'already'> {
  const { sha, bytes, mime } = document;
  return await db.query.transaction().execute(async (tx) => {
    const added = await tx
      .insertInto('documents')
      .values({ station, sha, bytes, mime, complete: 0, number: null, received_at: null })
      .onConflict((oc) => oc.columns(['station', 'sha']).doNothing())
      .executeTakeFirst();
    if (Number(added.numInsertedOrUpdatedRows ?? 0n) === 0) return 'already';
    for (const [n, chunk] of chunks.entries()) {
      await tx
        .insertInto('chunks')
        .values({ station, sha, n, bytes: Buffer.from(chunk.buffer, chunk.byteOffset, chunk.byteLength) })
        .execute();
    }
    await tx
      .updateTable('documents')
      .set({ complete: 1 })
      .where('station', '=', station)
      .where('sha', '=', sha)
      .execute();
    return 'stored';
  });
}

/** The type without its parameters, when it is one that may be kept. */
export function headerToMime(header: string | undefined): DocumentMime | null {
  const bare = (header ?? '').split(';')[0]?.trim().toLowerCase();
  return DOCUMENT_MIMES.find((mime) => mime === bare) ?? null;
}

/** Brands under which phones and browsers write sound (from memory). */
const SOUND_BRANDS = /^(?:M4A |M4B |mp4[12]|iso[m2-9]|dash)$/;

/** Whether the first bytes are what the type says; magic numbers from the formats' own specifications. */
export function looksLike(mime: DocumentMime, first: Uint8Array): boolean {
  const starts = (bytes: number[], at = 0) => bytes.every((byte, i) => first[at + i] === byte);
  switch (mime) {
    case 'image/jpeg':
      return starts([0xff, 0xd8, 0xff]);
    case 'image/png':
      return starts([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
    case 'image/webp':
      return starts([0x52, 0x49, 0x46, 0x46]) && starts([0x57, 0x45, 0x42, 0x50], 8);
    case 'audio/webm':
      return starts([0x1a, 0x45, 0xdf, 0xa3]);
    case 'audio/mp4': {
      // ISO/IEC 14496-12: a file type box with its major brand; the same box opens HEIC and AVIF pictures.
      const brand = String.fromCharCode(...first.subarray(8, 12));
      return starts([0x66, 0x74, 0x79, 0x70], 4) && SOUND_BRANDS.test(brand);
    }
    case 'application/json': {
      const char = first.find((byte) => ![0x20, 0x09, 0x0a, 0x0d].includes(byte));
      return char === 0x7b || char === 0x5b;
    }
    case 'application/octet-stream':
      return true;
  }
}
