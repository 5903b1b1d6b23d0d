// News for phones that are online, and where people are. What is told is decided in live.ts and presence.ts.
import type { Hono } from 'hono';
import * as wire from '../../wire/sync.ts';
import { answer, type Env, errorAnswer, readJson } from '../answers.ts';
import { presentFor, sayPresence } from '../live/presence.ts';
import { createLimiter } from '../rate.ts';
import type { Serving } from '../serving.ts';

/** When there are too many streams: until then polling does. */
const COME_BACK_SECONDS = 60;

export function addLiveRoutes(api: Hono<Env>, { db, clock, limits, live }: Serving): void {
  api.get('/live', async (c) => {
    c.header('Content-Type', 'text/event-stream; charset=utf-8');
    // A proxy that gathers or squeezes the stream would hold the news back until it is none.
    c.header('Cache-Control', 'no-store, no-transform');
    c.header('X-Accel-Buffering', 'no');
    // Hono runs this for HEAD too, which is no listener.
    if (c.req.method === 'HEAD') return c.body(null);
    const { id, station } = c.var.phone;
    const stream = await live.open({ id, station: station.id });
    return stream ? c.body(stream) : errorAnswer(c, 'too-many', undefined, COME_BACK_SECONDS);
  });

  const perPhone = createLimiter(limits.presence);
  api.put('/presence', async (c) => {
    const { id, station } = c.var.phone;
    const allowed = perPhone(id, clock.now());
    if (allowed.type === 'wait') return errorAnswer(c, 'too-many', undefined, allowed.seconds);
    const body = await readJson(c, wire.presenceRequestSchema, Math.min(limits.jsonBytes, 8192));
    if (body.type !== 'body') return errorAnswer(c, body.type, 'sentence' in body ? body.sentence : undefined);
    await sayPresence(db, station.id, id, body.value.at, clock.now());
    return answer(c, wire.presenceAnswerSchema, { present: await presentFor(db, station.id, id, clock.now()) });
  });
}
