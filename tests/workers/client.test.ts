// The one client of all workers against the one server of all, over a worker of the test's own: it throws, dies, hangs, is
// cancelled in the middle, speaks another version. Real workers run in the browser tests.
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { isOf, WORKER_VERSION } from '../../src/wire/worker.ts';
import { type ClientParts, createWorkerClient } from '../../src/workers/calls/client.ts';
import type { Serving } from '../../src/workers/calls/serve.ts';
import { workerPair } from './pair.ts';

type Ask = { type: 'double'; n: number } | { type: 'wait' } | { type: 'throw' } | { type: 'odd' };
type Answer = { type: 'number'; n: number } | { type: 'odd-number' };

const open: (() => void)[] = [];
const serving: Serving<Ask, Answer, { share: number }> = {
  read: isOf<Ask>({ double: true, wait: true, throw: true, odd: true }),
  async answer(question, tell) {
    if (question.type === 'throw') throw new RangeError('no such number');
    if (question.type === 'odd') return { type: 'odd-number' };
    if (question.type === 'wait') {
      tell({ share: 0.5 });
      await new Promise<void>((resolve) => open.push(resolve));
      return { type: 'number', n: 0 };
    }
    return { type: 'number', n: question.n * 2 };
  },
};

function joined(more: Partial<ClientParts<Answer, { share: number }>> = {}, served: typeof serving | null = serving) {
  const pair = workerPair(served);
  const onEnd = vi.fn();
  const start = vi.fn(() => pair.port);
  // The page of this test knows no odd numbers.
  const read = isOf<Extract<Answer, { type: 'number' }>>({ number: true });
  const client = createWorkerClient<Ask, Answer, { share: number }>({ start, read, onEnd, ...more });
  return { pair, client, onEnd, start };
}
const number = (n: number) => ({ type: 'done', value: { type: 'number', n } });

describe('a question', () => {
  it('starts the worker once, and each finds its own answer', async () => {
    const { client, start, pair } = joined();
    expect(start).not.toHaveBeenCalled();
    const both = [client.ask({ type: 'double', n: 2 }), client.ask({ type: 'double', n: 5 })];
    expect(await Promise.all(both)).toEqual([number(4), number(10)]);
    expect(start).toHaveBeenCalledTimes(1);
    expect(pair.sent.map(({ message }) => message)).toMatchObject([
      { v: WORKER_VERSION, id: 1, body: { n: 2 } },
      { v: WORKER_VERSION, id: 2, body: { n: 5 } },
    ]);
  });

  it('hands over what it is told to, and hears how far it is', async () => {
    const onProgress = vi.fn();
    const { client, pair } = joined({ onProgress });
    const buffer = new ArrayBuffer(4);
    const asked = client.ask({ type: 'wait' }, { transfer: [buffer] });
    await expect.poll(() => open.length).toBe(1);
    expect(pair.sent[0]?.transfer).toEqual([buffer]);
    expect(onProgress).toHaveBeenCalledWith({ share: 0.5 });
    open.pop()?.();
    expect(await asked).toEqual(number(0));
  });

  it('at which the worker throws fails alone', async () => {
    const { client, onEnd } = joined();
    const both = [client.ask({ type: 'throw' }), client.ask({ type: 'double', n: 1 })];
    expect(await Promise.all(both)).toEqual([{ type: 'worker-failed', why: 'no such number' }, number(2)]);
    expect(onEnd).not.toHaveBeenCalled();
  });

  it('that waits hears of a promise in the worker that nobody waited for', async () => {
    const { client, pair } = joined();
    const asked = client.ask({ type: 'wait' });
    await expect.poll(() => open.length).toBe(1);
    pair.rejectUnheard(new Error('the compressor broke'));
    expect(await asked).toEqual({ type: 'worker-failed', why: 'the compressor broke' });
    open.pop()?.();
  });
});

