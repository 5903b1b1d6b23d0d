// Documents in and out under the hash of their bytes. Nothing is kept here before its hash was computed.
import type { Context, Hono } from 'hono';
import * as wire from '../../wire/sync.ts';
import { answer, DOCUMENT_HEADERS, type Env, errorAnswer } from '../answers.ts';
import type { Serving } from '../app.ts';
import { documentHead, documentStream, headerToMime, keepDocument, looksLike, receiveBody } from '../documentStore.ts';

export function addDocumentRoutes(api: Hono<Env>, { db, limits }: Serving): void {
  api.use('/documents/:sha', async (c, next) => {
    return wire.SHA_PATTERN.test(c.req.param('sha')) ? await next() : errorAnswer(c, 'not-found');
  });
  // Hono runs this for HEAD too.
  api.get('/documents/:sha', async (c) => {
    const { id: station } = c.var.phone.station;
    const head = await documentHead(db, station, c.req.param('sha'));
    if (!head) return errorAnswer(c, 'not-found');
    for (const [name, value] of Object.entries(DOCUMENT_HEADERS)) c.header(name, value);
    c.header('Content-Type', head.mime);
    c.header('Vary', 'Accept-Encoding');
    // A plan is text of many megabytes and shrinks to a tenth; pictures and sound are squeezed already.
    const small = head.mime === 'application/json' && /\bgzip\b/.test(c.req.header('accept-encoding') ?? '');
    if (small) c.header('Content-Encoding', 'gzip');
    else c.header('Content-Length', String(head.bytes));
    if (c.req.method === 'HEAD') return c.body(null);
    const whole = documentStream(db, station, head.sha);
    return c.body(small ? whole.pipeThrough(new CompressionStream('gzip')) : whole);
  });

  let uploads = 0;
  api.put('/documents/:sha', async (c) => {
    if (uploads >= limits.uploads) return errorAnswer(c, 'too-many', undefined, 2);
    uploads += 1;
    try {
      return await putDocument(c, c.req.param('sha'));
    } finally {
      uploads -= 1;
    }
  });

  async function putDocument(c: Context<Env>, sha: string) {
    const { id: station } = c.var.phone.station;
    const mime = headerToMime(c.req.header('content-type'));
    if (!mime) return errorAnswer(c, 'mime-refused');
    if (Number(c.req.header('content-length') ?? 0) > limits.documentBytes) return errorAnswer(c, 'too-large');
    const body = await receiveBody(c.req.raw.body, limits.documentBytes);
    if (body.type === 'too-large') return errorAnswer(c, 'too-large');
    if (body.type === 'broken') return errorAnswer(c, 'bad-request', 'The document broke off on its way.');
    if (body.sha !== sha) return errorAnswer(c, 'hash-differs');
    if (!looksLike(mime, body.chunks[0] ?? new Uint8Array())) {
      return errorAnswer(c, 'mime-refused', `The document is not ${mime}, which it claims to be.`);
    }
    const type = await keepDocument(db, station, { sha, bytes: body.bytes, mime }, body.chunks);
    return answer(c, wire.documentAnswerSchema, { type, sha, bytes: body.bytes }, type === 'stored' ? 201 : 200);
  }
}
