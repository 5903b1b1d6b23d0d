// Turns on the one thread of the server. SQLite answers at once and streams run on in microtasks, so heavy work that
// does not take turns keeps everybody else waiting until all of it is done.

let last: Promise<void> = Promise.resolve();

/**
 * Waits for a turn of its own: of all who wait here, one goes on per round of the event loop, and between two of them
 * sockets and timers are served. A piece of work of more than a few milliseconds begins with this.
 */
export function pause(): Promise<void> {
  last = last.then(() => new Promise<void>((go) => setImmediate(go)));
  return last;
}
