// A server put back from a real backup, and two phones with their real stores: both give back what came after it, by
// themselves, whoever made it, and go on with their old pairing.
import { rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test, vi } from 'vitest';
import type { DatabaseAddress } from '../../src/server/database/database.ts';
import { makeCode } from '../../src/server/phones/pairing.ts';
import {
  backup,
  ENGINES,
  type Engine,
  freshAddress,
  newFolder,
  opened,
  restore,
  useDatabases,
} from '../server/backupHelp.ts';
import { STATION, sha, type TestServer, testServer } from '../server/help.ts';
import { appTransport, nudged } from './memoryPhone.ts';
import { newDisk, openStorePhone, type StorePhone } from './storePhone.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });
useDatabases();

/** The way stays the same; which server is at its other end does not. */
type Way = { server: TestServer };

async function phoneOn(way: Way, name: string, code: string): Promise<StorePhone> {
  const transport = {
    cancel: () => undefined,
    send: (request: Parameters<ReturnType<typeof appTransport>['send']>[0]) =>
      appTransport(way.server.app).send(request),
  };
  const phone = await openStorePhone({ disk: newDisk(), station: STATION, name, transport });
  expect(await phone.sync.pair(code, name)).toMatchObject({ type: 'paired' });
  expect((await nudged(phone.sync)).type).toBe('idle');
  return phone;
}

const jpeg = (n: number, size = 2000) =>
  new Uint8Array(size).fill(n).map((byte, i) => (i < 3 ? [0xff, 0xd8, 0xff][i]! : (byte + i) % 256));

async function photo(phone: StorePhone, bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const saved = await phone.commands.addPhoto({ bytes, mime: 'image/jpeg', width: 8, height: 8 });
  if (saved.type !== 'saved') throw new Error(saved.type);
  return saved.sha;
}

async function into(engine: Engine, from: DatabaseAddress, file: string): Promise<DatabaseAddress> {
  if (from.type === 'sqlite' && engine === 'sqlite') {
    // The machine is gone; the folder is empty again.
    rmSync(dirname(from.file), { recursive: true });
  }
  const to = from.type === engine && from.type === 'sqlite' ? from : await freshAddress(engine);
  expect((await restore(to, file)).end).toBe(0);
  return to;
}

test.each(ENGINES)('restored into %s: what came after the backup comes back from the phones', async (engine) => {
  const address = await freshAddress('sqlite');
  const first = await opened(address);
  const way: Way = { server: testServer(first) };
  const code = async () => {
    const there = await first.query.selectFrom('stations').select('id').executeTakeFirst();
    return (await makeCode(first, way.server.random, way.server.clock.now(), there ? STATION : null)).code;
  };
  const a = await phoneOn(way, 'a', await code());
  const b = await phoneOn(way, 'b', await code());
  await a.record('note', { text: 'before the backup' });
  const early = await photo(a, jpeg(1));
  expect((await nudged(a.sync)).type).toBe('idle');
  const file = join(newFolder(), 'kept.db');
  expect((await backup(address, file)).end).toBe(0);

  for (let n = 0; n < 5; n += 1) await a.record('note', { text: `after the backup, ${n}` });
  const late = [await photo(a, jpeg(2)), await photo(a, jpeg(3, 1_300_000))];
  expect((await nudged(a.sync)).type).toBe('idle');
  for (const name of [early, ...late]) await b.commands.wantDocument(name);
  await b.record('note', { text: 'by the other phone' });
  expect((await nudged(b.sync)).type).toBe('idle');
  // The first has not heard of the other's entry; the other holds everything.
  for (const phone of [a, b]) expect(await phone.outbox.count()).toMatchObject({ events: 0, documents: 0, refused: 0 });

  await first.close();
  const target = await into(engine, address, file);
  const second = await opened(target);
  expect(await second.query.selectFrom('events').select('id').execute()).toHaveLength(2);
  way.server = testServer(second);
  for (const phone of [a, b, a]) expect((await nudged(phone.sync)).type).toBe('idle');

  const rows = await second.query.selectFrom('events').select(['id', 'text']).execute();
  const held = new Map(rows.map((row) => [row.id, row.text]));
  expect(held.size).toBe(10);
  for (const phone of [a, b]) expect(await phone.texts()).toEqual(held);
  const documents = await second.query.selectFrom('documents').select('sha').where('complete', '=', 1).execute();
  expect(documents.map((row) => row.sha).sort()).toEqual([early, ...late].sort());
  for (const name of late) {
    const chunks = await second.query
      .selectFrom('chunks')
      .select('bytes')
      .where('sha', '=', name)
      .orderBy('n')
      .execute();
    expect(sha(Buffer.concat(chunks.map((chunk) => chunk.bytes)))).toBe(name);
  }
  for (const phone of [a, b]) {
    expect(await phone.outbox.count()).toMatchObject({ events: 0, documents: 0, refused: 0 });
    expect(phone.failures).toEqual([]);
    phone.close();
  }
  expect(way.server.failures).toEqual([]);
});

test('a phone that is lost costs nothing that another has pulled', async () => {
  const address = await freshAddress('sqlite');
  const first = await opened(address);
  const way: Way = { server: testServer(first) };
  const a = await phoneOn(way, 'a', (await makeCode(first, way.server.random, way.server.clock.now(), null)).code);
  const b = await phoneOn(way, 'b', (await makeCode(first, way.server.random, way.server.clock.now(), STATION)).code);
  const file = join(newFolder(), 'kept.db');
  expect((await backup(address, file)).end).toBe(0);
  const made = await a.record('note', { text: 'seen once' });
  const name = await photo(a, jpeg(9));
  expect((await nudged(a.sync)).type).toBe('idle');
  await b.commands.wantDocument(name);
  expect((await nudged(b.sync)).type).toBe('idle');
  a.close();
  await first.close();
  const second = await opened(await into('postgresql', address, file));
  way.server = testServer(second);
  expect((await nudged(b.sync)).type).toBe('idle');
  const texts = await second.query.selectFrom('events').select('text').execute();
  expect(texts.map((row) => row.text)).toContain(made.text);
  const documents = await second.query.selectFrom('documents').select('sha').where('complete', '=', 1).execute();
  expect(documents.map((row) => row.sha)).toEqual([name]);
  b.close();
});
