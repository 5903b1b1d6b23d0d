// Stands in for fflate where the workbook writer asks for it in the built app (vite.config.ts): it compresses where it
// is called. Must never start a worker: fflate starts its own from a blob, which the page's content policy forbids, and
// nobody hears of that.
import { type AsyncZippable, strToU8, type Zippable, zipSync } from 'fflate';

export { strToU8, zipSync };

type Done = (error: Error | null, archive: Uint8Array | null) => void;

/** What `zip` of fflate answers, made at once. Its callers run in a worker of our own. */
export function zip(files: AsyncZippable, done: Done): void {
  let archive: Uint8Array | null = null;
  let failed: Error | null = null;
  try {
    archive = zipSync(files as Zippable);
  } catch (error) {
    failed = error instanceof Error ? error : new Error(String(error));
  }
  done(failed, archive);
}
