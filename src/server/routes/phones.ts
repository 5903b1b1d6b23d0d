// Who belongs to the station: pairing, the list of phones, codes for further ones.
import type { Hono } from 'hono';
import * as wire from '../../wire/sync.ts';
import { answer, type Env, errorAnswer, readJson } from '../answers.ts';
import type { Serving } from '../app.ts';
import { listPhones, makeCode, pairPhone, revokePhone } from '../pairing.ts';
import { createLimiter } from '../rate.ts';

/** The one route that a phone without a token may ask. */
export function addPairing(api: Hono<Env>, { db, clock, random, limits }: Serving): void {
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
}

export function addPhoneRoutes(api: Hono<Env>, { db, clock, random }: Serving): void {
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
}
