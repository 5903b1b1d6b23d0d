// The page's end of the decode worker, with a worker of the test's own: answers, versions and deaths.
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { DEFAULT_FORMATS, decodeRequest } from '../../src/wire/decode.ts';
import { WORKER_VERSION } from '../../src/wire/worker.ts';
import { startDecodeWorker } from '../../src/workers/decodeClient.ts';
import { type Pair, workerPair } from '../workers/pair.ts';

let last: Pair & { answer(body: unknown, id?: number): void };

function frame() {
  let closed = 0;
  const note = () => {
    closed += 1;
  };
  const bitmap = { width: 2, height: 2, close: () => note() } as ImageBitmap;
  return { bitmap, closed: () => closed };
}

function Fake() {
  const pair = workerPair(null);
  const answer = (body: unknown, id = 1) => pair.say({ v: WORKER_VERSION, id, type: 'done', body });
  last = { ...pair, answer };
  return pair.port;
}

beforeEach(() => void vi.stubGlobal('Worker', Fake));
afterEach(() => void vi.unstubAllGlobals());

const square = [0, 1, 2, 3].map((n) => ({ x: n, y: n }));

test('a request names its version, formats and effort, and hands the frame over', async () => {
  const client = startDecodeWorker();
  const { bitmap } = frame();
  const answer = client.decode(bitmap, 'quick');
  const [{ message, transfer }] = last.sent as [{ message: { body: unknown }; transfer: unknown[] }];
  expect(message).toMatchObject({ v: WORKER_VERSION });
  expect(decodeRequest.parse(message.body)).toMatchObject({ formats: DEFAULT_FORMATS, effort: 'quick' });
  expect(transfer).toEqual([bitmap]);
  const symbols = [{ text: '1003', format: 'QRCode', corners: square }];
  last.answer({ type: 'symbols', symbols });
  expect(await answer).toMatchObject({ type: 'symbols', symbols });
});

test('answers find their own request, whatever their order', async () => {
  const client = startDecodeWorker(['QRCode']);
  const first = client.decode(frame().bitmap, 'quick');
  const second = client.decode(frame().bitmap, 'thorough');
  last.answer({ type: 'decoder-failed', message: 'b' }, 2);
  last.answer({ type: 'symbols', symbols: [] }, 1);
  expect(await second).toMatchObject({ type: 'decoder-failed', message: 'b' });
  expect(await first).toMatchObject({ type: 'symbols', symbols: [] });
});

test.each([
  [
    'another version',
    () => last.say({ v: WORKER_VERSION + 1, id: 1, type: 'done', body: { type: 'symbols', symbols: [] } }),
  ],
  ['symbols of another form', () => last.answer({ type: 'symbols', symbols: [{ text: 7 }] })],
  ['nonsense', () => last.say('hello')],
  ['an error', () => last.die()],
  ['something unreadable', () => last.unreadable()],
])('a worker that gives %s is ended, and every request, waiting or later, is answered as failed', async (_w, act) => {
  const client = startDecodeWorker();
  const waiting = client.decode(frame().bitmap, 'quick');
  act();
  expect(await waiting).toMatchObject({ type: 'decoder-failed' });
  expect(last.ended()).toBe(true);
  const late = frame();
  expect(await client.decode(late.bitmap, 'quick')).toMatchObject({ type: 'decoder-failed' });
  expect(late.closed()).toBe(1);
});
