// The page's end of the decode worker. It never keeps more in flight than the caller asked for; the caller decides which
// frames matter.
import {
  DEFAULT_FORMATS,
  type DecodeAnswer,
  type DecodeRequest,
  decodeAnswer,
  type SymbolFormat,
} from '../wire/decode.ts';
import { fits } from '../wire/fits.ts';
import { createWorkerClient } from './calls/client.ts';

type Decoded = DecodeAnswer;

type DecodeWorker = {
  decode(frame: ImageBitmap, effort: 'quick' | 'thorough'): Promise<Decoded>;
  close(): void;
};

export function startDecodeWorker(formats: readonly SymbolFormat[] = DEFAULT_FORMATS): DecodeWorker {
  const client = createWorkerClient<DecodeRequest, DecodeAnswer>({
    start: () => new Worker(new URL('./decode.worker.ts', import.meta.url), { type: 'module', name: 'decode' }),
    read: fits(decodeAnswer),
  });
  return {
    async decode(frame, effort) {
      const answer = await client.ask({ formats: [...formats], effort, frame }, { transfer: [frame] });
      if (answer.type === 'done') return answer.value;
      // One that was not handed over is still the page's.
      frame.close();
      const message = 'why' in answer ? answer.why : answer.type;
      return { type: 'decoder-failed', message };
    },
    close: () => client.end(),
  };
}
