// A restore puts everything back, on either database, begins a new history, and goes into nothing but an empty one.
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import SqliteConnection from 'better-sqlite3';
import { describe, expect, test, vi } from 'vitest';
import type { DatabaseAddress } from '../../src/server/database/database.ts';
import { tokenToPhone } from '../../src/server/phones/pairing.ts';
import {
  backup,
  contentOf,
  ENGINES,
  fill,
  freshAddress,
  LASTING,
  newFolder,
  OF_ONE_SERVER,
  opened,
  restore,
  useDatabases,
} from './backupHelp.ts';
import { about } from './earlierFixtures.ts';
import { OTHER, STATION, sha, testServer } from './help.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
useDatabases();

async function backedUp(engine: (typeof ENGINES)[number]) {
  const address = await freshAddress(engine);
  const db = await opened(address);
  const { tokens } = await fill(db);
  const file = join(newFolder(), 'kept.db');
  expect((await backup(address, file)).end).toBe(0);
  return { db, tokens, file, address };
}

/** What stands beside the place it goes to, which no failure may change. */
function around(address: DatabaseAddress): string[] {
  if (address.type !== 'sqlite') return [];
  const folder = dirname(address.file);
  return existsSync(folder) ? readdirSync(folder).sort() : ['no folder'];
}

const pairs = ENGINES.flatMap((from) => ENGINES.map((to) => [from, to] as const));

test.each(pairs)(
  'from %s into %s: every row is there, phones stay paired, the history is a new one',
  async (from, to) => {
    const { db, tokens, file } = await backedUp(from);
    const target = await freshAddress(to);
    const ended = await restore(target, file);
    expect(ended).toMatchObject({ end: 0, err: '' });
    expect(ended.out).toContain(`${STATION.name}: 4 events, 1 document (2.3 MB), 2 phones.`);
    expect(ended.out).toContain('npm run pair');
    const restored = await opened(target);
    expect(await contentOf(restored, LASTING)).toEqual(await contentOf(db, LASTING));
    for (const rows of Object.values(await contentOf(restored, OF_ONE_SERVER))) expect(rows).toEqual([]);
    const [was, is] = [db, restored].map((one) => one.query.selectFrom('stations').selectAll().orderBy('id').execute());
    const [before, after] = [await was, await is];
    expect(after.map(({ history, ...rest }) => rest)).toEqual(before.map(({ history, ...rest }) => rest));
    const histories = [...before, ...after].map((one) => one.history);
    expect(new Set(histories).size).toBe(4);
    const known = await Promise.all(tokens.map((token) => tokenToPhone(restored, token, 0)));
    expect(known.map((one) => one.type === 'phone' && one.station.id)).toEqual([STATION.id, STATION.id, OTHER.id]);
    if (target.type === 'sqlite') {
      expect(statSync(target.file).mode & 0o777).toBe(0o600);
      await restored.close();
      expect(around(target)).toEqual(['asfound.db']);
    }
  },
);

test.each(ENGINES)('on %s the restored server serves its phones and takes more', async (to) => {
  const { tokens, file } = await backedUp('sqlite');
  const target = await freshAddress(to);
  expect((await restore(target, file)).end).toBe(0);
  const server = testServer(await opened(target));
  const token = tokens[0] ?? '';
  const pulled = await server.ask('GET', '/api/events?after=0', { token });
  expect(((await pulled.json()) as { events: unknown[] }).events).toHaveLength(4);
  const text = JSON.stringify({
    v: 1,
    id: 'new',
    station: STATION.id,
    log: 'log-z',
    seq: 0,
    prev: null,
    author: 'x',
    at: 1,
    zone: 0,
    kind: 'note',
    payload: { text: 'after' },
  });
  const pushed = await server.ask('POST', '/api/events', { token, json: { texts: [text] } });
  expect(await pushed.json()).toMatchObject({ answers: [{ type: 'stored' }] });
  expect(server.failures).toEqual([]);
});

