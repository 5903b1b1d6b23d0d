// Large documents in parts, which a phone with a bad network may send over days. A part is kept only when it is what
// its own hash says; a document only when all together are what its name says.
import type { Context, Hono } from 'hono';
import { DOCUMENT_CHUNK_BYTES } from '../../wire/limits.ts';
import * as wire from '../../wire/sync.ts';
import { answer, type Env, errorAnswer, readJson } from '../answers.ts';
import { receiveBody } from '../bodies.ts';
import { isWhole, joinParts } from '../stores/documentStore.ts';
import { hasRoom, keepPart, listParts } from '../stores/partStore.ts';
import { keptAnswer, TOO_MUCH_WAITING, type Uploading } from './documentAnswers.ts';

export function addPartRoutes(api: Hono<Env>, uploading: Uploading): void {
  const { db, clock, limits, places } = uploading;
  api.get('/documents/:sha/parts', async (c) =>
    answer(c, wire.partsAnswerSchema, { parts: await listParts(db, c.var.phone.station.id, c.req.param('sha')) }),
  );

  api.put('/documents/:sha/parts/:n', async (c) => {
    const leave = places.take(c.var.phone.station.id, c.var.phone.id);
    if (!leave) return errorAnswer(c, 'too-many', undefined, 2);
    try {
      return await putPart(c, uploading, c.req.param('sha'), c.req.param('n'));
    } finally {
      leave();
    }
  });

  api.post('/documents/:sha', async (c) => {
    const { id: station } = c.var.phone.station;
    const body = await readJson(c, wire.joinRequestSchema, Math.min(limits.jsonBytes, 8192));
    if (body.type !== 'body') return errorAnswer(c, body.type, 'sentence' in body ? body.sentence : undefined);
    if (body.value.bytes > limits.documentBytes) return errorAnswer(c, 'too-large');
    const leave = places.take(station, c.var.phone.id);
    if (!leave) return errorAnswer(c, 'too-many', undefined, 2);
    try {
      const sha = c.req.param('sha');
      await isWhole(db, station, sha, clock.now());
      const kept = await joinParts(db, station, sha, { sha, ...body.value }, clock.now());
      return keptAnswer(c, kept, body.value.mime);
    } finally {
      leave();
    }
  });
}

async function putPart(c: Context<Env>, { db, clock, limits }: Uploading, sha: string, said: string) {
  const sender = { station: c.var.phone.station.id, phone: c.var.phone.id };
  const last = Math.ceil(limits.documentBytes / DOCUMENT_CHUNK_BYTES) - 1;
  if (!/^(?:0|[1-9][0-9]{0,5})$/.test(said) || Number(said) > last) return errorAnswer(c, 'not-found');
  const n = Number(said);
  const hash = c.req.header(wire.PART_HEADER) ?? '';
  if (!wire.SHA_PATTERN.test(hash)) {
    return errorAnswer(c, 'bad-request', `The header ${wire.PART_HEADER} with the hash of the part is missing.`);
  }
  if (Number(c.req.header('content-length') ?? 0) > DOCUMENT_CHUNK_BYTES) return errorAnswer(c, 'too-large');
  if (!(await hasRoom(db, sender, sha, n, limits.waitingParts))) {
    return errorAnswer(c, 'too-many', TOO_MUCH_WAITING, 60);
  }
  let part = new Uint8Array();
  const body = await receiveBody(c.req.raw.body, DOCUMENT_CHUNK_BYTES, (chunk) => {
    part = chunk as Uint8Array<ArrayBuffer>;
  });
  if (body.type === 'too-large') return errorAnswer(c, 'too-large');
  if (body.type === 'broken') return errorAnswer(c, 'bad-request', 'The part broke off on its way.');
  if (body.sha !== hash) return errorAnswer(c, 'hash-differs');
  await keepPart(db, sender, sha, n, part, clock.now());
  return answer(c, wire.partAnswerSchema, { type: 'kept', part: n }, 201);
}