describe('a worker that', () => {
  it.each([
    [
      'dies',
      (pair: ReturnType<typeof workerPair>) => pair.die('out of memory'),
      { type: 'worker-died', why: 'out of memory' },
    ],
    [
      'cannot be loaded',
      (pair: ReturnType<typeof workerPair>) => pair.die(),
      { type: 'worker-died', why: 'it could not be loaded' },
    ],
    [
      'sends what cannot be read',
      (pair: ReturnType<typeof workerPair>) => pair.unreadable(),
      { type: 'worker-misfit' },
    ],
    [
      'answers as an earlier version did',
      (pair: ReturnType<typeof workerPair>) => pair.say({ type: 'done', id: 1, value: [] }),
      { type: 'worker-misfit' },
    ],
    [
      'is of a later version',
      (pair: ReturnType<typeof workerPair>) => pair.say({ v: WORKER_VERSION + 1, id: 1, type: 'done', body: {} }),
      { type: 'worker-misfit' },
    ],
    [
      'knows no such question',
      (pair: ReturnType<typeof workerPair>) => pair.say({ v: WORKER_VERSION, id: 1, type: 'misfit' }),
      { type: 'worker-misfit' },
    ],
    [
      'answers in another form',
      (pair: ReturnType<typeof workerPair>) => pair.say({ v: WORKER_VERSION, id: 1, type: 'done', body: 7 }),
      { type: 'worker-misfit' },
    ],
  ])('%s is ended, and all who wait or ask later are told the same', async (_, act, told) => {
    const { client, pair, onEnd, start } = joined({}, null);
    const waiting = [client.ask({ type: 'wait' }), client.ask({ type: 'wait' })];
    act(pair);
    expect(await Promise.all(waiting)).toEqual([told, told]);
    expect(await client.ask({ type: 'double', n: 1 })).toEqual(told);
    expect([pair.ended(), onEnd.mock.calls.length, start.mock.calls.length]).toEqual([true, 1, 1]);
    // What was still on its way changes nothing.
    pair.say({ v: WORKER_VERSION, id: 2, type: 'done', body: { type: 'number', n: 1 } });
    pair.die('again');
    expect(await client.ask({ type: 'double', n: 1 })).toEqual(told);
  });

  it('gives an answer of a form that the page does not know is of another version', async () => {
    const { client } = joined();
    expect(await client.ask({ type: 'odd' })).toEqual({ type: 'worker-misfit' });
  });

  it('is asked what it does not know says so, and does nothing', async () => {
    const { client } = joined();
    expect(await client.ask({ type: 'spiral' } as never)).toEqual({ type: 'worker-misfit' });
  });

  it('cannot even be made is told', async () => {
    const start = () => {
      throw new DOMException('not allowed', 'SecurityError');
    };
    const { client } = joined({ start });
    expect(await client.ask({ type: 'wait' })).toMatchObject({
      type: 'worker-died',
      why: expect.stringContaining('not allowed'),
    });
  });

  it('takes too long is ended; one that answers in time is not', async () => {
    const late: (() => void)[] = [];
    const after = (_: number, call: () => void) => {
      late.push(call);
      return () => late.splice(late.indexOf(call), 1);
    };
    const { client, pair } = joined({ after });
    expect(await client.ask({ type: 'double', n: 1 }, { limit: 5 })).toEqual(number(2));
    expect(late).toEqual([]);
    const waiting = client.ask({ type: 'wait' }, { limit: 5 });
    await expect.poll(() => open.length).toBe(1);
    late[0]?.();
    expect(await waiting).toEqual({ type: 'worker-late' });
    expect(pair.ended()).toBe(true);
    open.pop()?.();
  });
});

describe('cancelling', () => {
  it('in the middle of the work ends the worker at once', async () => {
    const { client, pair } = joined();
    const stop = new AbortController();
    const asked = client.ask({ type: 'wait' }, { signal: stop.signal });
    await expect.poll(() => open.length).toBe(1);
    stop.abort();
    expect(await asked).toEqual({ type: 'cancelled' });
    expect(pair.ended()).toBe(true);
    open.pop()?.();
  });

  it('before it was asked starts nothing; after its answer ends nothing', async () => {
    const stop = new AbortController();
    const before = joined();
    const done = joined();
    expect(await done.client.ask({ type: 'double', n: 1 }, { signal: stop.signal })).toEqual(number(2));
    stop.abort();
    expect(done.pair.ended()).toBe(false);
    expect(await before.client.ask({ type: 'double', n: 1 }, { signal: stop.signal })).toEqual({ type: 'cancelled' });
    expect(before.start).not.toHaveBeenCalled();
  });
});

it('no message at all makes either end throw or leaves a question without an answer', async () => {
  await fc.assert(
    fc.asyncProperty(fc.jsonValue(), async (data) => {
      const page = joined({}, null);
      const asked = page.client.ask({ type: 'wait' });
      page.pair.say(data);
      page.pair.die('at last');
      expect((await asked).type).toMatch(/^worker-/);
      const worker = workerPair(serving);
      const told: unknown[] = [];
      worker.port.onmessage = ({ data: back }) => told.push(back);
      worker.port.postMessage(data);
      await expect.poll(() => told.length).toBe(1);
      expect(told[0]).toMatchObject({ v: WORKER_VERSION, type: 'misfit' });
    }),
    { numRuns: 50 },
  );
});
