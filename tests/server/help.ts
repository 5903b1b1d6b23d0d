// Made-up stations, events and phones for the server's tests. Names and ids are invented.
import { createHash } from 'node:crypto';
import type { Hono } from 'hono';
import type { Env } from '../../src/server/answers.ts';
import { type AppParts, createApp } from '../../src/server/app.ts';
import type { Database } from '../../src/server/database/database.ts';
import { makeCode, pairPhone, type Random } from '../../src/server/phones/pairing.ts';
import { WIRE_HEADER, WIRE_VERSION } from '../../src/wire/sync.ts';

export const STATION = { id: 'st-quay', name: 'Quayside Community Radio' };
export const OTHER = { id: 'st-hill', name: 'Hilltop Radio' };

export function sha(bytes: Uint8Array | string): string {
  return createHash('sha256').update(bytes).digest('hex');
}

export function eventText(id: string, over: Record<string, unknown> = {}): string {
  const envelope = { v: 1, id, station: STATION.id, log: 'log-a', seq: 1, prev: null, author: 'Ines', at: 1, zone: 60 };
  return JSON.stringify({ ...envelope, kind: 'note', payload: { text: `note of ${id}` }, ...over });
}

/** Different bytes every time and the same ones in every run. */
export function countingRandom(): Random {
  let count = 0;
  return (bytes) => {
    const out = new Uint8Array(bytes);
    for (let at = 0; at < bytes; at += 32) {
      count += 1;
      out.set(
        createHash('sha256')
          .update(String(count))
          .digest()
          .subarray(0, Math.min(32, bytes - at)),
        at,
      );
    }
    return out;
  };
}

export function movableClock(start = 1_800_000_000_000): { now: () => number; move: (ms: number) => void } {
  let at = start;
  return {
    now: () => at,
    move: (ms) => {
      at += ms;
    },
  };
}

export type TestServer = {
  app: Hono<Env>;
  clock: ReturnType<typeof movableClock>;
  random: Random;
  failures: unknown[];
  ask: (method: string, path: string, more?: Asking) => Promise<Response>;
};
type Asking = { token?: string; body?: BodyInit; json?: unknown; headers?: Record<string, string> };

export function testServer(db: Database, parts: Partial<AppParts> = {}): TestServer {
  const clock = movableClock();
  const random = countingRandom();
  const failures: unknown[] = [];
  const app = createApp({ db, clock, random, version: '0.0.0', onFailure: (error) => failures.push(error), ...parts });
  const ask = async (method: string, path: string, { token, body, json, headers }: Asking = {}) =>
    await app.request(path, {
      method,
      headers: {
        [WIRE_HEADER]: String(WIRE_VERSION),
        ...(token ? { authorization: `Bearer ${token}` } : {}),
        ...headers,
      },
      ...(json === undefined ? {} : { body: JSON.stringify(json) }),
      ...(body === undefined ? {} : { body }),
    });
  return { app, clock, random, failures, ask };
}

/** A phone of the station, which is made when it is not there yet. */
export async function pairedPhone(db: Database, server: TestServer, station = STATION): Promise<string> {
  const there = await db.query.selectFrom('stations').select('id').where('id', '=', station.id).executeTakeFirst();
  const { code } = await makeCode(db, server.random, server.clock.now(), there ? station : null);
  const paired = await pairPhone(db, server.random, server.clock.now(), { code, phone: 'Phone', station });
  if (paired.type !== 'paired') throw new Error(paired.type);
  return paired.answer.token;
}
