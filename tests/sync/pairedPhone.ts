// A server without sockets and a phone that is paired with it, fresh for every test.
import { afterAll, beforeAll, beforeEach, expect } from 'vitest';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { makeCode } from '../../src/server/phones/pairing.ts';
import type { TransportRequest } from '../../src/sync/ports.ts';
import { codeToPayload } from '../../src/wire/sync.ts';
import { STATION, type TestServer, testServer } from '../server/help.ts';
import { appTransport, type Fate, MemoryPhone, restOf, startSync } from './memoryPhone.ts';

export let db: Database;
export let server: TestServer;

/** To be called once at the top of a test file. */
export function useServer(): void {
  beforeAll(async () => {
    db = await openDatabase({ type: 'sqlite', file: ':memory:' });
  });
  beforeEach(async () => {
    for (const table of [
      'chunks',
      'documents',
      'events',
      'set_aside',
      'codes',
      'presence',
      'rates',
      'phones',
      'stations',
    ] as const) {
      await db.query.deleteFrom(table).execute();
    }
    server = testServer(db);
  });
  afterAll(async () => await db.close());
}

/** The fate of requests counts only from after the pairing on. */
export async function paired(fate?: (request: TransportRequest) => Fate, own = STATION) {
  const there = await db.query.selectFrom('stations').select('id').executeTakeFirst();
  const { code } = await makeCode(db, server.random, server.clock.now(), there ? STATION : null);
  const phone = new MemoryPhone(own);
  let allowed = false;
  const sync = startSync(
    phone,
    appTransport(server.app, (request) => (allowed && fate ? fate(request) : 'carry')),
  );
  const rest = restOf(sync);
  expect(await sync.pair(codeToPayload(code), 'Phone')).toEqual({ type: 'paired', station: STATION });
  expect((await rest).type).toBe('idle');
  allowed = true;
  return { phone, sync };
}

/** In the order of their numbers. */
export async function storedIds(): Promise<string[]> {
  return (await db.query.selectFrom('events').select('id').orderBy('number').execute()).map((row) => row.id);
}
