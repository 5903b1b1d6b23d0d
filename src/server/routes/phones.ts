// Who belongs to the station: pairing, the list of phones, codes for further ones.
import type { Hono } from 'hono';
import * as wire from '../../wire/sync.ts';
import { answer, type Env, errorAnswer, readJson } from '../answers.ts';
import { listPhones, makeCode, mayRemove, pairPhone, removePhone } from '../phones/pairing.ts';
import { clientAddress, toBucketKey } from '../proxies.ts';
import { type Allowed, askShared, dropStale, takeShared } from '../rate.ts';
import type { Serving } from '../serving.ts';

/** The one route that a phone without a token may ask. */
export function addPairing(api: Hono<Env>, { db, clock, random, limits, trustedProxies }: Serving): void {
  async function mayTry(address: string): Promise<Allowed> {
    const now = clock.now();
    const key = `pair ${toBucketKey(address)}`;
    // Asked before anything is taken: one address that guesses must not drain the bucket of all, and addresses without
    // end must not fill the table.
    const asked = await askShared(db, key, limits.pairPerAddress, now);
    if (asked.type === 'wait') return asked;
    await dropStale(db, now);
    const inAll = await takeShared(db, 'pair', limits.pairInAll, now);
    return inAll.type === 'wait' ? inAll : await takeShared(db, key, limits.pairPerAddress, now);
  }

  api.post('/pair', async (c) => {
    const socket = c.env?.incoming?.socket.remoteAddress ?? 'unknown';
    const allowed = await mayTry(clientAddress(socket, c.req.header('x-forwarded-for'), trustedProxies));
    if (allowed.type === 'wait') return errorAnswer(c, 'too-many', undefined, allowed.seconds);
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

export function addPhoneRoutes(api: Hono<Env>, { db, clock, random, live }: Serving): void {
  api.get('/phones', async (c) => {
    const rows = await listPhones(db, c.var.phone.station.id);
    const me = rows.find((row) => row.id === c.var.phone.id);
    const phones = rows.map((row) => ({
      id: row.id,
      name: row.name,
      pairedAt: row.paired_at,
      seenAt: row.seen_at,
      revokedAt: row.revoked_at,
      self: row.id === c.var.phone.id,
      mayRemove: me !== undefined && mayRemove(me, row),
    }));
    return answer(c, wire.phonesAnswerSchema, { phones });
  });
  api.delete('/phones/:id', async (c) => {
    const { id, station } = c.var.phone;
    const other = c.req.param('id');
    const removal = await removePhone(db, { id, station: station.id }, other, clock.now());
    if (removal !== 'removed') return errorAnswer(c, removal);
    live.dropPhone(other);
    return c.body(null, 204);
  });
  api.post('/codes', async (c) => {
    const { id, station } = c.var.phone;
    return answer(c, wire.codeAnswerSchema, await makeCode(db, random, clock.now(), station, id), 201);
  });
}
