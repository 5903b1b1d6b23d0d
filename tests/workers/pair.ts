// A worker of the test's own: both ends of its messages in one thread, each message copied as between threads. No logic.
import type { WorkerPort } from '../../src/workers/calls/client.ts';
import { type ServeScope, type Serving, serve } from '../../src/workers/calls/serve.ts';

export interface Pair {
  port: WorkerPort;
  /** What the page posted, envelopes and all, and what it handed over. */
  sent: { message: unknown; transfer: readonly unknown[] }[];
  ended: () => boolean;
  /** As the browser tells a worker's death, a message it cannot read, or one that the worker never meant to send. */
  die(why?: string): void;
  unreadable(): void;
  say(data: unknown): void;
  /** A promise in the worker that nobody waited for. */
  rejectUnheard(reason: unknown): void;
}

/** @param serving Null for a worker that never answers. */
export function workerPair<Q, A, P>(serving: Serving<Q, A, P> | null): Pair {
  const rejections: ((event: { reason: unknown }) => void)[] = [];
  let ended = false;
  const scope: ServeScope = {
    onmessage: null,
    postMessage: (message) => say(structuredClone(message)),
    addEventListener: (_, call) => rejections.push(call),
  };
  const sent: Pair['sent'] = [];
  const port: WorkerPort = {
    onmessage: null,
    onmessageerror: null,
    onerror: null,
    postMessage: (message: unknown, over?: unknown) => {
      sent.push({ message, transfer: (over as unknown[]) ?? [] });
      if (serving === null) return;
      const copy = structuredClone(message);
      queueMicrotask(() => ended || scope.onmessage?.({ data: copy } as MessageEvent));
    },
    terminate: () => {
      ended = true;
    },
  };
  // A browser may still deliver what was on its way when the worker was ended.
  const say = (data: unknown) => queueMicrotask(() => port.onmessage?.({ data } as MessageEvent));
  if (serving) serve(scope, serving);
  return {
    port,
    sent,
    ended: () => ended,
    die: (why = '') => port.onerror?.({ message: why } as ErrorEvent),
    unreadable: () => port.onmessageerror?.({} as MessageEvent),
    say,
    rejectUnheard: (reason) => rejections.forEach((call) => void call({ reason })),
  };
}
