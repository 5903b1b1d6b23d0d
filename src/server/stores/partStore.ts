// Parts of documents that are on their way, kept until they are joined. A part says nothing about a document: only
// joining, which hashes all of them, makes one.
import type { Database } from '../database/database.ts';
import { pause } from '../turns.ts';

/** As the driver takes bytes, without copying them. */
export function toBuffer(bytes: Uint8Array): Buffer {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

type Sender = { station: string; phone: string };

/** Keeps a part; one that comes again takes the place of the first. */
export async function keepPart(
  db: Database,
  { station, phone }: Sender,
  name: string,
  n: number,
  bytes: Uint8Array,
  now: number,
): Promise<void> {
  const part = { bytes: toBuffer(bytes), received_at: now, phone };
  await db.query
    .insertInto('parts')
    .values({ station, sha: name, n, ...part })
    .onConflict((oc) => oc.columns(['station', 'sha', 'n']).doUpdateSet(part))
    .execute();
}

/** The numbers of the parts that have arrived, lowest first. */
export async function listParts(db: Database, station: string, name: string): Promise<number[]> {
  const rows = await db.query
    .selectFrom('parts')
    .select('n')
    .where('station', '=', station)
    .where('sha', '=', name)
    .orderBy('n')
    .execute();
  return rows.map(({ n }) => n);
}

export async function readPart(db: Pick<Database, 'query'>, station: string, name: string, n: number) {
  const row = await db.query
    .selectFrom('parts')
    .select('bytes')
    .where('station', '=', station)
    .where('sha', '=', name)
    .where('n', '=', n)
    .executeTakeFirst();
  return row?.bytes ?? null;
}

const DROPPED_AT_ONCE = 4;

/** A few at a time: freeing 32 MiB takes as long as writing them. */
export async function dropParts(db: Database, station: string, name: string): Promise<void> {
  const parts = await listParts(db, station, name);
  for (let at = 0; at < parts.length; at += DROPPED_AT_ONCE) {
    await pause();
    await db.query
      .deleteFrom('parts')
      .where('station', '=', station)
      .where('sha', '=', name)
      .where('n', 'in', parts.slice(at, at + DROPPED_AT_ONCE))
      .execute();
  }
}

/** Parts are counted, each as the largest it may be. */
export type PartCaps = { perStation: number; perPhone: number };

/** Whether one more part may wait for its document; one that is there already may come again at any time. */
export async function hasRoom(
  db: Database,
  { station, phone }: Sender,
  name: string,
  n: number,
  caps: PartCaps,
): Promise<boolean> {
  const ofStation = db.query
    .selectFrom('parts')
    .select((eb) => eb.fn.countAll<number | string>().as('count'))
    .where('station', '=', station);
  const all = await ofStation.executeTakeFirstOrThrow();
  const own = await ofStation.where('phone', '=', phone).executeTakeFirstOrThrow();
  if (Number(all.count) < caps.perStation && Number(own.count) < caps.perPhone) return true;
  return (await listParts(db, station, name)).includes(n);
}
