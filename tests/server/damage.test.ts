// Damaged events and documents by name: found once, named until whole again.
import { afterEach, beforeEach, expect, test } from 'vitest';
import { clearDamage, listDamage, noteDamage } from '../../src/server/database/damage.ts';
import { type Database, openDatabase } from '../../src/server/database/database.ts';
import { pairedPhone, STATION, testServer } from './help.ts';

let db: Database;
beforeEach(async () => {
  db = await openDatabase({ type: 'sqlite', file: ':memory:' });
  await pairedPhone(db, testServer(db));
});
afterEach(async () => await db.close());

test('what is found twice is told once, with the time of the first finding', async () => {
  await noteDamage(db, STATION.id, 'event', 'e1', 10);
  await noteDamage(db, STATION.id, 'event', 'e1', 20);
  await noteDamage(db, STATION.id, 'document', 'e1', 30);
  expect(await listDamage(db, 10)).toEqual({
    count: 2,
    first: [
      { station: STATION.id, kind: 'event', id: 'e1', found_at: 10 },
      { station: STATION.id, kind: 'document', id: 'e1', found_at: 30 },
    ],
  });
  expect(await listDamage(db, 1)).toMatchObject({ count: 2, first: [{ kind: 'event' }] });
});

test('what is whole again is named no more, and only that', async () => {
  await noteDamage(db, STATION.id, 'event', 'e1', 10);
  await noteDamage(db, STATION.id, 'event', 'e2', 10);
  await clearDamage(db, STATION.id, 'event', 'e1');
  await clearDamage(db, STATION.id, 'document', 'never');
  expect((await listDamage(db, 10)).first.map((one) => one.id)).toEqual(['e2']);
});

test('marks made in a transaction that fails are not there', async () => {
  const failing = db.query.transaction().execute(async (tx) => {
    await noteDamage({ query: tx }, STATION.id, 'event', 'e1', 10);
    throw new Error('on purpose');
  });
  await expect(failing).rejects.toThrow('on purpose');
  expect((await listDamage(db, 10)).count).toBe(0);
});
