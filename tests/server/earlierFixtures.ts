// What builds before this one left behind, read from tests/fixtures/earlier/ and put where the present build opens it.
// Changes nothing there.
import { copyFileSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Dexie } from 'dexie';
import pg from 'pg';
import * as z from 'zod/mini';
import { type Disk, onDisk } from '../sync/storePhone.ts';

const FOLDER = resolve('tests/fixtures/earlier');

const server = z.object({
  tokens: z.object({ a: z.string(), b: z.string() }),
  phones: z.object({ a: z.string(), b: z.string() }),
  history: z.string(),
  code: z.string(),
});
const aboutSchema = z.object({
  station: z.object({ id: z.string(), name: z.string() }),
  /** Exact texts in the order of the server's numbers. */
  events: z.array(z.string()),
  /** Bytes by hash. */
  documents: z.record(z.string(), z.number()),
  unsentDocument: z.string(),
  sqlite: server,
  postgresql: server,
});
export type EarlierServer = z.infer<typeof server>;
export const about = z.parse(aboutSchema, JSON.parse(readFileSync(join(FOLDER, 'about.json'), 'utf8')));

/** A copy in a new folder, as ASFOUND_DATA would name it. */
export function earlierSqlite(): { folder: string; file: string } {
  const folder = mkdtempSync(join(tmpdir(), 'asfound-earlier-'));
  const file = join(folder, 'asfound.db');
  copyFileSync(join(FOLDER, 'server-0001.db'), file);
  return { folder, file };
}

/** Fills an empty database. */
export async function earlierPostgres(url: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(readFileSync(join(FOLDER, 'server-0001.sql'), 'utf8'));
  } finally {
    await client.end();
  }
}

export function earlierBundle(): Uint8Array {
  return new Uint8Array(readFileSync(join(FOLDER, 'phone-1.asfound.zip')));
}

const phoneSchema = z.object({
  station: z.object({ id: z.string(), name: z.string() }),
  stores: z.record(z.string(), z.string()),
  tables: z.record(z.string(), z.array(z.record(z.string(), z.unknown()))),
});

/** Writes the old phone's database in the old form, and answers with the rows of each table. */
export async function earlierPhone(disk: Disk): Promise<Record<string, Record<string, unknown>[]>> {
  const unpack = (_: string, value: unknown) =>
    typeof value === 'object' && value !== null && '$bytes' in value
      ? new Uint8Array(Buffer.from(String(value.$bytes), 'base64')).buffer
      : value;
  const { station, stores, tables } = z.parse(
    phoneSchema,
    JSON.parse(readFileSync(join(FOLDER, 'phone-1.json'), 'utf8'), unpack),
  );
  onDisk(disk);
  const db = new Dexie(`asfound-station-${station.id}`);
  db.version(1).stores(stores);
  for (const [name, rows] of Object.entries(tables)) await db.table(name).bulkAdd(rows);
  db.close();
  return tables;
}

const requestSchema = z.object({
  method: z.string(),
  path: z.string(),
  headers: z.record(z.string(), z.string()),
  body: z.nullable(z.string()),
  bodyBase64: z.nullable(z.string()),
  status: z.number(),
  answer: z.string(),
  answerBase64: z.nullable(z.string()),
});
export type EarlierRequest = z.infer<typeof requestSchema>;

export function earlierRequests(): EarlierRequest[] {
  return z.parse(z.array(requestSchema), JSON.parse(readFileSync(join(FOLDER, 'requests-1.json'), 'utf8')));
}
