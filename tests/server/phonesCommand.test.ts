// What the terminal may do with phones, and what it prints.
import { afterEach, beforeEach, expect, test } from 'vitest';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { listPhones, tokenToPhone } from '../../src/server/phones/pairing.ts';
import { PHONES_USAGE, readPhonesAsked, runPhones } from '../../src/server/phones/phonesCommand.ts';
import { OTHER, pairedPhone, STATION, type TestServer, testServer } from './help.ts';

let db: Database;
let server: TestServer;
beforeEach(async () => {
  db = await openDatabase({ type: 'sqlite', file: ':memory:' });
  server = testServer(db);
});
afterEach(async () => await db.close());

const run = async (...args: string[]) => await runPhones(db, server.clock.now(), readPhonesAsked(args));

test('an empty server says so', async () => {
  expect(await run()).toEqual({ text: 'There is no station here yet, and so no phone.', done: true });
});

test('phones are listed by station with what each may do, and removed by id', async () => {
  await pairedPhone(db, server);
  const second = await pairedPhone(db, server);
  await pairedPhone(db, server, OTHER);
  const [first, guest] = await listPhones(db, STATION.id);
  const ids = [first?.id ?? '', guest?.id ?? ''].sort();
  const listed = await run();
  expect(listed.text).toContain(`2 phones of ${STATION.name}:`);
  expect(listed.text).toContain(`1 phone of ${OTHER.name}:`);
  for (const id of ids) expect(listed.text).toContain(id);
  expect(listed.text.match(/may remove every other/g)).toHaveLength(2);
  const known = await tokenToPhone(db, second, server.clock.now());
  if (known.type !== 'phone') throw new Error(known.type);
  expect(await run('--remove', known.id)).toMatchObject({ done: true });
  expect((await tokenToPhone(db, second, server.clock.now())).type).toBe('revoked');
  expect((await run()).text).toContain('REMOVED 2027-01-15 08:00 UTC');
  expect(await run('--keeper', known.id)).toMatchObject({ done: false });
});

test('the terminal raises another phone to one that may remove the others', async () => {
  const keeper = await pairedPhone(db, server);
  const second = await pairedPhone(db, server);
  const [a, b] = await Promise.all([keeper, second].map((token) => tokenToPhone(db, token, server.clock.now())));
  if (a?.type !== 'phone' || b?.type !== 'phone') throw new Error('no phone');
  expect((await server.ask('DELETE', `/api/phones/${a.id}`, { token: second })).status).toBe(403);
  expect(await run('--keeper', b.id)).toMatchObject({ done: true });
  expect((await server.ask('DELETE', `/api/phones/${a.id}`, { token: second })).status).toBe(204);
});

test.each([['--remove'], ['--remove', 'a', 'b'], ['--drop', 'a'], ['--remove', 'p-none'], ['--keeper', '\0']])(
  'asked for %s %s it changes nothing and says how to ask',
  async (...args) => {
    await pairedPhone(db, server);
    const before = await listPhones(db, STATION.id);
    const answer = await run(...args.filter((arg): arg is string => typeof arg === 'string'));
    expect(answer.done).toBe(false);
    expect(answer.text).toContain(PHONES_USAGE);
    expect(await listPhones(db, STATION.id)).toEqual(before);
  },
);