describe.each(ENGINES)('into %s', (to) => {
  test('what is damaged in the backup is named, marked, and the rest is there', async () => {
    const { file } = await backedUp('sqlite');
    const copy = new SqliteConnection(file);
    copy.prepare("update events set text = 'altered' where id = 'e2'").run();
    copy.close();
    const target = await freshAddress(to);
    const ended = await restore(target, file);
    expect(ended.end).toBe(1);
    expect(ended.out).toContain(`event e2 of station ${STATION.id}`);
    const restored = await opened(target);
    expect(await restored.query.selectFrom('damaged').selectAll().execute()).toMatchObject([
      { station: STATION.id, kind: 'event', id: 'e2' },
    ]);
    expect(await restored.query.selectFrom('events').select('id').execute()).toHaveLength(5);
  });

  test('a database in use is refused by the names of its stations, and nothing in it changes', async () => {
    const { file } = await backedUp('sqlite');
    const target = await freshAddress(to);
    const db = await opened(target);
    await fill(db);
    const before = await contentOf(db, [...LASTING, ...OF_ONE_SERVER]);
    const ended = await restore(target, file);
    expect(ended).toMatchObject({ end: 2, out: '' });
    expect(ended.err).toContain(STATION.name);
    expect(ended.err).toContain('empty');
    expect(await contentOf(db, [...LASTING, ...OF_ONE_SERVER])).toEqual(before);
  });

  test('files that are no whole backup are refused in a sentence, and nothing is left half done', async () => {
    const { file } = await backedUp('sqlite');
    const folder = newFolder();
    const make = (name: string, content: (to: string) => void): string => {
      content(join(folder, name));
      return join(folder, name);
    };
    const half = make('half.db', (at) => {
      copyFileSync(file, at);
      truncateSync(at, Math.floor(statSync(file).size / 2));
    });
    const torn = make('torn.db', (at) => {
      const bytes = readFileSync(file);
      // Every page but the first, so that whatever is read is not there.
      bytes.fill(0xff, 4096);
      writeFileSync(at, bytes);
    });
    const foreign = make('foreign.db', (at) => new SqliteConnection(at).exec('create table other (x)').close());
    const newer = make('newer.db', (at) => {
      copyFileSync(file, at);
      const copy = new SqliteConnection(at);
      copy.exec("insert into kysely_migration values ('9999-later', '2040-01-01')");
      copy.close();
    });
    const cases: [string, string][] = [
      [join(folder, 'none.db'), 'There is no file'],
      [half, 'is cut off'],
      [torn, 'torn.db'],
      [make('photo.jpg', (at) => writeFileSync(at, 'JFIF')), 'is not a backup'],
      [make('empty.db', (at) => writeFileSync(at, '')), 'is not a backup'],
      [foreign, 'not a backup of this server'],
      [newer, 'newer version'],
    ];
    const target = await freshAddress(to);
    for (const [given, sentence] of cases) {
      const before = around(target);
      const ended = await restore(target, given);
      expect([given, ended.end, ended.out]).toEqual([given, 2, '']);
      expect(ended.err).toContain(sentence);
      expect(ended.err.split('\n')).toHaveLength(1);
      expect(around(target)).toEqual(before);
    }
    // As empty as before, so the right file still goes in.
    expect((await restore(target, file)).end).toBe(0);
  });
});

test('a backup of the first version is brought up to date on its way in', async () => {
  const target = await freshAddress('sqlite');
  expect((await restore(target, resolve('tests/fixtures/earlier/server-0001.db'))).end).toBe(0);
  const db = await opened(target);
  const texts = await db.query.selectFrom('events').select('text').orderBy('number').execute();
  expect(texts.map((row) => row.text)).toEqual(about.events);
  const roles = await db.query.selectFrom('phones').select(['id', 'keeper']).execute();
  expect(roles.find((one) => one.id === about.sqlite.phones.a)?.keeper).toBe(1);
  expect(await db.query.selectFrom('codes').selectAll().execute()).toEqual([]);
  expect(await db.query.selectFrom('stations').select('history').execute()).not.toEqual([
    { history: about.sqlite.history },
  ]);
});

test('a server that was begun by mistake is moved away by a person, not by the restore', async () => {
  const { file } = await backedUp('sqlite');
  const target = await freshAddress('sqlite');
  await (await opened(target)).close();
  const ended = await restore(target, file);
  expect(ended).toMatchObject({ end: 2, err: expect.stringContaining('with no station in it') });
  if (target.type !== 'sqlite') throw new Error('not a file');
  rmSync(target.file);
  // Other files of the folder are no database.
  mkdirSync(join(dirname(target.file), 'backups'));
  expect((await restore(target, file)).end).toBe(0);
});

test('documents of several pieces come back byte for byte', async () => {
  const { tokens, file } = await backedUp('postgresql');
  const target = await freshAddress('postgresql');
  expect((await restore(target, file)).end).toBe(0);
  const server = testServer(await opened(target));
  const large = new Uint8Array(2_300_000).map((_, i) => (i * 7 + (i >> 8)) % 251);
  const got = await server.ask('GET', `/api/documents/${sha(large)}`, { token: tokens[0] ?? '' });
  expect(sha(new Uint8Array(await got.arrayBuffer()))).toBe(sha(large));
});

test('without a file it says how it is called', async () => {
  const target = await freshAddress('sqlite');
  for (const args of [[], ['a', 'b'], ['--what']]) {
    expect(await restore(target, ...args)).toMatchObject({ end: 2, err: expect.stringContaining('npm run restore') });
  }
});
