// The page's end of the record worker: an entry that was written stays written, whatever the worker makes of it.
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createRecordClient } from '../../src/main/recordClient.ts';
import type { PageToWorker, WorkerToPage } from '../../src/wire/page.ts';
import { eventText, freshStation, openOrFail } from '../store/helpers.ts';

/** Answers every message; while `broken.texts`, taking texts fails as a bug in the fold would. */
function fakeWorker(broken: { texts: boolean }) {
  return class {
    onmessage: ((event: { data: WorkerToPage }) => void) | null = null;
    onerror: unknown = null;
    postMessage({ id, type }: PageToWorker): void {
      const reply: WorkerToPage =
        type === 'texts' && broken.texts
          ? { type: 'failed', id, why: 'a bug in the fold' }
          : { type: 'done', id, value: [] };
      queueMicrotask(() => this.onmessage?.({ data: reply }));
    }
    terminate(): void {}
  };
}

afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

describe('an entry that the record worker cannot take', () => {
  it('does not turn what was written into a failure, and the screens ask again', async () => {
    const broken = { texts: false };
    vi.stubGlobal('Worker', fakeWorker(broken));
    const told = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    const station = freshStation();
    const client = createRecordClient(await openOrFail(station), () => undefined);
    await client.start();
    broken.texts = true;
    const before = client.changed.value;
    await expect(client.take([eventText(station, 'e', 'log', 0)])).resolves.toBeUndefined();
    expect(client.changed.value).toBe(before + 1);
    expect(told).toHaveBeenCalledWith(expect.objectContaining({ message: 'a bug in the fold' }));
  });
});
