// The transport over a fetch that is handed in, so that this compiles without a browser and runs in one. It never
// throws: whatever goes wrong on the way is `nothing`.
import type { Transport, TransportAnswer, TransportRequest } from './ports.ts';

type FetchAnswer = {
  status: number;
  headers: { get: (name: string) => string | null };
  text: () => Promise<string>;
  arrayBuffer: () => Promise<ArrayBuffer>;
};

type FetchInit<Signal> = {
  method: string;
  headers: Record<string, string>;
  body?: string | Uint8Array<ArrayBuffer>;
  signal: Signal;
  cache: 'no-store';
  credentials: 'omit';
  /** What another address says is never our server's answer. */
  redirect: 'manual';
};

type FetchParts<Signal> = {
  fetch: (url: string, init: FetchInit<Signal>) => Promise<FetchAnswer>;
  makeAbort: () => { signal: Signal; abort: () => void };
  after: (ms: number, call: () => void) => () => void;
  /** Put before every path; empty in the app, which shares the server's origin. */
  origin?: string;
};

export function createFetchTransport<Signal>(parts: FetchParts<Signal>): Transport {
  const underWay = new Set<() => void>();

  async function send(request: TransportRequest): Promise<TransportAnswer> {
    const { signal, abort } = parts.makeAbort();
    let why: 'timeout' | 'unreachable' | 'cancelled' = 'unreachable';
    const end = (reason: 'timeout' | 'cancelled') => {
      why = reason;
      abort();
    };
    const cancel = () => end('cancelled');
    underWay.add(cancel);
    const undo = parts.after(request.timeoutMs, () => end('timeout'));
    try {
      const answer = await parts.fetch((parts.origin ?? '') + request.path, {
        method: request.method,
        headers: request.headers,
        ...(request.body === undefined ? {} : { body: request.body }),
        signal,
        cache: 'no-store',
        credentials: 'omit',
        redirect: 'manual',
      });
      // The body is part of the wait: a link that dies half way through must not hang the exchange.
      const asBytes = request.want === 'bytes' && answer.status === 200;
      return {
        type: 'answer',
        status: answer.status,
        header: (name) => answer.headers.get(name),
        text: asBytes ? '' : await answer.text(),
        bytes: asBytes ? new Uint8Array(await answer.arrayBuffer()) : null,
      };
    } catch {
      return { type: 'nothing', why };
    } finally {
      undo();
      underWay.delete(cancel);
    }
  }

  return {
    send,
    cancel: () => {
      for (const cancel of [...underWay]) cancel();
    },
  };
}
