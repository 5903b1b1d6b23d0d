// The phone's own chain: add-only, unbroken, together with its outbox row, and never lost for want of room.

import { Dexie } from 'dexie';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readEvent } from '../../src/core/record/events.ts';
import { textToHash } from '../../src/store/hash.ts';
import { createPageLocks } from '../../src/store/locks.ts';
import { outboxSummary } from '../../src/store/queries.ts';
import type { RecordResult } from '../../src/store/record/ownRows.ts';
import { StationDb } from '../../src/store/schema.ts';
import { commandsOf, freshStation, handTimers, look, note, openOrFail, SLOW } from './helpers.ts';

const rowsOf = (db: StationDb) => db.events.orderBy('arrival').toArray();

/** A database whose writes to one table fail with a given error while `failing.with` is set. */
function faultyDb(table: string, failing: { with: (() => Error) | null }) {
  return (station: string, versions: ConstructorParameters<typeof StationDb>[1]): StationDb => {
    const db = new StationDb(station, versions);
    db.use({
      stack: 'dbcore',
      name: 'faulty',
      level: 5,
      create: (down) => ({
        ...down,
        table: (name) => {
          const core = down.table(name);
          if (name !== table) return core;
          return {
            ...core,
            mutate: (request) => (failing.with ? Promise.reject(failing.with()) : core.mutate(request)),
          };
        },
      }),
    });
    return db;
  };
}

const quota = (): Error =>
  new Dexie.AbortError('aborted', Object.assign(new Error('full'), { name: 'QuotaExceededError' }));

async function expectChain(rows: Awaited<ReturnType<typeof rowsOf>>): Promise<void> {
  let prev: string | null = null;
  for (const [index, row] of rows.entries()) {
    const read = readEvent(row.text);
    if (read.type !== 'event') throw new Error(`not an event: ${row.text}`);
    expect(read.event.seq).toBe(index);
    expect(read.event.prev).toBe(prev);
    expect(row.hash).toBe(await textToHash(row.text));
    prev = row.hash;
  }
}

describe('the add-only guard', () => {
  it('refuses to put, update, modify, delete and clear an event, and leaves it as it was', async () => {
    const store = await openOrFail(freshStation());
    const saved = await commandsOf(store).record('note', note('first'));
    expect(saved.type).toBe('saved');
    const before = await look(store, rowsOf);
    const [row] = before;
    const tries: ((db: StationDb) => PromiseLike<unknown>)[] = [
      (db) => db.events.put({ ...row, text: 'other' }),
      (db) => db.events.bulkPut([{ ...row, text: 'other' }]),
      (db) => db.events.update(row.arrival, { text: 'other' }),
      (db) => db.events.toCollection().modify({ text: 'other' }),
      (db) => db.events.delete(row.arrival),
      (db) => db.events.bulkDelete([row.arrival]),
      (db) => db.events.toCollection().delete(),
      (db) => db.events.clear(),
    ];
    for (const attempt of tries) await expect(store.run(attempt)).rejects.toThrow(/add-only/);
    expect(await look(store, rowsOf)).toEqual(before);
  });
});

