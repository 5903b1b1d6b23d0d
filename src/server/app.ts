// The routes, from what they are given: no environment, no socket, no clock of their own. Answers come from the
// stores; this file only decides who may ask and in which form the answer goes out.
import { type Context, Hono } from 'hono';
import { createMiddleware } from 'hono/factory';
import * as wire from '../wire/sync.ts';
import { answer, COMMON_HEADERS, DOCUMENT_HEADERS, type Env, errorAnswer, readJson } from './answers.ts';
import type { Database } from './database.ts';
import { documentHead, documentStream, headerToMime, keepDocument, looksLike, receiveBody } from './documentStore.ts';
import { pullEvents, pushEvents } from './eventStore.ts';
import { listPhones, makeCode, pairPhone, type Random, revokePhone, tokenToPhone } from './pairing.ts';
import { type Bucket, createLimiter } from './rate.ts';
import { serveFiles } from './static.ts';

export type Limits = {
  jsonBytes: number;
  documentBytes: number;
  /** Documents are held in memory until their hash is known; so many at once. */
  uploads: number;
  pairPerAddress: Bucket;
  pairInAll: Bucket;
  perPhone: Bucket;
};

export const LIMITS: Limits = {
  jsonBytes: wire.MAX_JSON_BYTES,
  documentBytes: wire.MAX_DOCUMENT_BYTES,
  uploads: 6,
  pairPerAddress: { capacity: 10, perSecond: 1 / 6 },
  pairInAll: { capacity: 60, perSecond: 1 },
  perPhone: { capacity: 600, perSecond: 60 },
};

export type AppParts = {
  db: Database;
  clock: { now: () => number };
  random: Random;
  version: string;
  staticRoot?: string;
  limits?: Partial<Limits>;
  /** Told of failures nobody expected; the asker learns only that there was one. */
  onFailure?: (error: unknown) => void;
};

export function createApp(parts: AppParts): Hono<Env> {
  const { db, clock, random, version } = parts;
  const limits: Limits = { ...LIMITS, ...parts.limits };
  const app = new Hono<Env>();
  const api = new Hono<Env>();

  app.use(async (c, next) => {
    await next();
    for (const [name, value] of Object.entries(COMMON_HEADERS)) {
      if (!c.res.headers.has(name)) c.res.headers.set(name, value);
    }
  });
  app.onError((error, c) => {
    parts.onFailure?.(error);
    c.header(wire.WIRE_HEADER, String(wire.WIRE_VERSION));
    return errorAnswer(c, 'failed');
  });

  api.use(async (c, next) => {
    c.header(wire.WIRE_HEADER, String(wire.WIRE_VERSION));
    c.header('Cache-Control', 'no-store');
    await next();
  });
  // Before the version is judged: this is where a phone of any age learns what the server is.
  api.get('/health', (c) =>
    answer(c, wire.healthSchema, {
      version,
      database: db.dialect,
      wire: wire.WIRE_VERSION,
      minClient: wire.MIN_CLIENT_WIRE,
    }),
  );
  api.use(async (c, next) => {
    const said = c.req.header(wire.WIRE_HEADER) ?? '';
    if (!/^[0-9]{1,6}$/.test(said)) {
      return errorAnswer(c, 'bad-request', `The header ${wire.WIRE_HEADER} with the app's version is missing.`);
    }
    const verdict = wire.judgePhone(Number(said));
    return verdict.type === 'fits' ? await next() : errorAnswer(c, verdict.type);
  });

  const perAddress = createLimiter(limits.pairPerAddress);
  const inAll = createLimiter(limits.pairInAll);
  api.post('/pair', async (c) => {
    const address = c.env?.incoming?.socket.remoteAddress ?? 'unknown';
    for (const allowed of [perAddress(address, clock.now()), inAll('all', clock.now())]) {
      if (allowed.type === 'wait') return errorAnswer(c, 'too-many', undefined, allowed.seconds);
    }
    const body = await readJson(c, wire.pairRequestSchema, Math.min(limits.jsonBytes, 8192));
    if (body.type !== 'body') return errorAnswer(c, body.type, 'sentence' in body ? body.sentence : undefined);
    const outcome = await pairPhone(db, random, clock.now(), body.value);
    if (outcome.type === 'paired') return answer(c, wire.pairAnswerSchema, outcome.answer, 201);
    if (outcome.type !== 'station-differs') return errorAnswer(c, outcome.type);
    return errorAnswer(
      c,
      'station-differs',
      `The code does not fit the phone: on the server it meets the station “${outcome.station}”. Make one for the phone's station: npm run pair.`,
    );
  });

  const perPhone = createLimiter(limits.perPhone);
  api.use(
    createMiddleware<Env>(async (c, next) => {
      const [, token] = /^Bearer ([A-Za-z0-9_-]{43})$/.exec(c.req.header('authorization') ?? '') ?? [];
      const phone = token ? await tokenToPhone(db, token, clock.now()) : ({ type: 'unknown' } as const);
      if (phone.type !== 'phone') return errorAnswer(c, phone.type === 'revoked' ? 'revoked' : 'unauthorised');
      const allowed = perPhone(phone.id, clock.now());
      if (allowed.type === 'wait') return errorAnswer(c, 'too-many', undefined, allowed.seconds);
      c.set('phone', phone);
      return await next();
    }),
  );

  api.post('/events', async (c) => {
    const body = await readJson(c, wire.pushRequestSchema, limits.jsonBytes);
    if (body.type !== 'body') return errorAnswer(c, body.type, 'sentence' in body ? body.sentence : undefined);
    const answers = await pushEvents(db, c.var.phone.station.id, body.value.texts, clock.now());
    return answer(c, wire.pushAnswerSchema, { answers });
  });

  api.get('/events', async (c) => {
    const after = c.req.query('after') ?? wire.CURSOR_START;
    const limit = Number(c.req.query('limit') ?? wire.MAX_PULL_EVENTS);
    if (!wire.CURSOR_PATTERN.test(after) || !Number.isInteger(limit) || limit < 1) {
      return errorAnswer(c, 'bad-request', 'The question for events needs a cursor from an earlier answer, or 0.');
    }
    const pulled = await pullEvents(db, c.var.phone.station.id, after, Math.min(limit, wire.MAX_PULL_EVENTS));
    return 'type' in pulled ? errorAnswer(c, pulled.type) : answer(c, wire.pullAnswerSchema, pulled);
  });

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

  api.get('/phones', async (c) => {
    const rows = await listPhones(db, c.var.phone.station.id);
    const phones = rows.map((row) => ({
      id: row.id,
      name: row.name,
      pairedAt: row.paired_at,
      seenAt: row.seen_at,
      revokedAt: row.revoked_at,
      self: row.id === c.var.phone.id,
    }));
    return answer(c, wire.phonesAnswerSchema, { phones });
  });
  api.delete('/phones/:id', async (c) => {
    const done = await revokePhone(db, c.var.phone.station.id, c.req.param('id'), clock.now());
    return done ? c.body(null, 204) : errorAnswer(c, 'not-found');
  });
  api.post('/codes', async (c) =>
    answer(c, wire.codeAnswerSchema, await makeCode(db, random, clock.now(), c.var.phone.station), 201),
  );

  api.all('*', (c) => errorAnswer(c, 'not-found'));
  app.route('/api', api);
  app.all('/api', (c) => errorAnswer(c, 'not-found'));
  if (parts.staticRoot !== undefined) app.get('*', serveFiles(parts.staticRoot));
  app.notFound((c) => errorAnswer(c, 'not-found'));
  return app;
}
