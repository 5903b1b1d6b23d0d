// The browser's way to the stream of news, for src/sync/live.ts: fetch, because only it can send the token along.
import type { LiveAnswer, LiveOpening } from '../sync/live.ts';
import { WIRE_HEADER, WIRE_VERSION } from '../wire/sync.ts';

export function openLiveStream(token: string): LiveOpening {
  const ended = new AbortController();
  return { answer: ask(token, ended.signal), abort: () => ended.abort() };
}

async function ask(token: string, signal: AbortSignal): Promise<LiveAnswer | null> {
  try {
    const answer = await fetch('/api/live', {
      headers: {
        authorization: `Bearer ${token}`,
        accept: 'text/event-stream',
        [WIRE_HEADER]: String(WIRE_VERSION),
      },
      signal,
      cache: 'no-store',
      credentials: 'omit',
      // Nobody but our own server may speak in its name.
      redirect: 'error',
    });
    const reader = answer.body?.getReader();
    const decoder = new TextDecoder();
    return {
      status: answer.status,
      header: (name) => answer.headers.get(name),
      read: async () => {
        const part = await reader?.read().catch(() => null);
        return !part || part.done ? null : decoder.decode(part.value, { stream: true });
      },
    };
  } catch {
    return null;
  }
}
