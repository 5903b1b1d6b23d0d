// What a database may refuse, as data. Only faults of the browser or the disk are turned into data here; a bug (a
// broken rule, a bad key) must stay an exception.

export type StoreFailure =
  /** The disk, or this origin's share of it, is used up. */
  | { type: 'full' }
  /** The connection died, was opened anew, and died again. */
  | { type: 'store-lost'; message: string }
  /** Another tab runs a newer build that has changed the database; this one has let go of it. */
  | { type: 'newer-version' }
  /** The browser gives no database at all, as some private windows do. */
  | { type: 'no-database'; message: string };

export type StoreResult<T> = { type: 'done'; value: T } | StoreFailure;

const LOST = new Set([
  'UnknownError',
  'DatabaseClosedError',
  'InvalidStateError',
  'AbortError',
  'TimeoutError',
  'OpenFailedError',
]);

/** Null when the error is none of the expected ones, and so a bug. */
export function errorToFailure(error: unknown): StoreFailure | null {
  const chain = errorChain(error);
  // A full disk often arrives as an AbortError that carries the true reason inside.
  if (chain.some((link) => link.name === 'QuotaExceededError')) return { type: 'full' };
  const [outer] = chain;
  if (!outer) return null;
  if (chain.some((link) => link.name === 'MissingAPIError' || link.name === 'SecurityError')) {
    return { type: 'no-database', message: outer.message };
  }
  if (chain.some((link) => link.name === 'VersionError')) return { type: 'newer-version' };
  return LOST.has(outer.name) ? { type: 'store-lost', message: `${outer.name}: ${outer.message}` } : null;
}

type Link = { name: string; message: string };

/** The error and what it wraps, outermost first; Dexie wraps in `inner`, and bulk failures hold a list. */
function errorChain(error: unknown): Link[] {
  const links: Link[] = [];
  const waiting: unknown[] = [error];
  const met = new Set<unknown>();
  while (waiting.length > 0 && links.length < 20) {
    const next = waiting.shift();
    if (typeof next !== 'object' || next === null || met.has(next)) continue;
    met.add(next);
    const { name, message, inner, cause, failures } = next as {
      name?: unknown;
      message?: unknown;
      inner?: unknown;
      cause?: unknown;
      failures?: unknown;
    };
    links.push({ name: String(name ?? ''), message: String(message ?? '') });
    waiting.push(inner, cause);
    if (Array.isArray(failures)) waiting.push(...failures);
  }
  return links;
}
