// The second place: what the database will not take survives the page, comes in at the next start exactly once, and is
// copied no longer than it has to be.
import { describe, expect, it } from 'vitest';
import { type Copies, createCopies } from '../../src/store/record/copies.ts';
import { StationDb } from '../../src/store/schema.ts';
import { commandsOf, freshStation, look, note, openOrFail, SLOW } from './helpers.ts';

const ORIGIN = 'https://phone.invalid';

/** What outlives a page: a cache and a local store, either of which may refuse. */
function phone() {
  const cached = new Map<string, string>();
  const kept = new Map<string, string>();
  const refuses = { cache: false, local: false };
  const cache = {
    put: async (key: string, answer: Response) => {
      if (refuses.cache) throw new DOMException('no room', 'QuotaExceededError');
      cached.set(key, await answer.text());
    },
    keys: async () => [...cached.keys()].map((key) => ({ url: `${ORIGIN}${key}` })),
    match: async ({ url }: { url: string }) => new Response(cached.get(url.slice(ORIGIN.length))),
    delete: async (key: string) => cached.delete(key),
  };
  const local = {
    getItem: (key: string) => kept.get(key) ?? null,
    setItem: (key: string, text: string) => {
      if (refuses.local) throw new DOMException('no room', 'QuotaExceededError');
      kept.set(key, text);
    },
    removeItem: (key: string) => void kept.delete(key),
    key: (i: number) => [...kept.keys()][i] ?? null,
    get length() {
      return kept.size;
    },
  };
  const caches = { has: async () => true, open: async () => cache as unknown as Cache };
  const copies = (station: string, page: string): Copies => createCopies({ station, page, caches, local });
  return { cached, kept, refuses, copies };
}

/** A station whose database refuses to write entries for as long as `refuse.now`. */
async function refusing(station: string) {
  const refuse = { now: true };
  const store = await openOrFail(station, {
    create: (id, versions) => {
      const db = new StationDb(id, versions);
      db.use({
        stack: 'dbcore',
        name: 'refusing',
        create: (down) => ({
          ...down,
          table: (name) => {
            const table = down.table(name);
            const mutate: typeof table.mutate = (request) =>
              refuse.now && name === 'events'
                ? Promise.reject(new DOMException('lost', 'UnknownError'))
                : table.mutate(request);
            return { ...table, mutate };
          },
        }),
      });
      return db;
    },
  });
  return { store, refuse };
}

const textsOf = async (station: string) => {
  const store = await openOrFail(station);
  const rows = await look(store, (db) => db.events.orderBy('arrival').toArray());
  store.close();
  return rows.map((row) => JSON.parse(row.text).payload.text);
};

describe.each(['cache', 'local'] as const)('what the database refuses, with the copy in the %s', (place) => {
  it('survives the page and comes in at the next start, each once, however often it starts', SLOW, async () => {
    const station = freshStation();
    const { cached, kept, refuses, copies } = phone();
    if (place === 'local') refuses.cache = true;
    const first = await refusing(station);
    const before = commandsOf(first.store, 'p', undefined, undefined, copies(station, 'page-1'));
    const made = [await before.record('note', note('1')), await before.record('note', note('2'))];
    expect(made.map(({ type }) => type)).toEqual(['not-saved', 'not-saved']);
    await expect.poll(() => before.copied.current()).toBe(true);
    expect(place === 'local' ? kept.size : cached.size).toBe(1);
    // The page ends here, and nothing was written.
    first.store.close();

    for (const page of ['page-2', 'page-3']) {
      const { store, refuse } = await refusing(station);
      refuse.now = page === 'page-2';
      const commands = commandsOf(store, page, undefined, undefined, copies(station, page));
      await commands.takeCopies();
      expect(commands.unsavedCount.current()).toBe(page === 'page-2' ? 2 : 0);
      if (page === 'page-2') await expect.poll(() => commands.copied.current()).toBe(true);
      store.close();
    }
    expect(await textsOf(station)).toEqual(['1', '2']);
    expect(cached.size + kept.size).toBe(0);
  });
});

describe('a copy', () => {
  it('goes when its entries are on disk, and is none where no place takes it', SLOW, async () => {
    const station = freshStation();
    const { cached, kept, refuses, copies } = phone();
    const { store, refuse } = await refusing(station);
    const commands = commandsOf(store, 'p', undefined, undefined, copies(station, 'page'));
    await commands.record('note', note('1'));
    await expect.poll(() => cached.size).toBe(1);
    refuse.now = false;
    expect(await commands.retry()).toBe(true);
    await expect.poll(() => cached.size).toBe(0);
    expect(commands.copied.current()).toBe(false);

    Object.assign(refuses, { cache: true, local: true });
    refuse.now = true;
    await commands.record('note', note('2'));
    expect(commands.unsavedCount.current()).toBe(1);
    expect(await copies(station, 'page').keep(['x'])).toBe(false);
    expect(commands.copied.current()).toBe(false);
    expect(kept.size).toBe(0);
    store.close();
  });

  it('of another station stays where it is', SLOW, async () => {
    const { copies } = phone();
    await copies('other', 'page').keep(['{}']);
    expect(await copies(freshStation(), 'page').read()).toEqual([]);
    expect(await copies('other', 'later').read()).toHaveLength(1);
  });
});
