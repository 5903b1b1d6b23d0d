// The row of numbers of a station: events and documents get theirs from it, under its lock. Also what a phone may
// bring from earlier answers, and whether this numbering gave it out. Writes nothing but that row.
import type { Kysely, Transaction } from 'kysely';
import { CURSOR_START } from '../../wire/sync.ts';
import type { Database } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';
import { isUnreadable } from './unreadable.ts';

type Numbers = { next: number; history: string };

/**
 * Writing the row first locks it until the end, on both databases: whoever comes next gets numbers only after these
 * are in view, so no reader can pass a number that appears later.
 */
export async function lockNumbers(tx: Transaction<Tables>, station: string): Promise<Numbers> {
  const row = await tx
    .updateTable('stations')
    .set((eb) => ({ next_number: eb.ref('next_number') }))
    .where('id', '=', station)
    .returning(['next_number', 'history'])
    .executeTakeFirstOrThrow();
  return { next: row.next_number, history: row.history };
}

export async function moveNumbers(tx: Transaction<Tables>, station: string, next: number): Promise<void> {
  await tx.updateTable('stations').set({ next_number: next }).where('id', '=', station).execute();
}

export async function readNumbers(db: Database, station: string): Promise<Numbers> {
  const row = await db.query
    .selectFrom('stations')
    .select(['next_number', 'history'])
    .where('id', '=', station)
    .executeTakeFirstOrThrow();
  return { next: row.next_number, history: row.history };
}

/** What a phone brings to prove that it and the server speak of one numbering. */
export type Brought = { after: string; proof?: string | undefined; history?: string | undefined };

/** Whether all that the phone brings was given out by this numbering. */
export async function isOurs(db: Database, station: string, brought: Brought, numbers: Numbers): Promise<boolean> {
  if (brought.history !== undefined && brought.history !== numbers.history) return false;
  if (brought.after !== CURSOR_START && !(await isMarkOf(db, station, brought.after, ['events'], numbers)))
    return false;
  if (brought.proof === undefined || brought.proof === brought.after) return true;
  return await isMarkOf(db, station, brought.proof, ['events', 'documents'], numbers);
}

async function isMarkOf(
  db: Database,
  station: string,
  mark: string,
  among: ('events' | 'documents')[],
  numbers: Numbers,
): Promise<boolean> {
  const [digits, start = ''] = mark.split('-');
  const number = Number(digits);
  if (number >= numbers.next) return false;
  try {
    for (const table of among) {
      const hash = await (table === 'events' ? eventHash : documentHash)(db.query, station, number);
      if (hash !== null) return hash.startsWith(start);
    }
    return false;
  } catch (error) {
    // A row that is there and cannot be read proves nothing, and is no reason to send everything again.
    if (isUnreadable(error)) return true;
    throw error;
  }
}

async function eventHash(query: Kysely<Tables>, station: string, number: number): Promise<string | null> {
  const row = await query
    .selectFrom('events')
    .select('hash')
    .where('station', '=', station)
    .where('number', '=', number)
    .unionAll(query.selectFrom('renumbered').select('hash').where('station', '=', station).where('number', '=', number))
    .executeTakeFirst();
  return row?.hash ?? null;
}

async function documentHash(query: Kysely<Tables>, station: string, number: number): Promise<string | null> {
  const row = await query
    .selectFrom('documents')
    .select('sha')
    .where('station', '=', station)
    .where('number', '=', number)
    .executeTakeFirst();
  return row?.sha ?? null;
}
