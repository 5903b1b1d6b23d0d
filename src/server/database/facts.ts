// What the server remembers about itself, by name, as JSON. Nothing here concerns a station.
import type { Kysely } from 'kysely';
import type { Tables } from './tables.ts';

type Asked = { query: Kysely<Tables> };
export type Fact = { at: number; value: unknown };

/** Null when it was never written; the value is null when it is no JSON any more. */
export async function readFact(db: Asked, key: string): Promise<Fact | null> {
  const row = await db.query.selectFrom('facts').select(['value', 'at']).where('key', '=', key).executeTakeFirst();
  if (!row) return null;
  try {
    return { at: row.at, value: JSON.parse(row.value) as unknown };
  } catch {
    return { at: row.at, value: null };
  }
}

/** @param at In ms; what was there before is replaced. */
export async function writeFact(db: Asked, key: string, value: unknown, at: number): Promise<void> {
  const text = JSON.stringify(value);
  await db.query
    .insertInto('facts')
    .values({ key, value: text, at })
    .onConflict((oc) => oc.column('key').doUpdateSet({ value: text, at }))
    .execute();
}
