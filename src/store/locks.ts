// One writer at a time: across tabs by a Web Lock, within the page by a chain where the browser has none. The chain
// alone is not enough for two tabs; the appender therefore also compares the head inside its transaction.

export type LockRunner = <T>(name: string, work: () => Promise<T>) => Promise<T>;

export function createPageLocks(): LockRunner {
  const tails = new Map<string, Promise<unknown>>();
  return (name, work) => {
    const turn = (tails.get(name) ?? Promise.resolve()).then(work, work);
    tails.set(
      name,
      turn.catch(() => undefined),
    );
    return turn;
  };
}

export function createLocks(locks: LockManager | undefined = globalThis.navigator?.locks): LockRunner {
  if (!locks) return createPageLocks();
  return async (name, work) => (await locks.request(name, work)) as Awaited<ReturnType<typeof work>>;
}
