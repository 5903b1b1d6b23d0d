// What is kept beside the record, over a database: read by a reader that may refuse it, put aside and never lost. The
// readers are doubles; the app's own stand in tests/ui/drafts.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createDrafts } from '../../src/store/drafts.ts';
import { StationDb } from '../../src/store/schema.ts';
import { draftsOf, freshStation, look, openOrFail } from './helpers.ts';

const text = (value: unknown, version: number) => (typeof value === 'string' && version < 2 ? value : null);

describe('a draft', () => {
  it('is read with the version it was kept with; one of before there were versions is of version 0', async () => {
    const store = await openOrFail(freshStation());
    const drafts = draftsOf(store);
    const seen: [unknown, number][] = [];
    const note = (value: unknown, version: number) => {
      seen.push([value, version]);
      return value;
    };
    await look(store, (db) => db.drafts.put({ key: 'old', value: 'a', at: 1 }));
    await drafts.save('new', 'b', 7);
    expect(await drafts.read('old', note)).toEqual({ type: 'fits', value: 'a' });
    expect(await drafts.read('new', note)).toEqual({ type: 'fits', value: 'b' });
    expect(await drafts.read('none', note)).toEqual({ type: 'none' });
    expect(seen).toEqual([
      ['a', 0],
      ['b', 7],
    ]);
  });

  it('that does not fit is put aside as it was, once, and its place is free', async () => {
    const store = await openOrFail(freshStation());
    const drafts = draftsOf(store);
    await drafts.save('typed:a', { foreign: true }, 9);
    expect(await drafts.read('typed:a', text)).toEqual({ type: 'aside' });
    expect(await drafts.read('typed:a', text)).toEqual({ type: 'none' });
    await drafts.save('typed:a', 'anew', 1);
    await drafts.save('typed:b', 3, 1);
    await drafts.read('typed:b', text);
    const aside = await drafts.aside();
    if (aside.type !== 'done') throw new Error(aside.type);
    expect(aside.value.map(({ of, value }) => [of, value]).sort()).toEqual([
      ['typed:a', { foreign: true }],
      ['typed:b', 3],
    ]);
    const [first] = aside.value;
    await drafts.dropAside(first.key);
    expect(await drafts.aside()).toMatchObject({ value: [{ of: aside.value[1].of }] });
    expect(await drafts.read('typed:a', text)).toEqual({ type: 'fits', value: 'anew' });
  });

  it('of any value at all fits or is put aside, never throws and is never lost', async () => {
    const store = await openOrFail(freshStation());
    const drafts = draftsOf(store);
    await fc.assert(
      fc.asyncProperty(fc.jsonValue(), fc.nat(3), async (value, version) => {
        await look(store, (db) => db.drafts.clear());
        await drafts.save('typed:a', value, version);
        const read = await drafts.read('typed:a', text);
        const rows = await look(store, (db) => db.drafts.toArray());
        expect(rows.map((row) => row.value)).toEqual([value]);
        if (text(value, version) === null) expect(read).toEqual({ type: 'aside' });
        else expect(read).toEqual({ type: 'fits', value });
      }),
      { numRuns: 60 },
    );
  });
});

describe('a draft that cannot be read', () => {
  it('is told as that, and what is written over it puts it aside', async () => {
    let fails = false;
    const create = (...given: ConstructorParameters<typeof StationDb>) => {
      const db = new StationDb(...given);
      const { get } = db.drafts;
      db.drafts.get = ((...key: Parameters<typeof get>) => {
        if (fails) throw new DOMException('no room', 'QuotaExceededError');
        return get.apply(db.drafts, key);
      }) as typeof get;
      const { put } = db.drafts;
      db.drafts.put = ((...row: Parameters<typeof put>) => {
        if (fails) throw new DOMException('no room', 'QuotaExceededError');
        return put.apply(db.drafts, row);
      }) as typeof put;
      return db;
    };
    const store = await openOrFail(freshStation(), { create });
    const drafts = createDrafts(
      store,
      () => 5,
      () => 'one',
    );
    await drafts.save('note:a', 'half a no', 1);
    fails = true;
    expect(await drafts.read('note:a', text)).toEqual({ type: 'full' });
    expect(await drafts.save('note:a', 'lost?', 1)).toEqual({ type: 'full' });
    fails = false;
    await drafts.save('note:a', 'anew', 1);
    expect(await drafts.read('note:a', text)).toEqual({ type: 'fits', value: 'anew' });
    expect(await drafts.aside()).toMatchObject({ value: [{ of: 'note:a', value: 'half a no' }] });
    // Read by now, so the next one may take its place.
    await drafts.save('note:a', 'and more', 1);
    expect(await drafts.aside()).toMatchObject({ value: [{ value: 'half a no' }] });
  });

  it('is not deleted unseen either', async () => {
    const store = await openOrFail(freshStation());
    const drafts = draftsOf(store);
    await drafts.save('note:a', 'half a no', 1);
    store.close();
    expect(await drafts.read('note:a', text)).toEqual({ type: 'store-lost', message: 'closed' });
    expect(await drafts.drop('note:a')).toEqual({ type: 'store-lost', message: 'closed' });
  });
});
