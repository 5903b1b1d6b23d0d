// Events in and events out, in the form of the wire. What is taken and what is told is decided in the event store.
import type { Hono } from 'hono';
import * as wire from '../../wire/sync.ts';
import { answer, type Env, errorAnswer, readJson } from '../answers.ts';
import type { Serving } from '../app.ts';
import { pullEvents, pushEvents } from '../eventStore.ts';

export function addEventRoutes(api: Hono<Env>, { db, clock, limits }: Serving): void {
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
}
