// The connection: lost and opened anew, taken over by a newer schema, upgraded with data in it.
import { Dexie } from 'dexie';
import { describe, expect, it } from 'vitest';
import { openStation, type StoreTrouble } from '../../src/store/database.ts';
import { errorToFailure } from '../../src/store/failures.ts';
import { observe, outboxSummary } from '../../src/store/queries.ts';
import { type SchemaVersion, StationDb, stationToDatabase, VERSIONS } from '../../src/store/schema.ts';
import { commandsOf, draftsOf, freshStation, look, note, openOrFail, SLOW } from './helpers.ts';

/** Invented: a later schema that indexes events by audit. */
const LATER: SchemaVersion = {
  version: Math.max(...VERSIONS.map(({ version }) => version)) + 1,
  stores: { events: '++arrival, &id, [log+seq], audit' },
  upgrade: async (tx) => void (await tx.table('meta').put({ key: 'upgraded', value: true })),
};

describe('a lost connection', () => {
  it('is opened anew and the operation run once more when it was closed under the app', async () => {
    const made: StationDb[] = [];
    const store = await openOrFail(freshStation(), {
      create: (station, versions) => {
        const db = new StationDb(station, versions);
        made.push(db);
        return db;
      },
    });
    const troubles: StoreTrouble[] = [];
    store.onTrouble((trouble) => troubles.push(trouble));
    const commands = commandsOf(store);
    await commands.record('note', note('before'));
    made[0].close();
    expect((await commands.record('note', note('after'))).type).toBe('saved');
    expect(made).toHaveLength(2);
    expect(troubles).toEqual([{ type: 'reopened' }]);
    expect(await look(store, (db) => db.events.count())).toBe(2);
    expect(commands.unsavedCount.current()).toBe(0);
  });

  it('is opened once for many operations that find it dead', async () => {
    let made = 0;
    const dbs: StationDb[] = [];
    const store = await openOrFail(freshStation(), {
      create: (station, versions) => {
        made++;
        const db = new StationDb(station, versions);
        dbs.push(db);
        return db;
      },
    });
    dbs[0].close();
    const counts = await Promise.all([1, 2, 3, 4].map(() => store.run((db) => db.events.count())));
    expect(counts).toEqual([1, 2, 3, 4].map(() => ({ type: 'done', value: 0 })));
    expect(made).toBe(2);
  });

  it('survives when the browser closes the connection below Dexie', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    await commands.record('note', note('before'));
    await look(store, async (db) => db.backendDB().close());
    expect((await commands.record('note', note('after'))).type).toBe('saved');
    expect(await look(store, (db) => db.events.count())).toBe(2);
  });

  it('is data, not an exception, when the second try fails too; the sighting stays in memory', async () => {
    let broken = false;
    const store = await openOrFail(freshStation(), {
      create: (station, versions) => {
        const db = new StationDb(station, versions);
        db.use({
          stack: 'dbcore',
          name: 'broken',
          level: 5,
          create: (down) => ({
            ...down,
            transaction: (...asked) => {
              if (broken) throw new Dexie.UnknownError('Connection to Indexed Database server lost');
              return down.transaction(...asked);
            },
          }),
        });
        return db;
      },
    });
    const commands = commandsOf(store);
    await commands.record('note', note('1'));
    broken = true;
    expect(await commands.record('note', note('2'))).toMatchObject({ type: 'not-saved', why: { type: 'store-lost' } });
    expect(await store.run((db) => db.events.count())).toMatchObject({ type: 'store-lost' });
    expect(commands.unsavedCount.current()).toBe(1);
    broken = false;
    expect(await commands.retry()).toBe(true);
    const texts = await look(store, (db) => db.events.orderBy('arrival').toArray());
    expect(texts.map((row) => JSON.parse(row.text).payload.text)).toEqual(['1', '2']);
  });

  it('lets a bug pass as an exception', async () => {
    const store = await openOrFail(freshStation());
    await expect(store.run(() => Promise.reject(new TypeError('bug')))).rejects.toThrow('bug');
  });

  it('is followed by what watches a query', async () => {
    const dbs: StationDb[] = [];
    const store = await openOrFail(freshStation(), {
      create: (station, versions) => {
        const db = new StationDb(station, versions);
        dbs.push(db);
        return db;
      },
    });
    const commands = commandsOf(store);
    const notes: number[] = [];
    const stop = observe(store, outboxSummary).subscribe(
      (summary) => notes.push(summary.notes),
      (failure) => expect.unreachable(failure.type),
    );
    await commands.record('note', note('1'));
    await expect.poll(() => notes.at(-1), SLOW).toBe(1);
    dbs[0].close();
    await commands.record('note', note('2'));
    await expect.poll(() => notes.at(-1), SLOW).toBe(2);
    stop();
    const seen = notes.length;
    await commands.record('note', note('3'));
    expect(notes).toHaveLength(seen);
  });
});

