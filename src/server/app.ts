// The routes, from what they are given: no environment, no socket, no clock of their own. Answers come from the
// stores; this file only decides who may ask and in which form the answer goes out.
import { Hono } from 'hono';
import { createMiddleware } from 'hono/factory';
import * as wire from '../wire/sync.ts';
import { answer, COMMON_HEADERS, type Env, errorAnswer } from './answers.ts';
import { failureAnswer, refuseWhenBroken } from './failures.ts';
import { createHolds } from './holds.ts';
import type { Hints } from './live/hints.ts';
import { createLive } from './live/live.ts';
import { tokenToPhone } from './phones/pairing.ts';
import { createLimiter } from './rate.ts';
import { addCompareRoute } from './routes/compare.ts';
import { addDocumentRoutes } from './routes/documents.ts';
import { addEventRoutes } from './routes/events.ts';
import { addLiveRoutes } from './routes/live.ts';
import { addPairing, addPhoneRoutes } from './routes/phones.ts';
import { LIMITS, type Limits, type Serving } from './serving.ts';
import { serveFiles } from './static.ts';
import { createHealth } from './upkeep/health.ts';

export type AppParts = Pick<Serving, 'db' | 'clock' | 'random' | 'trustedProxies'> & {
  version: string;
  staticRoot?: string;
  limits?: Partial<Limits>;
  /** Calls back once after that many milliseconds; the answer undoes it. */
  after?: (ms: number, call: () => void) => () => void;
  /** Between processes on one database; without it they hear of each other's news a little later. */
  hints?: Pick<Hints, 'tell' | 'listen'>;
  /** Ends what never ends by itself: the streams of news. */
  ends?: AbortSignal;
  /** Told of every failure; the asker learns only its kind. */
  onFailure?: (error: unknown) => void;
  /** Bytes left where the data is. */
  diskFree?: () => Promise<number | null>;
};

function afterReal(ms: number, call: () => void): () => void {
  const timer = setTimeout(call, ms);
  return () => clearTimeout(timer);
}

export function createApp(parts: AppParts): Hono<Env> {
  const { db, clock, random, version } = parts;
  const limits: Limits = { ...LIMITS, ...parts.limits };
  const onFailure = (error: unknown) => parts.onFailure?.(error);
  const after = parts.after ?? afterReal;
  const tellOthers = parts.hints?.tell;
  const live = createLive({ db, now: clock.now, after, limits, onFailure, ...(tellOthers ? { tellOthers } : {}) });
  parts.hints?.listen(live.hint);
  parts.ends?.addEventListener('abort', () => live.close());
  const { trustedProxies } = parts;
  const serving: Serving = { db, clock, random, limits, live, ...(trustedProxies ? { trustedProxies } : {}) };
  const app = new Hono<Env>();
  const api = new Hono<Env>();

  app.use(withCommonHeaders);
  app.onError((error, c) => {
    onFailure(error);
    c.header(wire.WIRE_HEADER, String(wire.WIRE_VERSION));
    return failureAnswer(c, error);
  });

  let underWay = 0;
  api.use(async (c, next) => {
    c.header(wire.WIRE_HEADER, String(wire.WIRE_VERSION));
    c.header('Cache-Control', 'no-store');
    underWay += 1;
    try {
      await next();
    } finally {
      underWay -= 1;
    }
  });
  const health = createHealth({
    db,
    clock,
    about: { version, wire: wire.WIRE_VERSION, minClient: wire.MIN_CLIENT_WIRE },
    diskFree: parts.diskFree ?? (async () => null),
    underWay: () => underWay,
    onFailure,
  });
  // Before the version is judged: this is where a phone of any age learns what the server is.
  api.get('/health', async (c) => {
    const found = await health();
    return answer(c, wire.healthSchema, found, found.status === 'failing' ? 503 : 200);
  });
  api.use(ofFittingVersion);
  api.use(async (c, next) => refuseWhenBroken(c, db.condition) ?? (await next()));
  addPairing(api, serving);

  api.use(knownPhones(serving));

  addEventRoutes(api, serving);
  addCompareRoute(api, serving);
  addDocumentRoutes(api, serving);
  addPhoneRoutes(api, serving);
  addLiveRoutes(api, serving);

  api.all('*', (c) => errorAnswer(c, 'not-found'));
  app.route('/api', api);
  app.all('/api', (c) => errorAnswer(c, 'not-found'));
  if (parts.staticRoot !== undefined) app.get('*', serveFiles(parts.staticRoot));
  app.notFound((c) => errorAnswer(c, 'not-found'));
  return app;
}

const withCommonHeaders = createMiddleware<Env>(async (c, next) => {
  await next();
  for (const [name, value] of Object.entries(COMMON_HEADERS)) {
    if (!c.res.headers.has(name)) c.res.headers.set(name, value);
  }
});

const ofFittingVersion = createMiddleware<Env>(async (c, next) => {
  const said = c.req.header(wire.WIRE_HEADER) ?? '';
  if (!/^[0-9]{1,6}$/.test(said)) {
    return errorAnswer(c, 'bad-request', `The header ${wire.WIRE_HEADER} with the app's version is missing.`);
  }
  const verdict = wire.judgePhone(Number(said));
  return verdict.type === 'fits' ? await next() : errorAnswer(c, verdict.type);
});

/** From here on the phone is known by its token, asks no more than its share, and is held for what it does not take. */
function knownPhones({ db, clock, limits }: Serving) {
  const perPhone = createLimiter(limits.perPhone);
  const openHold = createHolds(limits.holds);
  return createMiddleware<Env>(async (c, next) => {
    const [, token] = /^Bearer ([A-Za-z0-9_-]{43})$/.exec(c.req.header('authorization') ?? '') ?? [];
    const phone = token ? await tokenToPhone(db, token, clock.now()) : ({ type: 'unknown' } as const);
    if (phone.type !== 'phone') return errorAnswer(c, phone.type === 'revoked' ? 'revoked' : 'unauthorised');
    const allowed = perPhone(phone.id, clock.now());
    if (allowed.type === 'wait') return errorAnswer(c, 'too-many', undefined, allowed.seconds);
    const hold = openHold(phone.id);
    if (!hold) return errorAnswer(c, 'too-many', undefined, 1);
    c.set('phone', phone);
    c.set('hold', hold);
    // What a phone does not take off the line is held for it until then.
    c.env?.outgoing?.once('close', hold.end);
    try {
      return await next();
    } finally {
      if (!c.env?.outgoing) hold.end();
    }
  });
}
