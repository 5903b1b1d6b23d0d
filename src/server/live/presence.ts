// Where people are now: one row per phone, told to the others of its station and forgotten soon. None of it is part
// of the record.
import { safeParse } from 'zod/mini';
import { PRESENCE_LIFE_MS, type Presence, type PresenceSaid, presenceAnswerSchema } from '../../wire/sync.ts';
import type { Database } from '../database/database.ts';
import type { Tables } from '../database/tables.ts';

/** More than anybody reads; keeps what goes to each phone small when a whole crowd is walking. */
const MOST_TOLD = 30;

type Row = Pick<Tables['presence'], 'phone' | 'said' | 'at'>;

/** Keeps where a phone is, or that it is nowhere. Said again without a change, only its age is new. */
export async function sayPresence(
  db: Database,
  station: string,
  phone: string,
  at: PresenceSaid | null,
  now: number,
): Promise<void> {
  await db.query
    .deleteFrom('presence')
    .where('station', '=', station)
    .where((eb) =>
      at === null
        ? eb.or([eb('at', '<=', now - PRESENCE_LIFE_MS), eb('phone', '=', phone)])
        : eb('at', '<=', now - PRESENCE_LIFE_MS),
    )
    .execute();
  if (at === null) return;
  const before = await db.query
    .selectFrom('presence')
    .select(['phone', 'said', 'at'])
    .where('station', '=', station)
    .where('phone', '=', phone)
    .executeTakeFirst();
  const was = before ? readPresence(before) : null;
  const same = was !== null && was.audit === at.audit && was.unit === at.unit && was.place === at.place;
  const said = JSON.stringify({ ...at, since: same ? was.since : now });
  await db.query
    .insertInto('presence')
    .values({ station, phone, said, at: now })
    .onConflict((oc) => oc.columns(['station', 'phone']).doUpdateSet({ said, at: now }))
    .execute();
}

/** Who else is about, as the phone `asker` is told it: those of its own audit first, then the latest. */
export async function presentFor(db: Database, station: string, asker: string, now: number): Promise<Presence[]> {
  const rows = await db.query
    .selectFrom('presence')
    .select(['phone', 'said', 'at'])
    .where('station', '=', station)
    .where('at', '>', now - PRESENCE_LIFE_MS)
    .execute();
  return othersOf(rowsToPresent(rows), asker);
}

/** In an order that does not depend on the database, so that two equal lists have equal texts. */
export function rowsToPresent(rows: Row[]): Presence[] {
  const present = rows.flatMap((row) => readPresence(row) ?? []);
  return present.sort((a, b) => b.since - a.since || (a.phone < b.phone ? -1 : 1));
}

export function othersOf(present: Presence[], asker: string): Presence[] {
  const audit = present.find((one) => one.phone === asker)?.audit ?? null;
  const others = present.filter((one) => one.phone !== asker);
  const near = others.filter((one) => audit !== null && one.audit === audit);
  return [...near, ...others.filter((one) => !near.includes(one))].slice(0, MOST_TOLD);
}

function readPresence(row: Row): Presence | null {
  const said: unknown = JSON.parse(row.said);
  const whole = typeof said === 'object' && said !== null ? { ...said, phone: row.phone } : said;
  // A row that another version of the server wrote may say more or less than this one understands.
  const read = safeParse(presenceAnswerSchema, { present: [whole] });
  return read.success ? (read.data.present[0] ?? null) : null;
}
