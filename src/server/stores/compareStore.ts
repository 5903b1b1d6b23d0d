// What of all that a phone holds is missing or damaged here. It reads names and hashes alone and changes nothing.
import type { Database } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';
import { pause } from '../turns.ts';
import { isUnreadable } from './unreadable.ts';

type Compared = { events: { id: string; hash: string }[]; documents: string[] };
type Kind = Tables['damaged']['kind'];

/** Names are asked for so many at once; others have their turn between. */
const STEP = 250;

/**
 * Of the events and documents named, those that this server does not hold, or holds damaged. An id that stands here
 * whole with another text is not missing: sending it again would change nothing.
 */
export async function compareHeld(db: Database, station: string, named: Compared) {
  const events: string[] = [];
  for (const step of steps(named.events)) {
    const held = await readableOf(
      db,
      station,
      step.map(({ id }) => id),
    );
    const damaged = await damagedOf(db, station, 'event', [...held]);
    // Of what is damaged the hash proves no more than the text: the right text may be the one that the phone has.
    for (const { id } of step) if (!held.has(id) || damaged.has(id)) events.push(id);
    await pause();
  }
  const documents: string[] = [];
  for (const step of steps(named.documents)) {
    const held = await documentsOf(db, station, step);
    const damaged = await damagedOf(db, station, 'document', [...held]);
    documents.push(...step.filter((sha) => !held.has(sha) || damaged.has(sha)));
    await pause();
  }
  return { events, documents };
}

function* steps<T>(all: T[]): Generator<T[]> {
  for (let at = 0; at < all.length; at += STEP) yield all.slice(at, at + STEP);
}

/** A row that cannot be read counts as not held; its hash is asked for, since the id alone may come out of an index. */
async function readableOf(db: Database, station: string, ids: string[]): Promise<Set<string>> {
  try {
    const rows = await db.query
      .selectFrom('events')
      .select(['id', 'hash'])
      .where('station', '=', station)
      .where('id', 'in', ids)
      .execute();
    return new Set(rows.map(({ id }) => id));
  } catch (error) {
    if (!isUnreadable(error)) throw error;
    if (ids.length === 1) return new Set();
  }
  const all: string[] = [];
  for (const id of ids) all.push(...(await readableOf(db, station, [id])));
  return new Set(all);
}

async function documentsOf(db: Database, station: string, shas: string[]): Promise<Set<string>> {
  const rows = await db.query
    .selectFrom('documents')
    .select('sha')
    .where('station', '=', station)
    .where('sha', 'in', shas)
    .where('complete', '=', 1)
    .execute();
  return new Set(rows.map(({ sha }) => sha));
}

async function damagedOf(db: Database, station: string, kind: Kind, ids: string[]): Promise<Set<string>> {
  if (ids.length === 0) return new Set();
  const rows = await db.query
    .selectFrom('damaged')
    .select('id')
    .where('station', '=', station)
    .where('kind', '=', kind)
    .where('id', 'in', ids)
    .execute();
  return new Set(rows.map(({ id }) => id));
}