describe('errorToFailure', () => {
  const named = (name: string, inner?: unknown) => Object.assign(new Error(name), { name, inner });

  it('finds a full disk inside an aborted transaction and inside a bulk failure', () => {
    expect(errorToFailure(named('AbortError', named('QuotaExceededError')))).toEqual({ type: 'full' });
    const bulk = Object.assign(named('BulkError'), { failures: [named('QuotaExceededError')] });
    expect(errorToFailure(bulk)).toEqual({ type: 'full' });
  });

  it('takes a connection that is gone as lost, and a broken rule as a bug', () => {
    for (const name of ['UnknownError', 'DatabaseClosedError', 'InvalidStateError']) {
      expect(errorToFailure(named(name))).toMatchObject({ type: 'store-lost' });
    }
    expect(errorToFailure(named('ConstraintError'))).toBeNull();
    expect(errorToFailure('text')).toBeNull();
  });
});

describe('a newer schema', () => {
  it('takes over a database of an earlier version with its data, and the record still goes on', async () => {
    const station = freshStation();
    const old = await openOrFail(station);
    const before = commandsOf(old, 'old');
    await before.record('note', note('1'), { audit: 'a' });
    await draftsOf(old).save('walk', { place: 'P03' }, 1);
    await before.storeDocument(new Uint8Array([1, 2, 3]), 'application/json');
    old.close();
    const store = await openOrFail(station, { versions: [...VERSIONS, LATER] });
    await commandsOf(store, 'new').record('note', note('2'), { audit: 'a' });
    const rows = await look(store, (db) => db.events.where('audit').equals('a').toArray());
    expect(rows.map((row) => [row.seq, JSON.parse(row.text).prev])).toEqual([
      [0, null],
      [1, rows[0].hash],
    ]);
    expect((await look(store, (db) => db.drafts.get('walk')))?.value).toEqual({ place: 'P03' });
    expect(await look(store, (db) => db.meta.get('upgraded'))).toEqual({ key: 'upgraded', value: true });
    expect(await look(store, (db) => db.documents.count())).toBe(1);
  });

  it('gets the database from an older tab, which says so and keeps what it can no longer write', async () => {
    const station = freshStation();
    const old = await openOrFail(station);
    const commands = commandsOf(old, 'old');
    await commands.record('note', note('1'));
    const troubles: string[] = [];
    old.onTrouble((trouble) => troubles.push(trouble.type));
    let flushed = 0;
    old.beforeClose(async () => {
      flushed++;
      await draftsOf(old).save('walk', 'last words', 1);
    });
    const store = await openOrFail(station, { versions: [...VERSIONS, LATER] });
    expect(troubles).toEqual(['newer-version']);
    expect(flushed).toBe(1);
    expect((await look(store, (db) => db.drafts.get('walk')))?.value).toBe('last words');
    expect(await commands.record('note', note('2'))).toMatchObject({
      type: 'not-saved',
      why: { type: 'newer-version' },
    });
    expect(commands.unsavedCount.current()).toBe(1);
    expect(await look(store, (db) => db.events.count())).toBe(1);
  });

  it('is not opened by an older build', async () => {
    const station = freshStation();
    (await openOrFail(station, { versions: [...VERSIONS, LATER] })).close();
    expect(await openStation({ station })).toEqual({ type: 'newer-version' });
    expect(await Dexie.exists(stationToDatabase(station))).toBe(true);
  });
});
