// What arrives of a log is taken while it continues what is here, else kept aside, named, and taken by itself later.
// Nothing that arrives says where this phone's own log goes on.
import { describe, expect, it } from 'vitest';
import type { Commands } from '../../src/store/commands.ts';
import type { StationStore } from '../../src/store/database.ts';
import { textToHash } from '../../src/store/hash.ts';
import { forks, outboxSummary } from '../../src/store/queries.ts';
import { StationDb, VERSIONS } from '../../src/store/schema.ts';
import { commandsOf, eventText, freshStation, logTexts, look, note, openOrFail } from './helpers.ts';

const CURSOR = '1-0123456789abcdef';
const idsOf = async (db: StationDb) => (await db.events.orderBy('arrival').toArray()).map(({ id }) => id);
const waiting = async (db: StationDb) => (await db.aside.toArray()).map(({ id }) => id).sort();

async function phone(): Promise<{ station: string; store: StationStore; commands: Commands }> {
  const station = freshStation();
  const store = await openOrFail(station);
  return { station, store, commands: commandsOf(store) };
}

async function recorded(commands: Commands, text: string): Promise<{ text: string; log: string; seq: number }> {
  const saved = await commands.record('note', note(text));
  if (saved.type !== 'saved') throw new Error(saved.type);
  const { log, seq } = JSON.parse(saved.text);
  return { text: saved.text, log, seq };
}

describe('the own log', () => {
  it.each(['pulled', 'bundle'] as const)('goes on after a forged entry near 2^53 that was %s', async (origin) => {
    const { station, store, commands } = await phone();
    const { text, log } = await recorded(commands, 'mine');
    for (const seq of [Number.MAX_SAFE_INTEGER, Number.MAX_SAFE_INTEGER - 1, 2 ** 53, 1e300]) {
      const forged = eventText(station, `forged-${seq}`, log, seq, 'x', 'f'.repeat(64));
      const took = await commands.receive([forged], origin, origin === 'pulled' ? CURSOR : undefined);
      expect(took).toMatchObject({ type: 'done', value: { added: seq <= Number.MAX_SAFE_INTEGER ? 0 : 1 } });
    }
    const next = await recorded(commands, 'next');
    expect(JSON.parse(next.text)).toMatchObject({ seq: 1, prev: await textToHash(text) });
    expect(await look(store, waiting)).toHaveLength(2);
  });

  it('does not follow what continues it either, and takes that too', async () => {
    const { station, store, commands } = await phone();
    const { text, log } = await recorded(commands, 'mine');
    const copy = eventText(station, 'copy', log, 1, 'x', await textToHash(text));
    const after = eventText(station, 'after', log, 2, 'x', await textToHash(copy));
    await commands.receive([after, copy], 'pulled', CURSOR);
    expect((await recorded(commands, 'next')).seq).toBe(1);
    expect(await look(store, (db) => db.events.count())).toBe(4);
    expect((await look(store, forks)).map(({ id, why }) => [id, why]).sort()).toEqual([
      ['after', 'own-log'],
      ['copy', 'own-log'],
    ]);
  });

  it('takes what was kept aside of it once this phone has written what that continues', async () => {
    const { station, store, commands } = await phone();
    const first = await recorded(commands, 'first');
    const ahead = eventText(station, 'ahead', first.log, 2, 'x', 'later');
    await commands.receive([ahead], 'pulled', CURSOR);
    const second = await recorded(commands, 'second');
    const follows = eventText(station, 'follows', first.log, 2, 'x', await textToHash(second.text));
    // As if it had come before the second one was written.
    await look(store, (db) =>
      textToHash(follows).then((hash) =>
        db.aside.add({
          ...{ id: 'follows', log: first.log, seq: 2, prev: JSON.parse(follows).prev, at: 0, kind: 'note' },
          ...{ hash, text: follows, origin: 'pulled', bytes: follows.length },
        }),
      ),
    );
    await commands.receive([], 'pulled', CURSOR);
    expect(await look(store, idsOf)).toContain('follows');
    expect(await look(store, waiting)).toEqual(['ahead']);
  });
});

