// A browser whose storage process died: the page's own way to its databases stays dead, another one is alive.
import { Dexie } from 'dexie';
import { describe, expect, it } from 'vitest';
import type { OpenOptions } from '../../src/store/database.ts';
import { createDirectory } from '../../src/store/directory.ts';
import { createFactory, type IdbFactory, type IdbSource } from '../../src/store/factory.ts';
import { StationDb } from '../../src/store/schema.ts';
import { commandsOf, freshStation, look, note, openOrFail } from './helpers.ts';

type Dying = IdbFactory & { die: () => void; asked: number };

/** Each renewal gives a source of its own over the same databases; opening with a dead one fails as WebKit's does. */
function dying(): Dying {
  const dead = new Set<IDBFactory>();
  const born = (): IdbSource => {
    const own: IDBFactory = Object.create(indexedDB, {
      open: {
        value: (...given: Parameters<IDBFactory['open']>) => {
          if (dead.has(own)) throw new DOMException('Connection to Indexed Database server lost', 'UnknownError');
          return indexedDB.open(...given);
        },
      },
    });
    return { indexedDB: own, IDBKeyRange };
  };
  let now = born();
  const factory = {
    asked: 0,
    current: () => now,
    renew: (failed: IdbSource | undefined) => {
      factory.asked++;
      if (failed === now) now = born();
      return true;
    },
    die: () => void dead.add(now.indexedDB),
  };
  return factory;
}

function withLast(): { made: StationDb[]; create: NonNullable<OpenOptions['create']> } {
  const made: StationDb[] = [];
  return {
    made,
    create: (...given) => {
      const db = new StationDb(...given);
      made.push(db);
      return db;
    },
  };
}

describe('a dead factory', () => {
  it('is taken for another one, again and again, and every entry is on disk', async () => {
    const factory = dying();
    const { made, create } = withLast();
    const store = await openOrFail(freshStation(), { factory, create });
    const commands = commandsOf(store);
    for (const text of ['1', '2', '3']) {
      expect((await commands.record('note', note(text))).type).toBe('saved');
      factory.die();
      made.at(-1)?.close();
    }
    const rows = await look(store, (db) => db.events.orderBy('arrival').toArray());
    expect(rows.map((row) => JSON.parse(row.text).payload.text)).toEqual(['1', '2', '3']);
    expect(commands.unsavedCount.current()).toBe(0);
  });

  it('is left alone while opening again is enough', async () => {
    const factory = dying();
    const { made, create } = withLast();
    const store = await openOrFail(freshStation(), { factory, create });
    made[0].close();
    expect(await look(store, (db) => db.events.count())).toBe(0);
    expect(factory.asked).toBe(0);
  });

  it('is taken for another one when it opens and is dead all the same', async () => {
    const factory = dying();
    const first = factory.current();
    let broken = false;
    const store = await openOrFail(freshStation(), {
      factory,
      create: (station, versions, source) => {
        const db = new StationDb(station, versions, source);
        db.use({
          stack: 'dbcore',
          name: 'broken',
          level: 5,
          create: (down) => ({
            ...down,
            transaction: (...asked) => {
              if (broken && source === first) throw new Dexie.UnknownError('Connection to server lost');
              return down.transaction(...asked);
            },
          }),
        });
        return db;
      },
    });
    broken = true;
    expect((await commandsOf(store).record('note', note('1'))).type).toBe('saved');
  });

  it('costs the list of stations nothing either', async () => {
    const factory = dying();
    const directory = createDirectory(factory);
    const entry = { id: freshStation(), name: 'Fennigmoor', openedAt: 1 };
    expect((await directory.openedStation(entry)).type).toBe('done');
    factory.die();
    directory.close();
    const listed = await directory.stations();
    expect(listed.type === 'done' && listed.value.map(({ id }) => id)).toContain(entry.id);
    directory.close();
  });

  it('stays where there is no page to open another one in', () => {
    const factory = createFactory(undefined);
    expect(factory.current()).toBe(undefined);
    expect(factory.renew(undefined)).toBe(false);
  });
});
