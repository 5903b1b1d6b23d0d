// Bodies as they arrive, cut into chunks of storing size. Of a body never more than one chunk is in memory, however
// large it is and however slowly it comes.
import { createHash } from 'node:crypto';
import { DOCUMENT_CHUNK_BYTES } from '../wire/limits.ts';

type Received =
  | { type: 'received'; bytes: number; sha: string }
  | { type: 'too-large' }
  /** The sender went away in the middle. */
  | { type: 'broken' };

/**
 * Hands over chunk after chunk, each of `DOCUMENT_CHUNK_BYTES` but the last, and reads on when it was taken. Stops as
 * soon as the body is over the cap.
 */
export async function receiveBody(
  body: ReadableStream<Uint8Array> | null,
  cap: number,
  take: (chunk: Uint8Array, n: number) => Promise<void> | void,
): Promise<Received> {
  const hash = createHash('sha256');
  let open = new Uint8Array(0);
  let filled = 0;
  let bytes = 0;
  let n = 0;
  const reader = body?.getReader();
  for (;;) {
    const part = await reader?.read().catch(() => 'broken' as const);
    if (part === 'broken') return { type: 'broken' };
    if (!part || part.done) break;
    bytes += part.value.byteLength;
    if (bytes > cap) {
      await reader?.cancel();
      return { type: 'too-large' };
    }
    hash.update(part.value);
    for (let at = 0; at < part.value.byteLength; ) {
      // Grows with what has come: a sender who only opens a body holds nothing.
      if (open.byteLength === filled) open = grown(open, part.value.byteLength - at);
      const piece = part.value.subarray(at, at + open.byteLength - filled);
      open.set(piece, filled);
      filled += piece.byteLength;
      at += piece.byteLength;
      if (filled === DOCUMENT_CHUNK_BYTES) {
        await take(open, n);
        n += 1;
        open = new Uint8Array(0);
        filled = 0;
      }
    }
  }
  if (filled > 0) await take(open.slice(0, filled), n);
  return { type: 'received', bytes, sha: hash.digest('hex') };
}

function grown(from: Uint8Array, wanted: number): Uint8Array<ArrayBuffer> {
  const room = Math.max(from.byteLength * 2, from.byteLength + wanted, 16_384);
  const open = new Uint8Array(Math.min(DOCUMENT_CHUNK_BYTES, room));
  open.set(from);
  return open;
}
