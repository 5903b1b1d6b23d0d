// A backup holds what the database held, whichever of the two it was, and says so when something in it is not whole.
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { pruneFolder } from '../../src/server/copy/backup.ts';
import { backupCommand } from '../../src/server/copy/backupCommand.ts';
import {
  backup,
  command,
  contentOf,
  ENGINES,
  fill,
  freshAddress,
  LASTING,
  newFolder,
  OF_ONE_SERVER,
  opened,
  useDatabases,
} from './backupHelp.ts';
import { earlierSqlite } from './earlierFixtures.ts';
import { OTHER, STATION, sha } from './help.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
useDatabases();

describe.each(ENGINES)('of %s', (engine) => {
  test('it is one file for this user alone, with every row of every table', async () => {
    const address = await freshAddress(engine);
    const db = await opened(address);
    await fill(db);
    const before = await contentOf(db, [...LASTING, ...OF_ONE_SERVER]);
    const file = join(newFolder(), 'kept.db');
    const ended = await backup(address, file);
    expect(ended).toMatchObject({ end: 0, err: '' });
    expect(ended.out).toContain(file);
    expect(ended.out).toContain(`${STATION.name}: 4 events, 1 document (2.3 MB), 2 phones.`);
    expect(ended.out).toContain(`${OTHER.name}: 1 event, 1 document (1 kB), 1 phone.`);
    expect(ended.out).toContain('Every text and every document was checked against its hash.');
    expect(readdirSync(join(file, '..'))).toEqual(['kept.db']);
    expect(statSync(file).mode & 0o777).toBe(0o600);
    const copy = await opened({ type: 'sqlite', file });
    expect(await contentOf(copy, [...LASTING, ...OF_ONE_SERVER])).toEqual(before);
    expect(await copy.query.selectFrom('stations').selectAll().orderBy('id').execute()).toEqual(
      await db.query.selectFrom('stations').selectAll().orderBy('id').execute(),
    );
  });

  test('the server is told when and where, and the time of the last good one stays when one fails', async () => {
    const address = await freshAddress(engine);
    const db = await opened(address);
    await fill(db);
    const fact = async () =>
      JSON.parse(
        (await db.query.selectFrom('facts').select('value').where('key', '=', 'backup').executeTakeFirst())?.value ??
          'null',
      ) as unknown;
    const file = join(newFolder(), 'a.db');
    await command(backupCommand, address, [file], 1000);
    expect(await fact()).toEqual({ at: 1000, file, ok: true, goodAt: 1000 });
    // A folder in the way of the file that is written first.
    const blocked = join(newFolder(), 'sub');
    writeFileSync(join(blocked, '..', 'file'), '');
    const failed = await command(backupCommand, address, [join(blocked, '..', 'file', 'b.db')], 2000);
    expect(failed.end).toBe(2);
    expect(await fact()).toMatchObject({ at: 2000, ok: false, goodAt: 1000, why: failed.err });
  });

  test('what is damaged is named, and everything else is there', async () => {
    const address = await freshAddress(engine);
    const db = await opened(address);
    await fill(db);
    await db.query.updateTable('events').set({ text: '{"altered":true}' }).where('id', '=', 'e2').execute();
    const document = sha(new Uint8Array([1, 2, 3]));
    await db.query
      .updateTable('chunks')
      .set({ bytes: Buffer.from([1, 2, 4]) })
      .where('sha', '=', document)
      .execute();
    const file = join(newFolder(), 'kept.db');
    const ended = await backup(address, file);
    expect(ended.end).toBe(1);
    expect(ended.out).toContain(`event e2 of station ${STATION.id}`);
    expect(ended.out).toContain(`document ${document} of station ${OTHER.id}`);
    expect(ended.out).toContain('DAMAGED, not what its hash says: 2.');
    const copy = await opened({ type: 'sqlite', file });
    expect(await contentOf(copy, LASTING)).toEqual(await contentOf(db, LASTING));
    const fact = await db.query.selectFrom('facts').select('value').where('key', '=', 'backup').executeTakeFirst();
    expect(JSON.parse(fact?.value ?? '')).toMatchObject({ file, ok: false });
  });

  test('a number that would be given out twice is told', async () => {
    const address = await freshAddress(engine);
    const db = await opened(address);
    await fill(db);
    await db.query.updateTable('stations').set({ next_number: 3 }).where('id', '=', STATION.id).execute();
    const ended = await backup(address, join(newFolder(), 'kept.db'));
    expect(ended.end).toBe(1);
    expect(ended.out).toContain(`The station ${STATION.name} gave out number`);
  });

  test('an earlier file is written over only when asked', async () => {
    const address = await freshAddress(engine);
    await fill(await opened(address));
    const file = join(newFolder(), 'kept.db');
    writeFileSync(file, 'something else');
    const refused = await backup(address, file);
    expect(refused).toMatchObject({ end: 2, out: '' });
    expect(refused.err).toContain('is there already');
    expect(readFileSync(file, 'utf8')).toBe('something else');
    expect((await backup(address, file, '--replace')).end).toBe(0);
    expect(readFileSync(file, 'latin1').startsWith('SQLite format 3')).toBe(true);
  });

  test('a part that a crash left behind does not stand in the way', async () => {
    const address = await freshAddress(engine);
    await fill(await opened(address));
    const file = join(newFolder(), 'kept.db');
    writeFileSync(`${file}.part`, 'half of something');
    writeFileSync(`${file}.part-journal`, 'half of something');
    expect((await backup(address, file)).end).toBe(0);
    expect(readdirSync(join(file, '..'))).toEqual(['kept.db']);
  });
});

