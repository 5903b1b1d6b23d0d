// Buckets that fill with time. Those in memory count for one process and are full after a restart; those in the table
// `rates` are one for all processes, for what is rare and must not multiply by them.
//
// Limits: The pairing limit is one for all processes (table `rates`); requests and presence of a phone are counted in
// each process by itself.
import { sql } from 'kysely';
import type { Database } from './database/database.ts';

export type Bucket = { capacity: number; perSecond: number };
export type Allowed = { type: 'allowed' } | { type: 'wait'; seconds: number };

const MAX_KEYS = 10_000;

/** A limiter with one bucket per key. A phone that drains a long day must fit into the burst. */
export function createLimiter({ capacity, perSecond }: Bucket): (key: string, now: number) => Allowed {
  const levels = new Map<string, { level: number; at: number }>();
  return (key, now) => {
    const held = levels.get(key);
    const gone = held ? Math.max(0, now - held.at) / 1000 : 0;
    const level = Math.min(capacity, (held?.level ?? capacity) + gone * perSecond);
    // Oldest first out: an attacker with many addresses costs memory only up to here.
    levels.delete(key);
    if (levels.size >= MAX_KEYS) levels.delete(levels.keys().next().value ?? key);
    if (level < 1) {
      levels.set(key, { level, at: now });
      return { type: 'wait', seconds: Math.max(1, Math.ceil((1 - level) / perSecond)) };
    }
    levels.set(key, { level: level - 1, at: now });
    return { type: 'allowed' };
  };
}

/** Longer than any bucket takes to be full again: what has stood for so long says nothing any more. */
const STALE_MS = 3_600_000;

/** What `takeShared` would answer, without taking anything. */
export async function askShared(
  { query }: Pick<Database, 'query'>,
  key: string,
  { capacity, perSecond }: Bucket,
  now: number,
): Promise<Allowed> {
  const held = await query.selectFrom('rates').select(['level', 'at']).where('key', '=', key).executeTakeFirst();
  if (!held) return { type: 'allowed' };
  const level = Math.min(capacity, held.level + (Math.max(0, now - held.at) / 1000) * perSecond);
  return level < 1 ? { type: 'wait', seconds: Math.max(1, Math.ceil((1 - level) / perSecond)) } : { type: 'allowed' };
}

/** Takes one from a bucket that all processes share; one statement, so two of them never take the same drop. */
export async function takeShared(
  db: Pick<Database, 'query'>,
  key: string,
  bucket: Bucket,
  now: number,
): Promise<Allowed> {
  const { capacity, perSecond } = bucket;
  const time = sql<number>`cast(${now} as bigint)`;
  const most = sql<number>`cast(${capacity} as double precision)`;
  // A clock of another machine may be behind ours; time that went back fills nothing.
  const level = sql<number>`case
    when ${time} <= rates.at then rates.level
    when rates.level + (${time} - rates.at) * cast(${perSecond / 1000} as double precision) > ${most} then ${most}
    else rates.level + (${time} - rates.at) * cast(${perSecond / 1000} as double precision) end`;
  const taken = await db.query
    .insertInto('rates')
    .values({ key, level: capacity - 1, at: now })
    .onConflict((oc) =>
      oc
        .column('key')
        .doUpdateSet({
          level: sql<number>`(${level}) - 1`,
          at: sql<number>`case when ${time} > rates.at then ${time} else rates.at end`,
        })
        .where(sql<boolean>`(${level}) >= 1`),
    )
    .returning('key')
    .executeTakeFirst();
  if (taken) return { type: 'allowed' };
  const asked = await askShared(db, key, bucket, now);
  // It has filled between the two statements: the asker comes back in a second all the same.
  return asked.type === 'wait' ? asked : { type: 'wait', seconds: 1 };
}

/** Buckets that nobody has drawn from for long are full, so they need not be kept. */
export async function dropStale(db: Pick<Database, 'query'>, now: number): Promise<void> {
  await db.query
    .deleteFrom('rates')
    .where('at', '<', now - STALE_MS)
    .execute();
}
