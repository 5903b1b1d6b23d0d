// What the database holds and is not what its hash says, by name, until it is whole again. Only marks: nothing here
// removes, hides or mends what is damaged.
import type { Kysely } from 'kysely';
import type { Tables } from './tables.ts';

type DamageKind = Tables['damaged']['kind'];
/** A database, or `{ query: tx }` for marks that belong to a transaction. */
type Asked = { query: Kysely<Tables> };

/**
 * Says that an event or a document is damaged. Saying it again keeps the time of the first finding.
 * @param id Of an event, or the hash that names a document.
 */
export async function noteDamage(db: Asked, station: string, kind: DamageKind, id: string, now: number): Promise<void> {
  await db.query
    .insertInto('damaged')
    .values({ station, kind, id, found_at: now })
    .onConflict((oc) => oc.columns(['station', 'kind', 'id']).doNothing())
    .execute();
}

/** Says that it is whole again; what was never damaged may be said to be whole. */
export async function clearDamage(db: Asked, station: string, kind: DamageKind, id: string): Promise<void> {
  await db.query
    .deleteFrom('damaged')
    .where('station', '=', station)
    .where('kind', '=', kind)
    .where('id', '=', id)
    .execute();
}

export type Damage = { count: number; first: Tables['damaged'][] };

/** How many there are, and the oldest findings up to `limit`. */
export async function listDamage(db: Asked, limit: number): Promise<Damage> {
  const { count } = await db.query
    .selectFrom('damaged')
    .select((eb) => eb.fn.countAll<number | string>().as('count'))
    .executeTakeFirstOrThrow();
  const first = await db.query
    .selectFrom('damaged')
    .selectAll()
    .orderBy('found_at')
    .orderBy('station')
    .orderBy('id')
    .limit(limit)
    .execute();
  return { count: Number(count), first };
}
