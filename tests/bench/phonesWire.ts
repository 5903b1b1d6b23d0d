// The questions of the measured phones, over connections that are kept. A connection that breaks is tried once more, as
// the server may let go of one just when it is used again; a wish to wait is followed. Both are counted.
import { WIRE_HEADER } from '../../src/wire/sync.ts';

type Answered = { text: string; headers: Headers };
export type Ask = (
  token: string,
  method: string,
  path: string,
  body?: string | Uint8Array<ArrayBuffer>,
  mime?: string,
) => Promise<Answered>;
export type Asker = {
  ask: Ask;
  /** Opens the stream of news. */
  open: (token: string, signal?: AbortSignal) => Promise<Response>;
  /** A question that is answered without the database; false when the connection broke. */
  knock: () => Promise<boolean>;
  counts: { broken: number; told: number };
};

export function createAsker(origin: string): Asker {
  const counts = { broken: 0, told: 0 };
  const once = async (path: string, asked: RequestInit) => {
    const answer = await fetch(`${origin}/api${path}`, asked);
    return { answer, text: await answer.text() };
  };
  const ask: Ask = async (token, method, path, body, mime = 'application/json') => {
    const headers = { [WIRE_HEADER]: '1', authorization: `Bearer ${token}`, 'content-type': mime };
    const asked = { method, headers, ...(body === undefined ? {} : { body }) };
    for (;;) {
      const { answer, text } = await once(path, asked).catch(() => {
        counts.broken += 1;
        return once(path, asked);
      });
      if (answer.ok) return { text, headers: answer.headers };
      if (answer.status !== 429 && answer.status !== 503)
        throw new Error(`${method} ${path}: ${answer.status} ${text}`);
      counts.told += 1;
      await new Promise((on) => setTimeout(on, Number(answer.headers.get('retry-after') ?? 1) * 1000));
    }
  };
  return {
    ask,
    open: async (token, signal) => {
      const headers = { [WIRE_HEADER]: '1', authorization: `Bearer ${token}` };
      const answer = await fetch(`${origin}/api/live`, { headers, ...(signal ? { signal } : {}) });
      if (!answer.ok) throw new Error(`The stream of news was not opened: ${answer.status} ${await answer.text()}`);
      return answer;
    },
    knock: async () => {
      try {
        await once('', {});
        return true;
      } catch {
        counts.broken += 1;
        return false;
      }
    },
    counts,
  };
}