test('of several PostgreSQL hosts it reads the one that takes writes', async () => {
  const address = await freshAddress('postgresql');
  if (address.type !== 'postgresql') throw new Error('not PostgreSQL');
  await fill(await opened(address));
  const url = new URL(address.url);
  const host = url.searchParams.get('host') ?? url.hostname;
  url.searchParams.set('host', `/nobody/is/here,${host}`);
  const ended = await backup({ type: 'postgresql', url: url.href }, join(newFolder(), 'kept.db'));
  expect(ended).toMatchObject({ end: 0, err: '' });
  expect(ended.out).toContain(`${STATION.name}: 4 events`);
});

test('a page that cannot be read costs neither the backup nor what stands on the others', async () => {
  const address = await freshAddress('sqlite');
  if (address.type !== 'sqlite') throw new Error('not a file');
  const db = await opened(address);
  await fill(db);
  await db.query
    .updateTable('events')
    .set({ text: 'x'.repeat(40_000) })
    .where('id', '=', 'e3')
    .execute();
  await db.close();
  const bytes = readFileSync(address.file);
  const at = bytes.lastIndexOf('x'.repeat(4000));
  bytes.fill(0xff, at - (at % 4096), at - (at % 4096) + 4096);
  writeFileSync(address.file, bytes);
  const file = join(newFolder(), 'kept.db');
  const ended = await backup(address, file);
  expect(ended.end).toBe(1);
  expect(ended.out).toContain('DAMAGED');
  const copy = await opened({ type: 'sqlite', file });
  expect(await copy.query.selectFrom('phones').select('id').execute()).toHaveLength(3);
});

test('what cannot be done is said in a sentence, and leaves nothing behind', async () => {
  const nowhere = await freshAddress('sqlite');
  const folder = newFolder();
  const missing = await backup(nowhere, join(folder, 'kept.db'));
  expect(missing).toMatchObject({ end: 2, err: expect.stringContaining('There is no database at') });
  if (nowhere.type === 'sqlite') expect(existsSync(nowhere.file)).toBe(false);
  const away = { type: 'postgresql', url: 'postgres://tests@127.0.0.1:1/none' } as const;
  expect((await backup(away, join(folder, 'kept.db'))).err).toContain('Check DATABASE_URL');
  const address = await freshAddress('sqlite');
  await fill(await opened(address));
  expect((await backup(address, join(folder, 'no', 'kept.db'))).err).toContain('is not there');
  for (const args of [
    [],
    ['a', 'b'],
    ['--into'],
    ['--keep', '0', '--into', folder],
    ['a', '--into', folder],
    ['--what'],
  ]) {
    expect(await backup(address, ...args)).toMatchObject({ end: 2, err: expect.stringContaining('npm run backup') });
  }
  expect(readdirSync(folder)).toEqual([]);
});

test('a database of an earlier version is kept as it is, and not brought up to date by the way', async () => {
  const { folder, file } = earlierSqlite();
  const before = readFileSync(file);
  const to = join(newFolder(), 'kept.db');
  const ended = await backup({ type: 'sqlite', file }, to);
  expect(ended).toMatchObject({ end: 0, err: '' });
  expect(readFileSync(file).equals(before)).toBe(true);
  expect(readdirSync(folder)).toEqual(['asfound.db']);
  expect(readFileSync(to).includes('0002-')).toBe(false);
});

test('into a folder they are named by their time, and the oldest go', async () => {
  const address = await freshAddress('sqlite');
  await fill(await opened(address));
  const folder = join(newFolder(), 'made', 'here');
  const day = 86_400_000;
  for (let n = 0; n < 4; n += 1) {
    const ended = await command(backupCommand, address, ['--into', folder, '--keep', '2'], 1_800_000_000_000 + n * day);
    expect(ended.end).toBe(0);
  }
  expect(readdirSync(folder).sort()).toEqual(['asfound-20270117-080000.db', 'asfound-20270118-080000.db']);
  expect(statSync(folder).mode & 0o777).toBe(0o700);
});

test('damaged ones never push out a whole one, and files of others stay', () => {
  const folder = newFolder();
  const whole = ['asfound-20270110-080000.db', 'asfound-20270111-080000.db', 'asfound-20270112-080000.db'];
  const damaged = ['asfound-20270113-080000-damaged.db', 'asfound-20270114-080000-damaged.db'];
  for (const name of [...whole, ...damaged, 'notes.txt', 'asfound.db']) writeFileSync(join(folder, name), name);
  expect(pruneFolder(folder, 2)).toEqual([whole[0], damaged[0]]);
  expect(readdirSync(folder).sort()).toEqual([...whole.slice(1), damaged[1], 'asfound.db', 'notes.txt'].sort());
  expect(pruneFolder(folder, 2)).toEqual([]);
});
