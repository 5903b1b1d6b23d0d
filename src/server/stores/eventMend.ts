// What the server holds of events that come once more: the very text, an altered one, or a row that cannot be read;
// and the mending of an altered one by the right text. It never changes a text that is what its hash says.
//
// Limits: Where text and hash of one row were both altered, nothing there tells which text was right: what phones send of
// it is set aside, and shown on them as such.
import type { Kysely, Transaction } from 'kysely';
import { clearDamage, noteDamage } from '../database/damage.ts';
import type { Database } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';
import { lockNumbers, moveNumbers } from './numbers.ts';
import { isUnreadable } from './unreadable.ts';

type Sent = { id: string; hash: string; text: string };
/** `hash-altered`: the text is the one that was sent, the hash beside it belongs to no text. */
type Held = 'whole' | 'other' | 'text-altered' | 'hash-altered' | 'unreadable';

export async function heldEvents(
  query: Kysely<Tables>,
  station: string,
  ids: string[],
): Promise<Pick<Tables['events'], 'id' | 'hash' | 'number'>[]> {
  if (ids.length === 0) return [];
  return await query
    .selectFrom('events')
    .select(['id', 'hash', 'number'])
    .where('station', '=', station)
    .where('id', 'in', ids)
    .execute();
}

/** Long texts are read so many at once. */
const READ_AT_ONCE = 16;

/** Of those that are held; what is not held is not in the answer. */
export async function lookAtHeld(db: Database, station: string, sent: Sent[]): Promise<Map<string, Held>> {
  const states = new Map<string, Held>();
  const present = await idsHeld(db, station, sent, states);
  const readable = sent.filter(({ id }) => present.has(id));
  for (let at = 0; at < readable.length; at += READ_AT_ONCE) {
    await lookAtSome(db, station, readable.slice(at, at + READ_AT_ONCE), states);
  }
  return states;
}

async function idsHeld(db: Database, station: string, sent: Sent[], states: Map<string, Held>): Promise<Set<string>> {
  try {
    const ids = sent.map(({ id }) => id);
    return new Set((await heldEvents(db.query, station, ids)).map(({ id }) => id));
  } catch (error) {
    if (!isUnreadable(error)) throw error;
  }
  const present = new Set<string>();
  for (const { id } of sent) {
    try {
      if ((await heldEvents(db.query, station, [id])).length > 0) present.add(id);
    } catch (error) {
      if (!isUnreadable(error)) throw error;
      states.set(id, 'unreadable');
    }
  }
  return present;
}

async function lookAtSome(db: Database, station: string, sent: Sent[], states: Map<string, Held>): Promise<void> {
  try {
    const rows = await db.query
      .selectFrom('events')
      .select(['id', 'hash', 'text'])
      .where('station', '=', station)
      .where(
        'id',
        'in',
        sent.map(({ id }) => id),
      )
      .execute();
    const held = new Map(rows.map((row) => [row.id, row]));
    for (const one of sent) {
      const row = held.get(one.id);
      if (row) states.set(one.id, judge(one, row));
    }
  } catch (error) {
    if (!isUnreadable(error)) throw error;
    // A text of which some page is lost while its hash is there can be written anew.
    if (sent.length === 1) for (const { id } of sent) states.set(id, 'text-altered');
    else for (const one of sent) await lookAtSome(db, station, [one], states);
  }
}

function judge(sent: Sent, row: { hash: string; text: string }): Held {
  if (row.hash === sent.hash) return row.text === sent.text ? 'whole' : 'text-altered';
  return row.text === sent.text ? 'hash-altered' : 'other';
}

/**
 * Puts right texts and hashes in the place of what is altered, and says of what is whole that it is. What the database
 * refuses to write stays and is named.
 */
export async function mendAltered(
  db: Database,
  station: string,
  sent: Sent[],
  states: Map<string, Held>,
  now: number,
): Promise<void> {
  for (const { id, hash, text } of sent) {
    const state = states.get(id);
    if (state !== 'text-altered' && state !== 'hash-altered') continue;
    try {
      await db.query.transaction().execute(async (tx) => await rewriteEvent(tx, station, { id, hash, text }));
      states.set(id, 'whole');
    } catch (error) {
      if (!isUnreadable(error)) throw error;
      states.set(id, 'unreadable');
      await noteDamage(db, station, 'event', id, now);
    }
  }
  for (const id of await notedAmong(db, station, states)) await clearDamage(db, station, 'event', id);
}

/** Under a new number: phones whose cursor has passed the old one while it was left out receive it all the same. */
async function rewriteEvent(tx: Transaction<Tables>, station: string, { id, hash, text }: Sent): Promise<void> {
  const { next } = await lockNumbers(tx, station);
  const before = await tx
    .selectFrom('events')
    .select('number')
    .where('station', '=', station)
    .where('id', '=', id)
    .executeTakeFirstOrThrow();
  await tx.insertInto('renumbered').values({ station, number: before.number, hash }).execute();
  await tx
    .updateTable('events')
    .set({ text, hash, number: next })
    .where('station', '=', station)
    .where('id', '=', id)
    .execute();
  await moveNumbers(tx, station, next + 1);
}

async function notedAmong(db: Database, station: string, states: Map<string, Held>): Promise<string[]> {
  const whole = [...states].filter(([, state]) => state === 'whole').map(([id]) => id);
  if (whole.length === 0) return [];
  const rows = await db.query
    .selectFrom('damaged')
    .select('id')
    .where('station', '=', station)
    .where('kind', '=', 'event')
    .where('id', 'in', whole)
    .execute();
  return rows.map(({ id }) => id);
}