describe('record', () => {
  it('stores the event and its outbox row together, with the hash of the text', async () => {
    const store = await openOrFail(freshStation());
    const saved = await commandsOf(store).record('note', note('rack 2 is warm'), { audit: 'a1' });
    if (saved.type !== 'saved') throw new Error(saved.type);
    const rows = await look(store, rowsOf);
    expect(rows.map(({ id, text, origin, seq, audit }) => ({ id, text, origin, seq, audit }))).toEqual([
      { id: saved.id, text: saved.text, origin: 'own', seq: 0, audit: 'a1' },
    ]);
    const outbox = await look(store, (db) => db.outbox.toArray());
    expect(outbox).toMatchObject([{ id: saved.id, kind: 'event', state: 'queued', order: rows[0].arrival }]);
    await expectChain(rows);
  });

  it('leaves no event behind when its outbox row cannot be written', async () => {
    const failing = { with: null as (() => Error) | null };
    const store = await openOrFail(freshStation(), { create: faultyDb('outbox', failing) });
    const commands = commandsOf(store);
    failing.with = quota;
    const result = await commands.record('note', note('x'));
    expect(result).toMatchObject({ type: 'not-saved', why: { type: 'full' } });
    failing.with = null;
    expect(await look(store, rowsOf)).toEqual([]);
  });

  it('leaves no outbox row behind when the event cannot be written', async () => {
    const failing = { with: null as (() => Error) | null };
    const store = await openOrFail(freshStation(), { create: faultyDb('events', failing) });
    failing.with = quota;
    expect((await commandsOf(store).record('note', note('x'))).type).toBe('not-saved');
    failing.with = null;
    expect(await look(store, (db) => db.outbox.count())).toBe(0);
    expect(await look(store, outboxSummary)).toMatchObject({ notes: 0, bytes: 0 });
  });

  it('says that a text is too long instead of making an event no reader takes', async () => {
    const store = await openOrFail(freshStation());
    const result = await commandsOf(store).record('note', note('ä'.repeat(70_000)));
    expect(result).toMatchObject({ type: 'too-long', limit: 65_536 });
    expect(await look(store, (db) => db.events.count())).toBe(0);
  });

  it('keeps what the disk refuses in memory, says how many, and stores them later in order', async () => {
    const failing = { with: null as (() => Error) | null };
    const store = await openOrFail(freshStation(), { create: faultyDb('events', failing) });
    const commands = commandsOf(store);
    const counts: number[] = [];
    commands.unsavedCount.subscribe((count) => counts.push(count));
    const restored: string[] = [];
    commands.onElsewhere((texts) => restored.push(...texts));

    await commands.record('note', note('0'));
    failing.with = quota;
    const first = await commands.record('note', note('1'));
    const second = await commands.record('note', note('2'));
    expect([first.type, second.type]).toEqual(['not-saved', 'not-saved']);
    expect(commands.unsavedCount.current()).toBe(2);
    expect(commands.unsaved()).toHaveLength(2);
    expect(await commands.retry()).toBe(false);

    failing.with = null;
    const third = await commands.record('note', note('3'));
    expect(third.type).toBe('saved');
    expect(commands.unsavedCount.current()).toBe(0);
    expect(counts).toEqual([0, 1, 2, 0]);
    const rows = await look(store, rowsOf);
    expect(rows.map((row) => JSON.parse(row.text).payload.text)).toEqual(['0', '1', '2', '3']);
    await expectChain(rows);
    // Nobody wrote in between, so the texts that the screens were given are the ones on disk.
    expect([first, second].map((one) => ('text' in one ? one.text : ''))).toEqual([rows[1].text, rows[2].text]);
    expect(restored).toEqual([rows[1].text, rows[2].text]);
  });

  it('gives up small pictures of acknowledged photos before it reports a full disk', async () => {
    const failing = { with: null as (() => Error) | null };
    const store = await openOrFail(freshStation(), { create: faultyDb('events', failing) });
    const commands = commandsOf(store);
    const photo = { mime: 'image/jpeg', width: 4, height: 3, thumb: { bytes: new ArrayBuffer(4), mime: 'image/jpeg' } };
    const waiting = await commands.addPhoto({ ...photo, bytes: new Uint8Array([1]) });
    const sent = await commands.addPhoto({ ...photo, bytes: new Uint8Array([2]) });
    if (waiting.type !== 'saved' || sent.type !== 'saved') throw new Error('photos not saved');
    await look(store, (db) => db.outbox.delete(`document:${sent.sha}`));
    let tries = 0;
    failing.with = () => {
      // The first try is refused; there is room once the small picture is gone.
      if (++tries === 1) failing.with = null;
      return quota();
    };
    expect((await commands.record('note', note('after'))).type).toBe('saved');
    expect(await look(store, (db) => db.thumbs.toCollection().primaryKeys())).toEqual([waiting.sha]);
    expect(await look(store, (db) => db.documents.count())).toBe(2);
  });

  it('counts a write that never answers as not saved until it does', async () => {
    const timers = handTimers();
    const store = await openOrFail(freshStation());
    let release: () => void = () => {};
    const held = new Promise<void>((resolve) => {
      release = resolve;
    });
    const commands = commandsOf(store, 'p', async (_name, work) => held.then(work), timers);
    const result = commands.record('note', note('x'));
    await Promise.resolve();
    expect(commands.unsavedCount.current()).toBe(0);
    timers.fire();
    expect(commands.unsavedCount.current()).toBe(1);
    release();
    expect((await result).type).toBe('saved');
    expect(commands.unsavedCount.current()).toBe(0);
  });

  it('is not kept from the disk by a lock that nobody gives', async () => {
    const timers = handTimers();
    const store = await openOrFail(freshStation());
    const commands = commandsOf(store, 'p', () => new Promise(() => {}), timers);
    const result = commands.record('note', note('x'));
    await expect.poll(() => commands.unsaved().length).toBe(1);
    timers.fire();
    expect((await result).type).toBe('saved');
    await expectChain(await look(store, rowsOf));
  });

  it('tries once more on a fresh connection when a write is never answered, and writes nothing twice', async () => {
    for (const comesThrough of [false, true]) {
      const timers = handTimers();
      const opened = await openOrFail(freshStation());
      let hangs = true;
      let late: PromiseLike<unknown> = Promise.resolve();
      // The answer of the first write is lost; with `comesThrough` the database took it all the same.
      const store: typeof opened = {
        ...opened,
        run: (operation) => {
          if (!hangs) return opened.run(operation);
          if (comesThrough) late = opened.run(operation);
          return new Promise(() => {});
        },
        renew: () => {
          hangs = false;
          opened.renew();
        },
      };
      const commands = commandsOf(store, 'p', createPageLocks(), timers);
      const result = commands.record('note', note('x'));
      await Promise.resolve();
      timers.fire();
      await expect
        .poll(() => {
          timers.fire();
          return hangs;
        })
        .toBe(false);
      expect((await result).type).toBe('saved');
      await late;
      const next = await commands.record('note', note('y'));
      expect(next.type).toBe('saved');
      const rows = await look(store, rowsOf);
      expect(rows.map((row) => JSON.parse(row.text).payload.text)).toEqual(['x', 'y']);
      await expectChain(rows);
      expect(commands.unsavedCount.current()).toBe(0);
    }
  });

  it('says not saved when nothing ever answers, and each further try is a new one', async () => {
    const timers = handTimers();
    const opened = await openOrFail(freshStation());
    let answers = false;
    const store: typeof opened = {
      ...opened,
      run: (operation) => (answers ? opened.run(operation) : new Promise(() => {})),
    };
    const commands = commandsOf(store, 'p', createPageLocks(), timers);
    const result = commands.record('note', note('x'));
    let done = false;
    void result.then(() => {
      done = true;
    });
    await expect
      .poll(() => {
        timers.fire();
        return done;
      })
      .toBe(true);
    expect(await result).toMatchObject({ type: 'not-saved', why: { type: 'store-lost' } });
    expect(commands.unsavedCount.current()).toBe(1);
    answers = true;
    expect(await commands.retry()).toBe(true);
    expect(commands.unsavedCount.current()).toBe(0);
  });

  it('keeps a sighting in view even when a bug of ours stops the write', async () => {
    const failing = { with: null as (() => Error) | null };
    const store = await openOrFail(freshStation(), { create: faultyDb('events', failing) });
    let bug: unknown = null;
    const commands = commandsOf(store, 'p', async (_name, work) => {
      try {
        return await work();
      } catch (error) {
        bug = error;
        return undefined as never;
      }
    });
    failing.with = () => new Error('a bug');
    const result = await commands.record('note', note('kept'));
    expect(result).toMatchObject({ type: 'not-saved', text: expect.stringContaining('kept') });
    await expect.poll(() => String(bug), SLOW).toContain('a bug');
    expect(commands.unsavedCount.current()).toBe(1);
  });
});

