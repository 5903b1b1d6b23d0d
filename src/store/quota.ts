// How much room the browser leaves for pictures and sound. Statements are never refused for it: the walk goes on, and
// only what is large waits. Writes nothing.
import type { StationStore } from './database.ts';
import { type Persistence, persistence } from './queries.ts';

/** Shares of the quota: from the first on a person is told, from the second on no picture or sound is taken. */
const WARN_AT = 0.8;
const BLOCK_AT = 0.95;

type Quota = { type: 'free' | 'nearly-full' | 'no-room' | 'unknown'; share: number | null };

/** `own`: bytes of documents known to be here; an estimate may be lower than that, and then it is wrong. */
export function toQuota({ usage, quota }: Pick<Persistence, 'usage' | 'quota'>, own: number): Quota {
  if (quota === null || quota <= 0) return { type: 'unknown', share: null };
  const share = Math.max(usage ?? 0, own) / quota;
  return { type: share >= BLOCK_AT ? 'no-room' : share >= WARN_AT ? 'nearly-full' : 'free', share };
}

/** Asked before each picture. A database that does not answer leaves the estimate alone to decide. */
export async function quotaFor(store: StationStore, ask: () => Promise<Persistence> = () => persistence(false)) {
  const own = await store.run(async (db) => {
    let sum = 0;
    await db.documentHeads
      .where('complete')
      .equals(1)
      .each((head) => {
        sum += head.bytes;
      });
    return sum;
  });
  return toQuota(await ask(), own.type === 'done' ? own.value : 0);
}
