// Names that events give to documents and that are no hashes: never asked for, noted so that a person sees them.
import { SHA_NAME } from '../hash.ts';
import { getMeta, putMeta, type StationDb } from '../schema.ts';

const MOST_MISNAMED = 20;
const MISNAMED_LENGTH = 80;

/** An event may name anything; what is no hash is no document, and is only noted. */
export function noteMisnamed(db: StationDb, said: string): PromiseLike<void> {
  return db.transaction('rw', db.meta, async () => {
    const known = (await getMeta(db, 'misnamed')) ?? [];
    const name = said.slice(0, MISNAMED_LENGTH);
    if (known.length < MOST_MISNAMED && !known.includes(name)) await putMeta(db, 'misnamed', [...known, name]);
  });
}

/** What events name as documents and no document can be called. */
export async function misnamedDocuments(db: StationDb): Promise<string[]> {
  const wanted = await db.documentHeads.where('complete').equals(0).primaryKeys();
  const named = (await getMeta(db, 'misnamed')) ?? [];
  return [...new Set([...named, ...wanted.map(String).filter((name) => !SHA_NAME.test(name))])];
}
