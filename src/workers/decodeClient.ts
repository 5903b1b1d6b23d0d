// Owns the page's end of the decode worker: one request, one answer, and an answer for all when the worker dies.
// Must never keep more than the caller asked for in flight; the caller decides which frames matter.
import {
  DECODE_VERSION,
  DEFAULT_FORMATS,
  type DecodeAnswer,
  type DecodedSymbol,
  type DecodeRequest,
  decodeAnswer,
  type SymbolFormat,
} from '../wire/decode.ts';

export type Decoded = { type: 'symbols'; symbols: DecodedSymbol[] } | { type: 'decoder-failed'; message: string };

export type DecodeWorker = {
  decode(frame: ImageBitmap, effort: 'quick' | 'thorough'): Promise<Decoded>;
  close(): void;
};

export function startDecodeWorker(formats: readonly SymbolFormat[] = DEFAULT_FORMATS): DecodeWorker {
  const worker = new Worker(new URL('./decode.worker.ts', import.meta.url), { type: 'module', name: 'decode' });
  const waiting = new Map<number, (answer: Decoded) => void>();
  let lastId = 0;
  let dead: string | null = null;

  function die(message: string): void {
    dead ??= message;
    for (const answer of waiting.values()) answer({ type: 'decoder-failed', message: dead });
    waiting.clear();
    worker.terminate();
  }

  worker.addEventListener('message', (event: MessageEvent<unknown>) => {
    const parsed = decodeAnswer.safeParse(event.data);
    if (!parsed.success) return die('the worker speaks another version');
    settle(parsed.data);
  });
  worker.addEventListener('error', (event) => die(event.message || 'the worker could not be loaded'));
  worker.addEventListener('messageerror', () => die('the worker sent something unreadable'));

  function settle(answer: DecodeAnswer): void {
    waiting.get(answer.id)?.(answer);
    waiting.delete(answer.id);
  }

  return {
    decode(frame, effort) {
      if (dead !== null) {
        frame.close();
        return Promise.resolve({ type: 'decoder-failed', message: dead });
      }
      lastId += 1;
      const request: DecodeRequest = { v: DECODE_VERSION, id: lastId, formats: [...formats], effort, frame };
      return new Promise((resolve) => {
        waiting.set(request.id, resolve);
        worker.postMessage(request, [frame]);
      });
    },
    close: () => die('closed'),
  };
}
