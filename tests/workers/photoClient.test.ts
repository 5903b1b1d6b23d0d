// The page's end of the photo worker: one picture at a time, and the page itself where the worker is no use. The
// worker is a double; a real one runs in tests/browser/photo.test.ts.
import { expect, test } from 'vitest';
import type { PhotoRequest, PreparedPhoto } from '../../src/wire/photo.ts';
import { WORKER_VERSION } from '../../src/wire/worker.ts';
import type { WorkerPort } from '../../src/workers/calls/client.ts';
import { createPhotoClient } from '../../src/workers/photoClient.ts';
import { fitInto, isHeic } from '../../src/workers/photoPrepare.ts';

const made = (width: number): PreparedPhoto => ({
  type: 'photo',
  bytes: new Uint8Array([width]),
  mime: 'image/jpeg',
  width,
  height: 1,
  thumb: { bytes: new ArrayBuffer(1), mime: 'image/jpeg' },
});

function bench(answer: (worker: WorkerPort, request: PhotoRequest & { id: number }) => void) {
  const log: string[] = [];
  let late: (() => void) | null = null;
  const make = createPhotoClient({
    start: () => {
      log.push('start');
      const worker: WorkerPort = {
        onmessage: null,
        onmessageerror: null,
        onerror: null,
        terminate: () => log.push('terminate'),
        postMessage: ({ id, body }: { id: number; body: PhotoRequest }) => {
          log.push(`worker ${body.longSide}`);
          answer(worker, { ...body, id });
        },
      };
      return worker;
    },
    onPage: async (_, longSide) => {
      log.push(`page ${longSide}`);
      return made(longSide);
    },
    after: (_, call) => {
      late = call;
      return () => {
        late = null;
      };
    },
  });
  return { log, make, tooLate: () => late?.() };
}
const picture = new Blob(['x']);
const reply = (worker: WorkerPort, id: number, of: PreparedPhoto | { type: 'photo-no-canvas' | 'photo-heic' }) =>
  queueMicrotask(() => worker.onmessage?.({ data: { v: WORKER_VERSION, id, type: 'done', body: of } } as MessageEvent));

test('pictures go through one worker, the second after the first', async () => {
  const open: (() => void)[] = [];
  const { log, make } = bench((worker, { id, longSide }) => open.push(() => reply(worker, id, made(longSide))));
  const both = [make(picture, 10), make(picture, 20)];
  await expect.poll(() => open.length).toBe(1);
  expect(log).toEqual(['start', 'worker 10']);
  open[0]?.();
  await expect.poll(() => open.length).toBe(2);
  open[1]?.();
  expect((await Promise.all(both)).map((one) => 'width' in one && one.width)).toEqual([10, 20]);
  expect(log).toEqual(['start', 'worker 10', 'worker 20']);
});

test('where the worker has no canvas the page draws, now and from then on', async () => {
  const { log, make } = bench((worker, { id }) => reply(worker, id, { type: 'photo-no-canvas' }));
  expect(await make(picture, 10)).toMatchObject({ width: 10 });
  expect(await make(picture, 20)).toMatchObject({ width: 20 });
  expect(log).toEqual(['start', 'worker 10', 'page 10', 'page 20']);
});

test('a worker that breaks or hangs costs no picture', async () => {
  const broken = bench((worker) => queueMicrotask(() => worker.onerror?.({} as ErrorEvent)));
  expect(await broken.make(picture, 10)).toMatchObject({ width: 10 });
  expect(broken.log).toEqual(['start', 'worker 10', 'terminate', 'page 10']);
  // Of another version, it answers in a form that this page does not know.
  const foreign = bench((worker, { id }) =>
    queueMicrotask(() => worker.onmessage?.({ data: { id, made: {} } } as MessageEvent)),
  );
  expect(await foreign.make(picture, 10)).toMatchObject({ width: 10 });
  expect(foreign.log).toEqual(['start', 'worker 10', 'terminate', 'page 10']);
  const silent = bench(() => undefined);
  const waiting = silent.make(picture, 30);
  await expect.poll(() => silent.log.length).toBe(2);
  silent.tooLate();
  expect(await waiting).toMatchObject({ width: 30 });
});

test('what the worker refuses is refused, and not tried again', async () => {
  const { log, make } = bench((worker, { id }) => reply(worker, id, { type: 'photo-heic' }));
  expect(await make(picture, 10)).toEqual({ type: 'photo-heic' });
  expect(log).toEqual(['start', 'worker 10']);
});

test('HEIC is told by its brand; JPEG and short files are left alone', () => {
  const ftyp = (brand: string) => new TextEncoder().encode(`\0\0\0\u0018ftyp${brand}\0\0\0\0`);
  expect(isHeic(ftyp('heic'))).toBe(true);
  expect(isHeic(ftyp('mif1'))).toBe(true);
  expect(isHeic(ftyp('mp42'))).toBe(false);
  expect(isHeic(new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 16, 74, 70, 73, 70, 0, 1]))).toBe(false);
  expect(isHeic(new Uint8Array(3))).toBe(false);
});

test('the long side is scaled down and never up', () => {
  expect(fitInto(4000, 3000, 1600)).toEqual({ width: 1600, height: 1200 });
  expect(fitInto(3000, 4000, 1600)).toEqual({ width: 1200, height: 1600 });
  expect(fitInto(800, 600, 1600)).toEqual({ width: 800, height: 600 });
  expect(fitInto(10_000, 2, 240)).toEqual({ width: 240, height: 1 });
});
