// The lane of documents out. One leaves the outbox only when our own server named its hash and its size; one that is
// damaged, refused or breaks off each time stops no other.
import * as z from 'zod/mini';
import { DOCUMENT_CHUNK_BYTES } from '../wire/limits.ts';
import {
  DOCUMENT_HEADER,
  DOCUMENT_MIMES,
  documentAnswerSchema,
  MAX_DOCUMENT_BYTES,
  PART_HEADER,
  partAnswerSchema,
  partsAnswerSchema,
} from '../wire/sync.ts';
import { type Asked, ask, type Problem, readJson, timeoutFor, wait } from './ask.ts';
import { blame, type CarryParts, MOST_FAULTS, question } from './carry.ts';
import type { LaneEnd } from './lane.ts';
import type { DocumentSettlement, Held, PendingDocument } from './ports.ts';

type UpParts = CarryParts & {
  /** Asked before each one: the network may have changed. */
  mayCarryPhotos: () => boolean;
  /** SHA-256, hex. */
  hash: (bytes: Uint8Array<ArrayBuffer>) => Promise<string>;
};

type Ok = Extract<Asked, { type: 'ok' }>;
type Failure = Exclude<Asked, { type: 'ok' }>;
type Sent = DocumentSettlement | { type: 'failed'; failure: Failure };

export async function runUp(parts: UpParts): Promise<LaneEnd> {
  const { outbox } = parts;
  await outbox.tend();
  let before = '';
  let faults = 0;
  for (let done = 0; ; done += 1) {
    const [document] = await outbox.pendingDocuments(1, parts.mayCarryPhotos());
    if (!document) return await rest(parts);
    if (document.sha === before) return wait('phone-failed');
    parts.progress({ phase: 'documents', done, left: (await outbox.count()).documents });
    const sent = await sendDocument(parts, document);
    let settlement: DocumentSettlement;
    if (sent.type === 'failed') {
      const held = await blame(parts, sent.failure);
      if (!held) return sent.failure.type === 'no' ? wait('answer-unreadable') : sent.failure;
      settlement = held;
    } else {
      settlement = sent;
    }
    await outbox.settleDocument(document.sha, settlement);
    faults = settlement.type === 'later' ? faults + 1 : 0;
    if (faults === MOST_FAULTS) return wait('server-failed');
    before = document.sha;
  }
}

async function rest({ outbox, now }: UpParts): Promise<LaneEnd> {
  const due = await outbox.nextDocument();
  return { type: 'done', next: due === null ? null : Math.max(0, due - now()) };
}

async function sendDocument(parts: UpParts, document: PendingDocument): Promise<Sent> {
  const path = `/api/documents/${document.sha}`;
  const there = await ask(parts.transport, {
    ...question(parts),
    method: 'HEAD',
    path,
    want: 'text',
    timeoutMs: timeoutFor(0),
  });
  if (there.type === 'ok') {
    // A server that does not name what it holds is asked in a way that makes it say so.
    if (proves(there, document)) return { type: 'stored' };
  } else if (there.type !== 'no' || there.status !== 404) {
    return { type: 'failed', failure: there };
  }
  const held = await parts.outbox.documentBytes(document.sha);
  if (held.type === 'missing')
    return { type: 'refused', why: 'missing', sentence: 'It is no longer on this phone. Another phone may have it.' };
  if (held.type === 'damaged')
    return {
      type: 'refused',
      why: 'damaged-here',
      sentence: 'It has changed on this phone since it was made, so it is shown here but not sent.',
    };
  const { bytes } = held;
  const inParts = isForParts(bytes.byteLength) ? await sendParts(parts, document, bytes) : null;
  return inParts ?? (await sendWhole(parts, document, bytes));
}

/** What no server takes is not carried there piece by piece only to be refused. */
function isForParts(bytes: number): boolean {
  return bytes > DOCUMENT_CHUNK_BYTES && bytes <= MAX_DOCUMENT_BYTES;
}