describe('two pages on one database', () => {
  for (const kind of ['a shared lock', 'no lock between them'] as const) {
    it(`make one unbroken chain with ${kind}`, async () => {
      await fc.assert(
        fc.asyncProperty(fc.array(fc.boolean(), { minLength: 1, maxLength: 24 }), async (order) => {
          const station = freshStation();
          const shared = createPageLocks();
          const lock = () => (kind === 'a shared lock' ? shared : createPageLocks());
          const stores = [await openOrFail(station), await openOrFail(station)];
          const pages = stores.map((store, index) => commandsOf(store, `page${index}`, lock()));
          // Each page writes one after the other, so that the two meet at the head again and again.
          const walk = async (left: boolean): Promise<RecordResult[]> => {
            const results: RecordResult[] = [];
            for (const [n, mine] of order.entries()) {
              if (mine === left) results.push(await pages[left ? 0 : 1].record('note', note(String(n))));
            }
            return results;
          };
          const results = (await Promise.all([walk(true), walk(false)])).flat();
          expect(results.every((result) => result.type === 'saved')).toBe(true);
          const rows = await look(stores[0], rowsOf);
          expect(rows).toHaveLength(order.length);
          expect(new Set(rows.map((row) => row.log)).size).toBe(1);
          await expectChain(rows);
          const stored = new Set(rows.map((row) => row.text));
          expect(results.every((result) => result.type === 'saved' && stored.has(result.text))).toBe(true);
          for (const page of pages) page.close();
          for (const store of stores) store.close();
        }),
        { numRuns: 12 },
      );
    });
  }
});
