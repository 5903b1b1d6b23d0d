// A listener on the stream of news and timers that go off by hand, for the server's tests.
import * as z from 'zod/mini';
import { type LiveMessage, liveMessageSchema } from '../../src/wire/sync.ts';
import type { TestServer } from './help.ts';

export class HandTimers {
  private waiting = new Map<object, { ms: number; call: () => void }>();

  after = (ms: number, call: () => void): (() => void) => {
    const key = {};
    this.waiting.set(key, { ms, call });
    return () => void this.waiting.delete(key);
  };

  /** What waits now, or of it what waits no longer than so many ms; what is set up meanwhile waits for the next time. */
  fire(atMost = Number.POSITIVE_INFINITY): void {
    const due = [...this.waiting].filter(([, { ms }]) => ms <= atMost);
    for (const [key] of due) this.waiting.delete(key);
    for (const [, { call }] of due) call();
  }

  get count(): number {
    return this.waiting.size;
  }
}

export type Heard = {
  answer: Response;
  /** The next message; null when the server has ended the stream. */
  next: () => Promise<LiveMessage | null>;
  /** Messages up to the first of that type, which is the answer. */
  until: <T extends LiveMessage['type']>(type: T) => Promise<Extract<LiveMessage, { type: T }>>;
  leave: () => Promise<void>;
};

export async function hear(server: TestServer, token: string): Promise<Heard> {
  return heard(await server.ask('GET', '/api/live', { token }));
}

export function heard(answer: Response): Heard {
  const reader = answer.body?.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  async function next(): Promise<LiveMessage | null> {
    for (;;) {
      const end = text.indexOf('\n\n');
      if (end >= 0) {
        const line = text.slice(0, end);
        text = text.slice(end + 2);
        if (!line.startsWith('data: ')) throw new Error(`Not a line of news: ${line}`);
        return z.parse(liveMessageSchema, JSON.parse(line.slice(6)));
      }
      const part = await reader?.read();
      if (!part || part.done) return null;
      text += part.value;
    }
  }
  return {
    answer,
    next,
    until: async (type) => {
      for (;;) {
        const message = await next();
        if (message === null) throw new Error(`The stream ended before ${type}.`);
        if (message.type === type) return message as Extract<LiveMessage, { type: typeof type }>;
      }
    },
    leave: async () => await reader?.cancel(),
  };
}