describe('another log', () => {
  it('waits where an entry is missing, and is taken with its news and its outbox when that arrives', async () => {
    const { station, store, commands } = await phone();
    const texts = await logTexts(station, 'far', 6);
    const heard: string[] = [];
    commands.onElsewhere((given) => heard.push(...given.map((text) => JSON.parse(text).id)));
    const gap = [texts[0], texts[3], texts[5], texts[4]];
    const took = await commands.receive(gap, 'bundle');
    expect(took).toMatchObject({ value: { added: 1, aside: 3 } });
    expect(await look(store, idsOf)).toEqual(['far-0']);
    expect(await look(store, outboxSummary)).toMatchObject({ notes: 1 });
    expect(await commands.receive(gap, 'bundle')).toMatchObject({ value: { added: 0, known: 4, aside: 0 } });
    expect(await commands.receive([texts[2], texts[1]], 'pulled', CURSOR)).toMatchObject({ value: { added: 5 } });
    expect(await look(store, idsOf)).toEqual(['far-0', 'far-1', 'far-2', 'far-3', 'far-4', 'far-5']);
    expect(await look(store, waiting)).toEqual([]);
    expect(heard).toEqual(['far-0', 'far-1', 'far-2', 'far-3', 'far-4', 'far-5']);
    // What the server sent need not be sent to it; what a bundle brought may be nowhere else.
    expect((await look(store, (db) => db.outbox.toArray())).map(({ id }) => id).sort()).toEqual([
      'far-0',
      'far-3',
      'far-4',
      'far-5',
    ]);
  });

  it('is taken across what waited and what comes with the missing one', async () => {
    const { station, store, commands } = await phone();
    const [first, second, third, fourth] = await logTexts(station, 'far', 4);
    await commands.receive([second, fourth], 'pulled', CURSOR);
    await commands.receive([third, first], 'pulled', CURSOR);
    expect(await look(store, idsOf)).toEqual(['far-0', 'far-1', 'far-2', 'far-3']);
    expect(await look(store, waiting)).toEqual([]);
  });

  it('waits where an entry names another one before it than the one that is here', async () => {
    const { station, store, commands } = await phone();
    const texts = await logTexts(station, 'far', 2);
    const forged = eventText(station, 'forged', 'far', 2, 'x', 'e'.repeat(64));
    const onTop = eventText(station, 'on-top', 'far', 3, 'x', await textToHash(forged));
    const notFirst = eventText(station, 'not-first', 'far', 0, 'x', 'e'.repeat(64));
    const noneBefore = eventText(station, 'none-before', 'far', 1, 'x', null);
    await commands.receive([onTop, forged, ...texts, notFirst, noneBefore], 'pulled', CURSOR);
    expect(await look(store, idsOf)).toEqual(['far-0', 'far-1']);
    expect(await look(store, waiting)).toEqual(['forged', 'none-before', 'not-first', 'on-top']);
  });

  it('goes on behind each of two entries of one number, and behind an entry under an id that is here', async () => {
    const { station, store, commands } = await phone();
    const [first] = await logTexts(station, 'far', 1);
    const prev = await textToHash(first);
    const one = eventText(station, 'one', 'far', 1, 'x', prev);
    const two = eventText(station, 'two', 'far', 1, 'y', prev);
    const behindTwo = eventText(station, 'behind-two', 'far', 2, 'x', await textToHash(two));
    const namesake = eventText(station, 'one', 'far', 2, 'z', await textToHash(one));
    const behind = eventText(station, 'behind', 'far', 3, 'x', await textToHash(namesake));
    await commands.receive([behind, namesake, behindTwo, two, one, first], 'pulled', CURSOR);
    expect((await look(store, idsOf)).sort()).toEqual(['behind', 'behind-two', 'far-0', 'one', 'two']);
    expect(await look(store, waiting)).toEqual([]);
    const named = (await look(store, forks)).map(({ why }) => why).sort();
    expect(named.filter((why) => why === 'same-id-other-text')).toHaveLength(1);
    expect(named.filter((why) => why === 'same-number').length).toBeGreaterThan(0);
  });

  it('goes on behind an entry that this build cannot read, and behind one of a newer build', async () => {
    const { station, store, commands } = await phone();
    const odd = eventText(station, 'odd', 'far', 0).replace('"at":1700000000000', '"at":1e308');
    const newer = eventText(station, 'newer', 'far', 1, 'x', await textToHash(odd)).replace('"v":1', '"v":9');
    const after = eventText(station, 'after', 'far', 2, 'x', await textToHash(newer));
    await commands.receive([after, newer], 'pulled', CURSOR);
    expect(await look(store, idsOf)).toEqual([]);
    await commands.receive([odd], 'pulled', CURSOR);
    const ids = await look(store, idsOf);
    expect(ids).toEqual([`unreadable-${await textToHash(odd)}`, 'newer', 'after']);
  });

  it('continues what an earlier build took, be it unreadable or with a gap before it', async () => {
    const station = freshStation();
    const old = await openOrFail(station, { versions: VERSIONS.slice(0, 1) });
    const odd = eventText(station, 'odd', 'far', 7).replace('"zone":0', '"zone":99999');
    const hash = await textToHash(odd);
    await look(old, (db) =>
      db.events.add({ id: `unreadable-${hash}`, log: 'unreadable', seq: 0, at: 0, hash, text: odd, origin: 'pulled' }),
    );
    old.close();
    const store = await openOrFail(station);
    const after = eventText(station, 'after', 'far', 8, 'x', hash);
    await commandsOf(store).receive([after], 'pulled', CURSOR);
    expect(await look(store, idsOf)).toEqual([`unreadable-${hash}`, 'after']);
  });
});

