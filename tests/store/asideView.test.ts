// What is kept aside, by log: holes and forks with their numbers, whose they are, read without the rows themselves.
import { describe, expect, it } from 'vitest';
import { textToHash } from '../../src/store/hash.ts';
import { logTroubles, presentTime, textsAside } from '../../src/store/record/asideView.ts';
import { commandsOf, eventText, freshStation, logTexts, look, note, openOrFail } from './helpers.ts';

describe('what does not fit', () => {
  it('is nothing while everything does', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    await commandsOf(store).receive(await logTexts(station, 'far', 5), 'bundle');
    expect(await look(store, logTroubles)).toEqual([]);
  });

  it('is told by log with its first holes, and goes when they are filled', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    const texts = await logTexts(station, 'far', 20);
    const forged = eventText(station, 'forged', 'far', 2 ** 53 - 1, 'x', 'f'.repeat(64));
    const fork = eventText(station, 'fork', 'far', 2, 'x', 'e'.repeat(64));
    const sent = [...texts.slice(0, 2), ...texts.slice(5, 7), texts[10], forged];
    await commands.receive([...sent, fork], 'bundle');
    expect(await look(store, logTroubles)).toEqual([
      {
        ...{ log: 'far', own: false, author: 'Ivo Rand', aside: 5, named: {} },
        runs: [
          { type: 'fork', at: 2, entries: 1 },
          { type: 'gap', from: 3, to: 4, entries: 2 },
          { type: 'gap', from: 7, to: 9, entries: 1 },
        ],
      },
    ]);
    expect((await look(store, textsAside)).sort()).toEqual([fork, forged, texts[5], texts[6], texts[10]].sort());
    await commands.receive(texts, 'bundle');
    expect(await look(store, logTroubles)).toMatchObject([
      {
        aside: 2,
        runs: [
          { type: 'fork', at: 2 },
          { type: 'gap', from: 20, to: 2 ** 53 - 2 },
        ],
      },
    ]);
  });

  it('is told first of the own log', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    const saved = await commands.record('note', note('mine'));
    if (saved.type !== 'saved') throw new Error(saved.type);
    const { log } = JSON.parse(saved.text);
    const copy = eventText(station, 'copy', log, 1, 'x', await textToHash(saved.text));
    const forged = eventText(station, 'forged', log, 9, 'x', 'f'.repeat(64));
    const [, second] = await logTexts(station, 'a-log', 2);
    await commands.receive([second, copy, forged], 'pulled', '1-0123456789abcdef');
    expect(await look(store, logTroubles)).toMatchObject([
      { log, own: true, author: 'Ivo Rand', aside: 1, named: { 'own-log': 1 } },
      { log: 'a-log', own: false, aside: 1, runs: [{ type: 'gap', from: 0, to: 0, entries: 1 }] },
    ]);
  });
});

describe('the present time', () => {
  it('is this phone’s, less what it is known to be ahead of the server', async () => {
    const store = await openOrFail(freshStation());
    expect(await look(store, (db) => presentTime(db, 1000))).toBe(1000);
    await look(store, (db) => db.meta.put({ key: 'clockAhead', value: 300 }));
    expect(await look(store, (db) => presentTime(db, 1000))).toBe(700);
  });
});
