// The question of a phone what of its own is missing here, in the form of the wire.
import type { Hono } from 'hono';
import * as wire from '../../wire/sync.ts';
import { answer, type Env, errorAnswer, readJson } from '../answers.ts';
import type { Serving } from '../serving.ts';
import { compareHeld } from '../stores/compareStore.ts';
import { readNumbers } from '../stores/numbers.ts';

export function addCompareRoute(api: Hono<Env>, { db, clock, limits }: Serving): void {
  api.post('/compare', async (c) => {
    const body = await readJson(c, wire.compareRequestSchema, limits.jsonBytes);
    if (body.type !== 'body') return errorAnswer(c, body.type, 'sentence' in body ? body.sentence : undefined);
    const { id: station } = c.var.phone.station;
    const missing = await compareHeld(db, station, body.value);
    const { history } = await readNumbers(db, station);
    return answer(c, wire.compareAnswerSchema, { ...missing, now: clock.now(), history });
  });
}
