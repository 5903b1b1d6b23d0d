// Events in and events out, in the form of the wire. What is taken and what is told is decided in the event stores.
import type { Hono } from 'hono';
import * as wire from '../../wire/sync.ts';
import { answer, type Env, errorAnswer, readJson } from '../answers.ts';
import type { Serving } from '../serving.ts';
import { pullEvents } from '../stores/eventPull.ts';
import { pushEvents } from '../stores/eventStore.ts';
import { readNumbers } from '../stores/numbers.ts';

export function addEventRoutes(api: Hono<Env>, { db, clock, limits, live }: Serving): void {
  api.post('/events', async (c) => {
    const body = await readJson(c, wire.pushRequestSchema, limits.jsonBytes);
    if (body.type !== 'body') return errorAnswer(c, body.type, 'sentence' in body ? body.sentence : undefined);
    const { id: station } = c.var.phone.station;
    const answers = await pushEvents(db, station, body.value.texts, clock.now());
    // What was there already may have been mended just now, under a new number.
    const numbers = answers.flatMap((one) => ('number' in one ? [one.number] : []));
    if (numbers.length > 0) live.notify(station, Math.max(...numbers));
    const { history } = await readNumbers(db, station);
    return answer(c, wire.pushAnswerSchema, { answers, now: clock.now(), history });
  });

  api.get('/events', async (c) => {
    const after = c.req.query('after') ?? wire.CURSOR_START;
    const limit = Number(c.req.query('limit') ?? wire.MAX_PULL_EVENTS);
    const [proof, history] = [c.req.query('proof'), c.req.query('history')];
    if (!wire.CURSOR_PATTERN.test(after) || !Number.isInteger(limit) || limit < 1) {
      return errorAnswer(c, 'bad-request', 'The question for events needs a cursor from an earlier answer, or 0.');
    }
    if (!(proof === undefined || wire.MARK_PATTERN.test(proof)) || !(history === undefined || isName(history))) {
      return errorAnswer(c, 'bad-request', 'Proof and history have to be as an earlier answer gave them.');
    }
    const asked = { after, proof, history, limit: Math.min(limit, wire.MAX_PULL_EVENTS), now: clock.now() };
    const pulled = await pullEvents(db, c.var.phone.station.id, asked);
    return 'type' in pulled ? errorAnswer(c, pulled.type) : answer(c, wire.pullAnswerSchema, pulled);
  });
}

function isName(text: string): boolean {
  return wire.ID_PATTERN.test(text);
}
