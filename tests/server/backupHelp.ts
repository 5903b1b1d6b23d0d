// A server's database with something in every table, and how two of them are compared. All of it is invented.
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { backupCommand, type CommandEnd, restoreCommand } from '../../src/server/copy/backupCommand.ts';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { countingRandom, eventText, OTHER, pairedPhone, STATION, sha, testServer } from './help.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';

export let postgres: TestPostgres;
const open: Database[] = [];
const folders: string[] = [];

/** To be called once at the top of a test file. */
export function useDatabases(): void {
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(async () => await postgres?.stop());
  afterEach(async () => {
    for (const db of open.splice(0)) await db.close();
    for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
  });
}

export function newFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'asfound-backup-'));
  folders.push(folder);
  return folder;
}

export const ENGINES = ['sqlite', 'postgresql'] as const;
export type Engine = (typeof ENGINES)[number];

export async function freshAddress(engine: Engine): Promise<DatabaseAddress> {
  return engine === 'sqlite'
    ? { type: 'sqlite', file: join(newFolder(), 'data', 'asfound.db') }
    : { type: 'postgresql', url: await postgres.fresh() };
}

export async function opened(address: DatabaseAddress): Promise<Database> {
  const db = await openDatabase(address);
  open.push(db);
  return db;
}

/** Something in every table; the tokens of two phones. */
export async function fill(db: Database): Promise<{ tokens: string[] }> {
  const server = testServer(db);
  const tokens = [await pairedPhone(db, server), await pairedPhone(db, server), await pairedPhone(db, server, OTHER)];
  const [first, second, other] = tokens;
  const push = async (token: string | undefined, texts: string[]) => {
    const answer = await server.ask('POST', '/api/events', { token: token ?? '', json: { texts } });
    if (answer.status !== 200) throw new Error(await answer.text());
  };
  await push(
    first,
    ['e1', 'e2', 'e3'].map((id, seq) => eventText(id, { seq })),
  );
  await push(second, [eventText('e1', { author: 'Somebody else' })]);
  await push(second, [eventText('e4', { log: 'log-b', payload: { text: 'Prüfung “x” \u2028 ends' } })]);
  await push(other, [eventText('e1', { station: OTHER.id })]);
  const large = new Uint8Array(2_300_000).map((_, i) => (i * 7 + (i >> 8)) % 251);
  for (const [token, bytes] of [
    [first, large],
    [other, new Uint8Array([1, 2, 3])],
  ] as const) {
    const headers = { 'content-type': 'application/octet-stream' };
    const put = await server.ask('PUT', `/api/documents/${sha(bytes)}`, { token: token ?? '', body: bytes, headers });
    if (put.status !== 201) throw new Error(await put.text());
  }
  await server.ask('POST', '/api/codes', { token: first ?? '' });
  const of = { station: STATION.id, sha: sha('half'), n: 0, bytes: Buffer.from('half'), received_at: 5 };
  await db.query.insertInto('parts').values(of).execute();
  const said = { station: STATION.id, phone: 'p-1', said: '{}', at: 5 };
  await db.query.insertInto('presence').values(said).execute();
  await db.query.insertInto('rates').values({ key: 'pair', level: 1.5, at: 5 }).execute();
  await db.query.insertInto('facts').values({ key: 'scrub', value: '{}', at: 5 }).execute();
  return { tokens };
}

export const LASTING = ['events', 'set_aside', 'documents', 'chunks', 'parts', 'phones', 'damaged'] as const;
export const OF_ONE_SERVER = ['codes', 'presence', 'rates', 'facts'] as const;

type Table = (typeof LASTING)[number] | (typeof OF_ONE_SERVER)[number];

/** Rows of every table in an order of their own, bytes as hashes. */
export async function contentOf(db: Database, tables: readonly Table[]) {
  const content: Record<string, string[]> = {};
  for (const table of tables) {
    const rows: object[] = await db.query.selectFrom(table).selectAll().execute();
    const plain = (value: unknown) =>
      value instanceof Uint8Array ? createHash('sha256').update(value).digest('hex') : value;
    content[table] = rows
      .map((row) =>
        JSON.stringify(
          Object.entries(row)
            .sort()
            .map(([key, value]) => [key, plain(value)]),
        ),
      )
      .sort();
  }
  return content;
}

type Ended = { end: CommandEnd; out: string; err: string };

export async function command(
  run: typeof backupCommand | typeof restoreCommand,
  address: DatabaseAddress,
  args: string[],
  now = 1_800_000_000_000,
): Promise<Ended> {
  const [out, err]: string[][] = [[], []];
  const end = await run(args, {
    address,
    now: () => now,
    random: countingRandom(),
    print: (text) => out.push(text),
    complain: (text) => err.push(text),
  });
  return { end, out: out.join('\n'), err: err.join('\n') };
}

export const backup = (address: DatabaseAddress, ...args: string[]) => command(backupCommand, address, args);
export const restore = (address: DatabaseAddress, ...args: string[]) => command(restoreCommand, address, args);
