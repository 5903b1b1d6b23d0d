// What is kept beside the record while a person types or walks. A draft that its reader does not understand is moved
// aside in the same transaction, and so is one that could not be read when another is written over it: none is lost.
import type { StationStore } from './database.ts';
import type { StoreFailure, StoreResult } from './failures.ts';
import type { DraftRow, StationDb } from './schema.ts';

/** Null where it does not fit. */
type DraftReader<T> = (value: unknown, version: number) => T | null;
type DraftRead<T> = { type: 'none' | 'aside' } | { type: 'fits'; value: T } | StoreFailure;

/** One that no reader here understands, under a key of its own. */
export interface AsideDraft {
  key: string;
  /** The key it was kept under. */
  of: string;
  value: unknown;
  /** When it was written. */
  at: number;
}

const ASIDE = 'aside ';

export function createDrafts(store: StationStore, now: () => number, newId: () => string) {
  const unread = new Set<string>();

  const write = <T>(operation: (db: StationDb) => Promise<T>): Promise<StoreResult<T>> =>
    store.run((db) => db.transaction('rw', db.drafts, () => operation(db)));

  async function putAside(db: StationDb, row: DraftRow | undefined): Promise<void> {
    if (!row) return;
    await db.drafts.add({ ...row, key: ASIDE + newId(), of: row.key });
    await db.drafts.delete(row.key);
  }

  return {
    async read<T>(key: string, reader: DraftReader<T>): Promise<DraftRead<T>> {
      const done = await write(async (db): Promise<DraftRead<T>> => {
        const row = await db.drafts.get(key);
        if (!row) return { type: 'none' };
        const value = reader(row.value, row.version ?? 0);
        if (value !== null) return { type: 'fits', value };
        await putAside(db, row);
        return { type: 'aside' };
      });
      if (done.type === 'done') {
        unread.delete(key);
        return done.value;
      }
      unread.add(key);
      return done;
    },
    async save(key: string, value: unknown, version: number): Promise<StoreResult<void>> {
      const saved = await write(async (db) => {
        if (unread.has(key)) await putAside(db, await db.drafts.get(key));
        await db.drafts.put({ key, value, at: now(), version });
      });
      if (saved.type === 'done') unread.delete(key);
      return saved;
    },
    async drop(key: string): Promise<StoreResult<void>> {
      const dropped = await write(async (db) => {
        if (unread.has(key)) await putAside(db, await db.drafts.get(key));
        else await db.drafts.delete(key);
      });
      if (dropped.type === 'done') unread.delete(key);
      return dropped;
    },
    /** The last one first. */
    aside: (): Promise<StoreResult<AsideDraft[]>> =>
      store.run(async (db) => {
        const rows = await db.drafts.where('key').startsWith(ASIDE).toArray();
        return rows.map(({ key, of = '', value, at }) => ({ key, of, value, at })).sort((a, b) => b.at - a.at);
      }),
    dropAside: (key: string): Promise<StoreResult<void>> => write((db) => db.drafts.delete(key)),
  };
}
export type Drafts = ReturnType<typeof createDrafts>;
