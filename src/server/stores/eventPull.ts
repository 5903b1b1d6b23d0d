// Events out, lowest number first. What is read is about what is sent; every text is held against its hash, and one
// that is damaged or cannot be read is left out, named and never stops the others. Changes no event.
import { sql } from 'kysely';
import { MAX_PULL_BYTES, type PullAnswer, SHA_PATTERN, toMark } from '../../wire/sync.ts';
import { noteDamage } from '../database/damage.ts';
import type { Database } from '../database/database.ts';
import { textToHash } from '../hash.ts';
import { pause } from '../turns.ts';
import { type Brought, isOurs, readNumbers } from './numbers.ts';
import { isUnreadable } from './unreadable.ts';

type PullAsked = Brought & { limit: number; now: number };
type Pulled = PullAnswer | { type: 'cursor-lost' };

type Row = { number: number; id: string; text: string; hash: string };
/** `unread` are numbers of rows that are there and cannot be read. */
type Page = { rows: Row[]; unread: number[]; more: boolean };

/** Events after the cursor. What this numbering never gave out is lost, be it cursor, proof or name of the history. */
export async function pullEvents(db: Database, station: string, asked: PullAsked): Promise<Pulled> {
  const numbers = await readNumbers(db, station);
  if (!(await isOurs(db, station, asked, numbers))) return { type: 'cursor-lost' };
  const after = Number(asked.after.split('-')[0]);
  await pause();
  const page = await readPage(db, station, after, asked.limit);
  const events: PullAnswer['events'] = [];
  const damaged = [...page.unread];
  let next = asked.after;
  for (const { number, id, text, hash } of page.rows) {
    if (textToHash(text) === hash) events.push({ number, text });
    else {
      damaged.push(number);
      await noteDamage(db, station, 'event', id, asked.now);
    }
    next = toMark(number, hash);
  }
  for (const number of page.unread) await noteUnread(db, station, number, asked.now);
  return {
    events,
    next,
    more: page.more,
    ...(damaged.length > 0 ? { damaged: damaged.sort((a, b) => a - b) } : {}),
    now: asked.now,
    history: numbers.history,
  };
}

/** The next rows, past those that cannot be read. */
export async function readPage(db: Database, station: string, after: number, limit: number): Promise<Page> {
  try {
    return await readWhole(db, station, after, limit);
  } catch (error) {
    if (!isUnreadable(error)) throw error;
    return await readSingly(db, station, after, limit);
  }
}

/** Asks for lengths first: they stand beside the texts on both databases and cost no reading of these. */
async function readWhole(db: Database, station: string, after: number, limit: number): Promise<Page> {
  const lengths = await db.query
    .selectFrom('events')
    .select(['number', sql<number>`octet_length(text)`.as('bytes')])
    .where('station', '=', station)
    .where('number', '>', after)
    .orderBy('number')
    .limit(limit + 1)
    .execute();
  let bytes = 0;
  let taken = 0;
  while (taken < Math.min(lengths.length, limit)) {
    bytes += lengths[taken]?.bytes ?? 0;
    // The first one always goes, or a long event would stop the cursor for ever.
    if (taken > 0 && bytes > MAX_PULL_BYTES) break;
    taken += 1;
  }
  const last = lengths[taken - 1];
  if (!last) return { rows: [], unread: [], more: false };
  const rows = await db.query
    .selectFrom('events')
    .select(['number', 'id', 'text', 'hash'])
    .where('station', '=', station)
    .where('number', '>', after)
    .where('number', '<=', last.number)
    .orderBy('number')
    .execute();
  // A row whose hash is none can be no cursor.
  if (!rows.every(hasHash)) return await readSingly(db, station, after, limit);
  return { rows, unread: [], more: taken < lengths.length };
}

/**
 * One row after the other, past those that fail, until there is enough to send. It does not end on rows that cannot be
 * read: the cursor needs the hash of a row behind them.
 */
async function readSingly(db: Database, station: string, after: number, limit: number): Promise<Page> {
  const rows: Row[] = [];
  const unread: number[] = [];
  let bytes = 0;
  for (let from = after; ; ) {
    // Numbers alone come out of the index.
    const numbers = await db.query
      .selectFrom('events')
      .select('number')
      .where('station', '=', station)
      .where('number', '>', from)
      .orderBy('number')
      .limit(limit)
      .execute();
    for (const { number } of numbers) {
      if (rows.length >= limit || bytes > MAX_PULL_BYTES) return { rows, unread, more: true };
      const row = await readOne(db, station, number);
      if (row) rows.push(row);
      else unread.push(number);
      bytes += row ? Buffer.byteLength(row.text, 'utf8') : 0;
      from = number;
    }
    if (numbers.length < limit) return { rows, unread, more: false };
  }
}

async function readOne(db: Database, station: string, number: number): Promise<Row | null> {
  try {
    const row = await db.query
      .selectFrom('events')
      .select(['number', 'id', 'text', 'hash'])
      .where('station', '=', station)
      .where('number', '=', number)
      .executeTakeFirst();
    return row && hasHash(row) ? row : null;
  } catch (error) {
    if (isUnreadable(error)) return null;
    throw error;
  }
}

function hasHash({ hash }: Row): boolean {
  return SHA_PATTERN.test(hash);
}

/** Its id stands on the page that cannot be read; then its number has to do as a name. */
export async function noteUnread(db: Database, station: string, number: number, now: number): Promise<void> {
  let id = `number-${number}`;
  try {
    const row = await db.query
      .selectFrom('events')
      .select('id')
      .where('station', '=', station)
      .where('number', '=', number)
      .executeTakeFirst();
    id = row?.id ?? id;
  } catch (error) {
    if (!isUnreadable(error)) throw error;
  }
  await noteDamage(db, station, 'event', id, now);
}
