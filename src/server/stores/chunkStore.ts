// The chunks of a document as they lie on the disk, one at a time. What they should be together is for whoever reads them.
import type { Reader } from '../database/database.ts';
import { isUnreadable } from './unreadable.ts';

/** Of a document, the chunk of that number, where there is one and the disk gives it. */
export async function readChunk(
  db: Pick<Reader, 'query'>,
  station: string,
  sha: string,
  n: number,
): Promise<Uint8Array<ArrayBuffer> | 'none' | 'unreadable'> {
  try {
    const row = await db.query
      .selectFrom('chunks')
      .select('bytes')
      .where('station', '=', station)
      .where('sha', '=', sha)
      .where('n', '=', n)
      .executeTakeFirst();
    return row?.bytes ?? 'none';
  } catch (error) {
    if (isUnreadable(error)) return 'unreadable';
    throw error;
  }
}
