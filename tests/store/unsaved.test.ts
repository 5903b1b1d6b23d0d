// The file of entries that could not be saved, brought in again: each once, as it was, at the end of this phone's log.
import { Dexie } from 'dexie';
import { describe, expect, it } from 'vitest';
import { readEvent } from '../../src/core/record/events.ts';
import { textToHash } from '../../src/store/hash.ts';
import { outboxSummary } from '../../src/store/queries.ts';
import { StationDb } from '../../src/store/schema.ts';
import { commandsOf, eventText, freshStation, look, note, openOrFail } from './helpers.ts';

const rowsOf = (db: StationDb) => db.events.orderBy('arrival').toArray();
const idsOf = (texts: string[]) => texts.map((text) => JSON.parse(text).id as string);

/** A page whose disk refuses while `state.full`. */
async function fullPage(station: string, state: { full: boolean }) {
  const store = await openOrFail(station, {
    create: (id, versions) => {
      const db = new StationDb(id, versions);
      db.use({
        stack: 'dbcore',
        name: 'full',
        level: 5,
        create: (down) => ({
          ...down,
          table: (name) => {
            const core = down.table(name);
            if (name !== 'events') return core;
            const refused = () =>
              new Dexie.AbortError('x', Object.assign(new Error('x'), { name: 'QuotaExceededError' }));
            return { ...core, mutate: (asked) => (state.full ? Promise.reject(refused()) : core.mutate(asked)) };
          },
        }),
      });
      return db;
    },
  });
  return { store, commands: commandsOf(store, 'first') };
}

async function expectChain(rows: Awaited<ReturnType<typeof rowsOf>>): Promise<void> {
  let prev: string | null = null;
  for (const [index, row] of rows.entries()) {
    expect(JSON.parse(row.text)).toMatchObject({ seq: index, prev, log: rows[0]?.log });
    prev = await textToHash(row.text);
    expect(row.hash).toBe(prev);
  }
}

describe('taking entries that were not saved', () => {
  it('gives them a new place in the log of the phone, after what it recorded since, each once', async () => {
    const station = freshStation();
    const state = { full: false };
    const dying = await fullPage(station, state);
    await dying.commands.record('note', note('kept'));
    state.full = true;
    await dying.commands.record('note', note('lost 1'), { audit: 'a1' });
    await dying.commands.record('note', note('lost 2'));
    const texts = dying.commands.unsaved();
    dying.store.close();

    const store = await openOrFail(station);
    const commands = commandsOf(store, 'second');
    await commands.record('note', note('since'));
    const heard: string[] = [];
    commands.onElsewhere((given) => heard.push(...given));
    const file = `${texts.join('\r\n')}\n`.split('\n');
    expect(await commands.takeUnsaved(file)).toEqual({
      type: 'done',
      value: { added: 2, known: 0, waiting: 0, foreign: 0, newer: 0, unreadable: 0 },
    });
    const rows = await look(store, rowsOf);
    await expectChain(rows);
    expect(rows.map((row) => JSON.parse(row.text).payload.text)).toEqual(['kept', 'since', 'lost 1', 'lost 2']);
    for (const [index, text] of texts.entries()) {
      const { id, audit, author, at, zone, kind, payload } = JSON.parse(text);
      const row = rows[index + 2];
      expect(JSON.parse(row.text)).toMatchObject({ id, author, at, zone, kind, payload });
      expect(JSON.parse(row.text).audit).toBe(audit);
      expect(row).toMatchObject({ id, at, origin: 'own' });
    }
    expect(idsOf(heard)).toEqual(idsOf(texts));
    expect(await look(store, outboxSummary)).toMatchObject({ notes: 4 });

    expect(await commands.takeUnsaved([...texts, ...texts])).toMatchObject({ value: { added: 0, known: 4 } });
    expect(await look(store, rowsOf)).toEqual(rows);
    await commands.record('note', note('after'));
    await expectChain(await look(store, rowsOf));
  });

  it('writes one once that still waits in memory, when the file is given to the page that made it', async () => {
    const state = { full: true };
    const { store, commands } = await fullPage(freshStation(), state);
    await commands.record('note', note('waits'));
    const texts = commands.unsaved();
    state.full = false;
    expect(await commands.takeUnsaved(texts)).toMatchObject({ value: { added: 1 } });
    expect(commands.unsavedCount.current()).toBe(0);
    expect(await look(store, (db) => db.events.count())).toBe(1);
  });

  it('keeps them in memory and in view while the disk refuses', async () => {
    const station = freshStation();
    const state = { full: true };
    const { store, commands } = await fullPage(station, state);
    const text = eventText(station, 'far-1', 'far', 3);
    expect(await commands.takeUnsaved([text])).toMatchObject({ value: { added: 0, waiting: 1 } });
    expect(commands.unsavedCount.current()).toBe(1);
    state.full = false;
    expect(await commands.retry()).toBe(true);
    await expectChain(await look(store, rowsOf));
  });

  it('is not stopped by another tab that brings in the same file', async () => {
    const station = freshStation();
    const pages = [commandsOf(await openOrFail(station), 'a'), commandsOf(await openOrFail(station), 'b')];
    const texts = Array.from({ length: 30 }, (_, n) => eventText(station, `e${n}`, 'gone', n));
    const took = await Promise.all(pages.map((commands) => commands.takeUnsaved(texts)));
    expect(took.every(({ type }) => type === 'done')).toBe(true);
    const store = await openOrFail(station);
    const rows = await look(store, rowsOf);
    expect(rows.map(({ id }) => id).sort()).toEqual(idsOf(texts).sort());
    await expectChain(rows);
  });

  it('counts and leaves out whatever is no entry of this station', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    const good = eventText(station, 'good', 'gone', 0);
    const hostile = [
      '',
      '   ',
      '{not json',
      '[]',
      '{"v":1}',
      `"${'x'.repeat(70_000)}"`,
      eventText('elsewhere', 'other', 'gone', 0),
      eventText(station, 'new', 'gone', 0).replace('"v":1', '"v":9'),
      eventText(station, 'kind', 'gone', 0).replace('"note"', '"never-heard-of"'),
      eventText(station, '../../x', 'gone', 0),
      good.replace('"good"', '"audit","audit":"<a>"'),
      eventText(station, 'huge', 'gone', 0, 'y'.repeat(65_400)),
      good,
      good.replace('"x"', '"another text under its id"'),
    ];
    expect(await commands.takeUnsaved(hostile)).toEqual({
      type: 'done',
      value: { added: 1, known: 1, waiting: 0, foreign: 1, newer: 2, unreadable: 7 },
    });
    const rows = await look(store, rowsOf);
    expect(rows.map(({ id }) => id)).toEqual(['good']);
    expect(readEvent(rows[0].text).type).toBe('event');
  });
});
