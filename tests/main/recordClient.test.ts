// The page's end of the record worker: an entry that was written stays written, whatever the worker makes of it.
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createRecordClient } from '../../src/main/recordClient.ts';
import type { PageToWorker } from '../../src/wire/page.ts';
import { commandsOf, eventText, freshStation, note, openOrFail } from '../store/helpers.ts';
import { type Pair, workerPair } from '../workers/pair.ts';

/** Workers in the order in which they were started; each keeps how many texts it was fed and answers with that. */
let started: Pair[] = [];

/** Answers every message; while `broken.texts`, taking texts fails as a bug in the fold would; `broken.dies`, it ends there. */
function fakeWorker(broken: { texts: boolean; dies?: boolean }) {
  return function Fake() {
    let fed = 0;
    const pair: Pair = workerPair<PageToWorker, unknown, never>({
      read: (body) => body as PageToWorker,
      answer: (message) => {
        if (message.type === 'texts' && broken.dies) pair.die();
        if (message.type === 'texts' && broken.texts) throw new Error('a bug in the fold');
        if (message.type === 'texts') fed += message.texts.length;
        return message.type === 'ask' && message.question === 'search' ? fed : [];
      },
    });
    started.push(pair);
    return pair.port;
  };
}

afterEach(() => {
  started = [];
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

describe('a record worker that ends', () => {
  async function fedWith(texts: number) {
    const broken = { texts: false, dies: false };
    vi.stubGlobal('Worker', fakeWorker(broken));
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    for (let i = 0; i < texts; i++) await commands.record('note', note(String(i)));
    return { store, broken, client: createRecordClient(store, () => undefined) };
  }
  const fed = (client: ReturnType<typeof createRecordClient>) => client.ask('search', { text: '' });

  it('tells those who wait, and the next one is fed with the whole record before it answers', async () => {
    const { client } = await fedWith(3);
    expect(await fed(client)).toBe(3);
    const waiting = fed(client);
    await Promise.resolve();
    await Promise.resolve();
    started[0]?.die('out of memory');
    await expect(waiting).rejects.toThrow(/out of memory.*reload the app/);
    expect(await fed(client)).toBe(3);
    expect(started.length).toBe(2);
  });

  it('of another version is named with the next step, not taken at its word', async () => {
    const { client } = await fedWith(2);
    await client.start();
    const waiting = fed(client);
    started[0]?.say({ type: 'done', id: 99, value: [] });
    await expect(waiting).rejects.toThrow(/different versions. Reload the app/);
  });

  it('while it is fed never leaves a half-fed one to answer', async () => {
    const { client, broken } = await fedWith(3);
    broken.dies = true;
    await expect(fed(client)).rejects.toThrow(/could not be loaded/);
    broken.dies = false;
    expect(await fed(client)).toBe(3);
  });

  it('is not needed for a record that cannot be read to be asked for again', async () => {
    const { store, client } = await fedWith(1);
    const run = vi.spyOn(store, 'run').mockResolvedValue({ type: 'store-lost', message: 'gone' });
    await expect(fed(client)).rejects.toThrow(/cannot be read at the moment/);
    run.mockRestore();
    expect(await fed(client)).toBe(1);
  });
});
