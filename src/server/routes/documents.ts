// Documents in and out under the hash of their bytes. Nothing is kept here before its hash was computed.
import type { Context, Hono } from 'hono';
import * as wire from '../../wire/sync.ts';
import { DOCUMENT_HEADERS, type Env, errorAnswer } from '../answers.ts';
import { receiveBody } from '../bodies.ts';
import { createPlaces, createRoom } from '../places.ts';
import type { Serving } from '../serving.ts';
import { headerToMime, looksLike } from '../stores/documentMime.ts';
import { documentHead, documentStream, isWhole, keepDocument, type ReadChunk } from '../stores/documentStore.ts';
import { dropParts, hasRoom, keepPart, readPart } from '../stores/partStore.ts';
import { keptAnswer, proveHeld, TOO_MUCH_WAITING, type Uploading } from './documentAnswers.ts';
import { addPartRoutes } from './parts.ts';

export function addDocumentRoutes(api: Hono<Env>, serving: Serving): void {
  const { db, clock, limits } = serving;
  const uploading: Uploading = {
    ...serving,
    places: createPlaces(limits.uploads),
    memory: createRoom(limits.heldChunks),
  };
  api.use('/documents/:sha/*', async (c, next) => {
    return wire.SHA_PATTERN.test(c.req.param('sha')) ? await next() : errorAnswer(c, 'not-found');
  });
  // Hono runs this for HEAD too.
  api.get('/documents/:sha', async (c) => {
    const { id: station } = c.var.phone.station;
    const head = await documentHead(db, station, c.req.param('sha'));
    if (!head) return errorAnswer(c, 'not-found');
    const bodiless = c.req.method === 'HEAD';
    // A phone that is told its document is here lets go of it: only what was read through just now may be told.
    const whole = bodiless
      ? await isWhole(db, station, head.sha, clock.now())
      : await documentStream(db, station, head, clock.now());
    if (!whole) return errorAnswer(c, 'not-found', DAMAGED);
    for (const [name, value] of Object.entries(DOCUMENT_HEADERS)) c.header(name, value);
    proveHeld(c, head);
    c.header('Content-Type', head.mime);
    c.header('Vary', 'Accept-Encoding');
    // A plan is text of many megabytes and shrinks to a tenth; pictures and sound are squeezed already.
    const small = head.mime === 'application/json' && /\bgzip\b/.test(c.req.header('accept-encoding') ?? '');
    if (small) c.header('Content-Encoding', 'gzip');
    else c.header('Content-Length', String(head.bytes));
    if (whole === true) return c.body(null);
    return c.body(small ? squeezed(whole) : whole);
  });

  api.put('/documents/:sha', async (c) => {
    const leave = uploading.places.take(c.var.phone.station.id, c.var.phone.id);
    if (!leave) return errorAnswer(c, 'too-many', undefined, 2);
    try {
      return await putDocument(c, uploading, c.req.param('sha'));
    } finally {
      leave();
    }
  });
  addPartRoutes(api, uploading);
}

const DAMAGED = 'The document is damaged on the server. A phone that still has it will send it again.';

function squeezed(whole: ReadableStream<Uint8Array<ArrayBuffer>>): ReadableStream<Uint8Array<ArrayBuffer>> {
  return whole.pipeThrough(new CompressionStream('gzip'));
}

async function putDocument(c: Context<Env>, { db, clock, random, limits, memory }: Uploading, sha: string) {
  const { id: station } = c.var.phone.station;
  const sender = { station, phone: c.var.phone.id };
  const mime = headerToMime(c.req.header('content-type'));
  if (!mime) return errorAnswer(c, 'mime-refused');
  if (Number(c.req.header('content-length') ?? 0) > limits.documentBytes) return errorAnswer(c, 'too-large');
  // What is here and whole is not written a second time.
  const here = await isWhole(db, station, sha, clock.now());
  // A name that no document can have, so that two who send at once do not mix.
  const aside = `upload-${Buffer.from(random(12)).toString('hex')}`;
  const held: Uint8Array[] = [];
  let begins = new Uint8Array();
  let full = false;
  const setAside = async (chunk: Uint8Array, n: number) => {
    if (n === 0) begins = chunk.slice(0, 64);
    if (here || full) return;
    if (n === held.length && (n === 0 || memory.take())) {
      held.push(chunk);
      return;
    }
    full = !(await hasRoom(db, sender, aside, n, limits.waitingParts));
    if (!full) await keepPart(db, sender, aside, n, chunk, clock.now());
  };
  try {
    const body = await receiveBody(c.req.raw.body, limits.documentBytes, setAside);
    if (body.type === 'too-large') return errorAnswer(c, 'too-large');
    if (body.type === 'broken') return errorAnswer(c, 'bad-request', 'The document broke off on its way.');
    if (body.sha !== sha) return errorAnswer(c, 'hash-differs');
    if (!looksLike(mime, begins)) return keptAnswer(c, { type: 'mime-refused' }, mime);
    if (full) return errorAnswer(c, 'too-many', TOO_MUCH_WAITING, 60);
    const wanted = { sha, bytes: body.bytes, mime };
    const read: ReadChunk = (n, query) => held[n] ?? readPart({ query }, station, aside, n);
    return keptAnswer(c, await keepDocument(db, station, wanted, read, clock.now()), mime);
  } finally {
    memory.give(held.length - 1);
    await dropParts(db, station, aside);
  }
}
