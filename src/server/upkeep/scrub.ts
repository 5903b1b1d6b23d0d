// Goes over everything held, each text and each document against its hash, and marks what differs. In small steps, so
// that requests come first; it never changes or removes what it checks.
import { createHash } from 'node:crypto';
import * as z from 'zod/mini';
import { clearDamage, noteDamage } from '../database/damage.ts';
import type { Database, Reader } from '../database/database.ts';
import { readFact, writeFact } from '../database/facts.ts';
import { textToHash } from '../hash.ts';
import { readChunk } from '../stores/chunkStore.ts';
import { noteUnread, readPage } from '../stores/eventPull.ts';
import { lockNumbers } from '../stores/numbers.ts';

const positionSchema = z.object({
  /** When this pass began, in ms. */
  began: z.number(),
  /** Empty before the first one. */
  station: z.string(),
  kind: z.enum(['event', 'document']),
  /** The last event's number that was checked, of this station. */
  number: z.number(),
  /** The last document's. */
  sha: z.string(),
  events: z.number(),
  documents: z.number(),
  damaged: z.number(),
});
/** How far a pass has come; kept in the database, so that a restart goes on there. */
type Position = z.infer<typeof positionSchema>;

export const SCRUB_DONE = 'scrub';
export const SCRUB_AT = 'scrub-at';

export function startPosition(now: number): Position {
  return { began: now, station: '', kind: 'event', number: 0, sha: '', events: 0, documents: 0, damaged: 0 };
}

/** Where the last pass stopped, when it did not come to its end. */
export async function openPosition(db: Database): Promise<{ position: Position; at: number } | null> {
  const fact = await readFact(db, SCRUB_AT);
  if (!fact) return null;
  const parsed = z.safeParse(positionSchema, fact.value);
  return { position: parsed.success ? parsed.data : startPosition(fact.at), at: fact.at };
}

/** So many events are read at once: some milliseconds of work. */
const EVENTS_PER_STEP = 50;

/**
 * The next step of the pass; null when there is none. One document is one step, whose chunks are read one by one.
 * @param reader Reads from the disk; marks go into `db`.
 */
export async function scrubStep(db: Database, reader: Reader, at: Position, now: number): Promise<Position | null> {
  if (at.station === '') return await nextStation(reader, at);
  return at.kind === 'event' ? await scrubEvents(db, reader, at, now) : await scrubDocument(db, reader, at, now);
}

async function nextStation(reader: Reader, at: Position): Promise<Position | null> {
  const row = await reader.query
    .selectFrom('stations')
    .select('id')
    .where('id', '>', at.station)
    .orderBy('id')
    .limit(1)
    .executeTakeFirst();
  return row ? { ...at, station: row.id, kind: 'event', number: 0, sha: '' } : null;
}

async function scrubEvents(db: Database, reader: Reader, at: Position, now: number): Promise<Position> {
  const { station } = at;
  const { rows, unread } = await readPage({ ...db, query: reader.query }, station, at.number, EVENTS_PER_STEP);
  const last = Math.max(rows.at(-1)?.number ?? 0, unread.at(-1) ?? 0);
  if (last === 0) return { ...at, kind: 'document' };
  for (const number of unread) await noteUnread(db, station, number, now);
  const wrong = new Set(rows.filter((row) => textToHash(row.text) !== row.hash).map((row) => row.id));
  const ids = rows.map((row) => row.id);
  let damaged = unread.length;
  for (const id of wrong) if (await markEvent(db, station, id, now)) damaged += 1;
  await clearWhole(db, station, 'event', ids, wrong);
  return { ...at, number: last, events: at.events + rows.length + unread.length, damaged: at.damaged + damaged };
}

/** Looks once more while nobody can put it right: a phone may have sent the text again since. */
async function markEvent(db: Database, station: string, id: string, now: number): Promise<boolean> {
  return await db.query.transaction().execute(async (tx) => {
    await lockNumbers(tx, station);
    const row = await tx
      .selectFrom('events')
      .select(['hash', 'text'])
      .where('station', '=', station)
      .where('id', '=', id)
      .executeTakeFirst();
    if (!row || textToHash(row.text) === row.hash) return false;
    await noteDamage({ query: tx }, station, 'event', id, now);
    return true;
  });
}

async function clearWhole(
  db: Database,
  station: string,
  kind: 'event' | 'document',
  ids: string[],
  wrong: Set<string>,
): Promise<void> {
  const marked = await db.query
    .selectFrom('damaged')
    .select('id')
    .where('station', '=', station)
    .where('kind', '=', kind)
    .where('id', 'in', ids)
    .execute();
  for (const { id } of marked) if (!wrong.has(id)) await clearDamage(db, station, kind, id);
}

async function scrubDocument(db: Database, reader: Reader, at: Position, now: number): Promise<Position | null> {
  const { station } = at;
  const row = await reader.query
    .selectFrom('documents')
    .select(['sha', 'bytes'])
    .where('station', '=', station)
    .where('sha', '>', at.sha)
    .where('complete', '=', 1)
    .orderBy('sha')
    .limit(1)
    .executeTakeFirst();
  if (!row) return await nextStation(reader, at);
  const { sha } = row;
  const whole = await isWhole(reader, station, sha, row.bytes);
  if (whole) await clearWhole(db, station, 'document', [sha], new Set());
  else await noteDamage(db, station, 'document', sha, now);
  return { ...at, sha, documents: at.documents + 1, damaged: at.damaged + (whole ? 0 : 1) };
}

async function isWhole(reader: Reader, station: string, sha: string, bytes: number): Promise<boolean> {
  const hash = createHash('sha256');
  let seen = 0;
  for (let n = 0; ; n += 1) {
    const chunk = await readChunk(reader, station, sha, n);
    if (chunk === 'unreadable') return false;
    if (chunk === 'none') return seen === bytes && hash.digest('hex') === sha;
    hash.update(chunk);
    seen += chunk.byteLength;
    // A large document is many chunks; requests come between any two of them.
    await new Promise((next) => setImmediate(next));
  }
}

const PARTS_LIFE_MS = 7 * 86_400_000;
const PRESENCE_KEPT_MS = 86_400_000;

/** Drops parts of documents that nobody went on sending for a week, one document at a time, and old presence. */
export async function dropOld(db: Database, now: number): Promise<number> {
  await db.query
    .deleteFrom('presence')
    .where('at', '<', now - PRESENCE_KEPT_MS)
    .execute();
  const old = await db.query
    .selectFrom('parts')
    .select(['station', 'sha'])
    .groupBy(['station', 'sha'])
    .having((eb) => eb.fn.max('received_at'), '<', now - PARTS_LIFE_MS)
    .limit(100)
    .execute();
  for (const { station, sha } of old) {
    await db.query.deleteFrom('parts').where('station', '=', station).where('sha', '=', sha).execute();
  }
  return old.length;
}

/** Says that the pass came to its end; the next one begins anew. */
export async function finishScrub(db: Database, { began, events, documents, damaged }: Position, now: number) {
  await writeFact(db, SCRUB_DONE, { began, events, documents, damaged }, now);
  await db.query.deleteFrom('facts').where('key', '=', SCRUB_AT).execute();
}
