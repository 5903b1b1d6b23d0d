// What requests under way may hold in memory, for one phone and for all.
import { afterEach, beforeEach, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { createHolds } from '../../src/server/holds.ts';
import { errorSchema } from '../../src/wire/sync.ts';
import { eventText, OTHER, pairedPhone, STATION, testServer } from './help.ts';

let db: Database;
beforeEach(async () => {
  db = await openDatabase({ type: 'sqlite', file: ':memory:' });
});
afterEach(async () => await db.close());

test('requests and bytes are counted for each phone and in all, and given back', () => {
  const open = createHolds({ requestsPerPhone: 2, bytesPerPhone: 10, bytesInAll: 15 });
  const first = open('a');
  const second = open('a');
  expect(open('a')).toBeNull();
  expect([first?.grow(6), second?.grow(6), second?.grow(4)]).toEqual([true, false, true]);
  const other = open('b');
  expect([other?.grow(6), other?.grow(5)]).toEqual([false, true]);
  first?.end();
  first?.end();
  expect(first?.grow(1)).toBe(false);
  expect([second?.grow(6), second?.grow(1), other?.grow(1)]).toEqual([true, false, false]);
  expect(open('a')).not.toBeNull();
});

test('a phone whose bodies never come to an end is refused more, and does not stand in the way of another', async () => {
  const holds = { requestsPerPhone: 3, bytesPerPhone: 30_000, bytesInAll: 60_000 };
  const server = testServer(db, { limits: { holds } });
  const slow = await pairedPhone(db, server);
  const other = await pairedPhone(db, server, OTHER);
  const closers: (() => void)[] = [];
  const hanging = [1, 2, 3].map(() => {
    const body = new ReadableStream<Uint8Array>({
      start: (controller) => {
        controller.enqueue(new TextEncoder().encode(`{"texts":[${' '.repeat(9000)}`));
        closers.push(() => controller.error(new Error('the sender went away')));
      },
    });
    const request = new Request('http://localhost/api/events', {
      method: 'POST',
      body,
      headers: { 'asfound-wire': '1', authorization: `Bearer ${slow}` },
      duplex: 'half',
    } as RequestInit);
    return Promise.resolve(server.app.request(request));
  });
  const push = (token: string, station: string, id: string) =>
    server.ask('POST', '/api/events', { token, json: { texts: [eventText(id, { station })] } });
  // Until all three are under way the next one may still find a place.
  let refused = await push(slow, STATION.id, 'mine');
  while (refused.status === 200) refused = await push(slow, STATION.id, 'mine');
  expect([refused.status, z.parse(errorSchema, await refused.json()).type]).toEqual([429, 'too-many']);
  expect(refused.headers.get('retry-after')).toBe('1');
  expect((await push(other, OTHER.id, 'theirs')).status).toBe(200);
  for (const close of closers) close();
  expect((await Promise.all(hanging)).map((answer) => answer.status)).toEqual([400, 400, 400]);
  expect((await push(slow, STATION.id, 'mine')).status).toBe(200);
});

test('a body for which there is no room is refused before it is in memory', async () => {
  const server = testServer(db, { limits: { holds: { requestsPerPhone: 3, bytesPerPhone: 5000, bytesInAll: 5000 } } });
  const token = await pairedPhone(db, server);
  const texts = Array.from({ length: 50 }, (_, i) => eventText(`e${i}`));
  const answer = await server.ask('POST', '/api/events', { token, json: { texts } });
  expect([answer.status, answer.headers.get('retry-after')]).toEqual([429, '2']);
  expect((await server.ask('POST', '/api/events', { token, json: { texts: texts.slice(0, 5) } })).status).toBe(200);
});
