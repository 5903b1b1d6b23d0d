// The page's end of the decode worker, with a worker of the test's own: answers, versions and deaths.
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { DECODE_VERSION, DEFAULT_FORMATS, decodeRequest } from '../../src/wire/decode.ts';
import { startDecodeWorker } from '../../src/workers/decodeClient.ts';

class FakeWorker extends EventTarget {
  static last: FakeWorker;
  sent: { id: number; frame: unknown }[] = [];
  over: unknown[][] = [];
  ended = false;
  constructor() {
    super();
    FakeWorker.last = this;
  }
  postMessage(message: { id: number; frame: unknown }, over: unknown[]) {
    this.sent.push(message);
    this.over.push(over);
  }
  terminate() {
    this.ended = true;
  }
  answer(data: unknown) {
    this.dispatchEvent(Object.assign(new Event('message'), { data }));
  }
}

function frame() {
  let closed = 0;
  const note = () => {
    closed += 1;
  };
  const bitmap = { width: 2, height: 2, close: () => note() } as ImageBitmap;
  return { bitmap, closed: () => closed };
}

beforeEach(() => void vi.stubGlobal('Worker', FakeWorker));
afterEach(() => void vi.unstubAllGlobals());

const square = [0, 1, 2, 3].map((n) => ({ x: n, y: n }));

test('a request names its version, formats and effort, and hands the frame over', async () => {
  const client = startDecodeWorker();
  const { bitmap } = frame();
  const answer = client.decode(bitmap, 'quick');
  const { sent, over } = FakeWorker.last;
  expect(decodeRequest.parse(sent[0])).toMatchObject({ v: DECODE_VERSION, formats: DEFAULT_FORMATS, effort: 'quick' });
  expect(over[0]).toEqual([bitmap]);
  const symbols = [{ text: '1003', format: 'QRCode', corners: square }];
  FakeWorker.last.answer({ v: DECODE_VERSION, id: sent[0].id, type: 'symbols', symbols });
  expect(await answer).toMatchObject({ type: 'symbols', symbols });
});

test('answers find their own request, whatever their order', async () => {
  const client = startDecodeWorker(['QRCode']);
  const first = client.decode(frame().bitmap, 'quick');
  const second = client.decode(frame().bitmap, 'thorough');
  const [a, b] = FakeWorker.last.sent;
  FakeWorker.last.answer({ v: DECODE_VERSION, id: b.id, type: 'decoder-failed', message: 'b' });
  FakeWorker.last.answer({ v: DECODE_VERSION, id: a.id, type: 'symbols', symbols: [] });
  expect(await second).toMatchObject({ type: 'decoder-failed', message: 'b' });
  expect(await first).toMatchObject({ type: 'symbols', symbols: [] });
});

test.each([
  ['another version', (worker: FakeWorker) => worker.answer({ v: DECODE_VERSION + 1, id: 1, type: 'symbols' })],
  ['nonsense', (worker: FakeWorker) => worker.answer('hello')],
  ['an error', (worker: FakeWorker) => worker.dispatchEvent(new Event('error'))],
  ['something unreadable', (worker: FakeWorker) => worker.dispatchEvent(new Event('messageerror'))],
])('a worker that gives %s is ended, and every request, waiting or later, is answered as failed', async (_w, act) => {
  const client = startDecodeWorker();
  const waiting = client.decode(frame().bitmap, 'quick');
  act(FakeWorker.last);
  expect(await waiting).toMatchObject({ type: 'decoder-failed' });
  expect(FakeWorker.last.ended).toBe(true);
  const late = frame();
  expect(await client.decode(late.bitmap, 'quick')).toMatchObject({ type: 'decoder-failed' });
  expect(late.closed()).toBe(1);
});