async function sendWhole(parts: UpParts, document: PendingDocument, body: Uint8Array<ArrayBuffer>): Promise<Sent> {
  const put = await ask(parts.transport, {
    ...question(parts),
    method: 'PUT',
    path: `/api/documents/${document.sha}`,
    body,
    mime: document.mime,
    want: 'text',
    timeoutMs: timeoutFor(body.byteLength),
  });
  return put.type === 'ok'
    ? readStored(put, { ...document, bytes: body.byteLength })
    : { type: 'failed', failure: put };
}

/** Hash and size, as our server names them on every answer about a document that it holds. */
function proves({ answer }: Ok, { sha, bytes }: PendingDocument): boolean {
  return answer.header(DOCUMENT_HEADER) === `${sha} ${bytes}`;
}

function readStored(asked: Ok, document: PendingDocument): DocumentSettlement {
  const read = z.safeParse(documentAnswerSchema, readJson(asked.answer.text));
  const said = read.success && read.data.sha === document.sha && read.data.bytes === document.bytes;
  const named = asked.answer.header(DOCUMENT_HEADER);
  if (!said || (named !== null && !proves(asked, document))) return unproven;
  const { number } = read.data;
  return number === undefined ? { type: 'stored' } : { type: 'stored', number };
}

const unproven: Held = {
  type: 'later',
  why: 'server-failed',
  sentence: 'The server took it but did not confirm that it has it.',
};

/** Null: the server takes documents only whole. What has arrived of it stays there and is not sent again. */
async function sendParts(
  parts: UpParts,
  { sha, mime }: PendingDocument,
  bytes: Uint8Array<ArrayBuffer>,
): Promise<Sent | null> {
  const known = DOCUMENT_MIMES.find((one) => one === mime);
  if (!known) return null;
  const path = `/api/documents/${sha}`;
  const asked = await ask(parts.transport, {
    ...question(parts),
    method: 'GET',
    path: `${path}/parts`,
    want: 'text',
    timeoutMs: timeoutFor(0),
  });
  if (asked.type === 'no' && asked.status === 404) return null;
  if (asked.type !== 'ok') return { type: 'failed', failure: asked };
  const read = z.safeParse(partsAnswerSchema, readJson(asked.answer.text));
  if (!read.success) return { type: 'failed', failure: wait('answer-unreadable') };
  const there = new Set(read.data.parts);
  const count = Math.ceil(bytes.byteLength / DOCUMENT_CHUNK_BYTES);
  for (let n = 0; n < count; n += 1) {
    if (there.has(n)) continue;
    const failure = await sendPart(
      parts,
      path,
      n,
      bytes.slice(n * DOCUMENT_CHUNK_BYTES, (n + 1) * DOCUMENT_CHUNK_BYTES),
    );
    if (failure) return { type: 'failed', failure };
    // A part that is through is kept at the server: failures before it no longer count.
    parts.progress({ phase: 'documents', done: n + 1, left: count - n - 1 });
  }
  const joined = await ask(parts.transport, {
    ...question(parts),
    method: 'POST',
    path,
    body: JSON.stringify({ mime: known, bytes: bytes.byteLength }),
    want: 'text',
    timeoutMs: timeoutFor(bytes.byteLength),
  });
  if (joined.type !== 'ok') return { type: 'failed', failure: joined };
  return readStored(joined, { sha, mime, bytes: bytes.byteLength });
}

async function sendPart(
  parts: UpParts,
  path: string,
  n: number,
  body: Uint8Array<ArrayBuffer>,
): Promise<Failure | null> {
  const asked = await ask(parts.transport, {
    ...question(parts),
    method: 'PUT',
    path: `${path}/parts/${n}`,
    body,
    mime: 'application/octet-stream',
    headers: { [PART_HEADER]: await parts.hash(body) },
    want: 'text',
    timeoutMs: timeoutFor(body.byteLength),
  });
  if (asked.type !== 'ok') return asked;
  const read = z.safeParse(partAnswerSchema, readJson(asked.answer.text));
  return read.success && read.data.part === n ? null : (wait('answer-unreadable') as Problem);
}