describe('a database of the first version', () => {
  it('keeps its record, and its own log goes on where this phone wrote last', async () => {
    const station = freshStation();
    const old = await openOrFail(station, { versions: VERSIONS.slice(0, 1) });
    const { text, log } = await recorded(commandsOf(old, 'old'), 'mine');
    const forged = eventText(station, 'forged', log, Number.MAX_SAFE_INTEGER);
    const hash = await textToHash(forged);
    // As the earlier build took it in: among the events, and the head moved.
    await look(old, (db) =>
      db.transaction('rw', [db.events, db.forks, db.meta], async () => {
        const row = {
          id: 'forged',
          log,
          seq: Number.MAX_SAFE_INTEGER,
          hash,
          text: forged,
          origin: 'pulled' as const,
          at: 1,
        };
        await db.events.add(row);
        await db.forks.add({ ...row, why: 'own-log', against: 'forged' });
        await db.meta.put({ key: 'head', value: { seq: Number.MAX_SAFE_INTEGER, hash } });
      }),
    );
    old.close();
    const store = await openOrFail(station);
    const next = await recorded(commandsOf(store, 'new'), 'next');
    expect(JSON.parse(next.text)).toMatchObject({ seq: 1, prev: await textToHash(text) });
    expect(await look(store, idsOf)).toEqual([JSON.parse(text).id, 'forged', JSON.parse(next.text).id]);
    expect(await look(store, forks)).toHaveLength(1);
  });
});

/** Tells how many rows each reading of the database asked for and was given. */
function countingDb(
  station: string,
  versions: ConstructorParameters<typeof StationDb>[1],
  told: (rows: number) => void,
): StationDb {
  const db = new StationDb(station, versions);
  db.use({
    stack: 'dbcore',
    name: 'counting',
    level: 5,
    create: (down) => ({
      ...down,
      table: (name) => {
        const core = down.table(name);
        return {
          ...core,
          getMany: (asked) => {
            told(asked.keys.length);
            return core.getMany(asked);
          },
          query: (asked) =>
            core.query(asked).then((answer) => {
              told(1 + answer.result.length);
              return answer;
            }),
          openCursor: (asked) =>
            core.openCursor(asked).then((cursor) => {
              told(1);
              if (!cursor) return cursor;
              const start = cursor.start.bind(cursor);
              cursor.start = (onNext) =>
                start(() => {
                  told(1);
                  onNext();
                });
              return cursor;
            }),
        };
      },
    }),
  });
  return db;
}

describe('the cost of taking in', () => {
  it.each(['in order', 'from the end'] as const)(
    'grows with the entries, and not faster, %s',
    async (order) => {
      const rowsRead = async (count: number): Promise<number> => {
        let read = 0;
        const store = await openOrFail(freshStation(), {
          create: (station, versions) =>
            countingDb(station, versions, (rows) => {
              read += rows;
            }),
        });
        const texts = await logTexts(store.station, 'far', count);
        const sent = order === 'in order' ? texts : texts.reverse();
        const commands = commandsOf(store);
        for (let at = 0; at < count; at += 100)
          expect(await commands.receive(sent.slice(at, at + 100), 'pulled', CURSOR)).toMatchObject({ type: 'done' });
        expect(await look(store, (db) => db.events.count())).toBe(count);
        expect(await look(store, (db) => db.aside.count())).toBe(0);
        store.close();
        return read;
      };
      const [one, two, three] = [await rowsRead(400), await rowsRead(800), await rowsRead(1200)];
      // The last third costs what the second did: were it quadratic, it would cost 1.7 times as much.
      expect(three - two).toBeLessThan((two - one) * 1.3);
    },
    120_000,
  );
});
