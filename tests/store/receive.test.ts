// Events made elsewhere: a set that only grows, whatever the order; contradictions are kept and named.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { textToHash } from '../../src/store/hash.ts';
import { forks, outboxSummary, readEvents } from '../../src/store/queries.ts';
import type { StationDb } from '../../src/store/schema.ts';
import { commandsOf, eventText, freshStation, logTexts, look, note, openOrFail, SLOW } from './helpers.ts';

const textsOf = async (db: StationDb) => (await db.events.orderBy('arrival').toArray()).map((row) => row.text);

describe('receive', () => {
  it('gives the same set for every order, cut and repetition', async () => {
    const station = 'shared';
    const logs = await Promise.all(['log0', 'log1', 'log2'].map((log) => logTexts(station, log, 4)));
    const all = logs.flat();
    const prev = await textToHash(logs[1][0]);
    // Two texts under one id, and two ids under one number of a log.
    const odd = [eventText(station, 'log0-0', 'log0', 0, 'other'), eventText(station, 'twin', 'log1', 1, 'x', prev)];
    const pool = [...all, ...odd];
    await fc.assert(
      fc.asyncProperty(
        fc.shuffledSubarray(pool, { minLength: pool.length }),
        fc.array(fc.constantFrom(...pool), { maxLength: 20 }),
        fc.integer({ min: 1, max: 9 }),
        async (shuffled, again, cut) => {
          const store = await openOrFail(`${station}`, {});
          await look(store, (db) => db.delete({ disableAutoOpen: false }).then(() => db.open()));
          const commands = commandsOf(store);
          const sent = [...shuffled, ...again];
          for (let at = 0; at < sent.length; at += cut) {
            const took = await commands.receive(sent.slice(at, at + cut), 'pulled', `${at + 1}-0123456789abcdef`);
            expect(took.type).toBe('done');
          }
          const events = await look(store, textsOf);
          const named = await look(store, forks);
          const aside = named.filter((row) => row.why === 'same-id-other-text').map((row) => row.text);
          expect([...events, ...aside].sort()).toEqual([...pool].sort());
          expect(named.filter((row) => row.why === 'same-number')).toHaveLength(1);
          commands.close();
          store.close();
        },
      ),
      { numRuns: 20 },
    );
  });

  it('keeps the first text of an id, and the other one beside it with its name', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    const saved = await commands.record('note', note('mine'));
    if (saved.type !== 'saved') throw new Error(saved.type);
    const other = eventText(station, saved.id, 'far', 0, 'not mine');
    const took = await commands.receive([other, saved.text, other], 'pulled', '7-0123456789abcdef');
    expect(took).toMatchObject({ type: 'done', value: { added: 0, known: 2, forks: 1 } });
    expect(await look(store, textsOf)).toEqual([saved.text]);
    expect(await look(store, forks)).toMatchObject([
      { id: saved.id, log: 'far', text: other, why: 'same-id-other-text', against: saved.id },
    ]);
    expect(await look(store, (db) => db.meta.get('cursor'))).toMatchObject({ value: '7-0123456789abcdef' });
  });

  it('names an event of its own log that it never wrote, takes it, and goes on after its own', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    const saved = await commands.record('note', note('mine'));
    if (saved.type !== 'saved') throw new Error(saved.type);
    const { log } = JSON.parse(saved.text);
    const hash = await textToHash(saved.text);
    const copy = eventText(station, 'from-a-copy', log, 1, 'x', hash);
    await commands.receive([copy], 'pulled', '1-0123456789abcdef');
    expect(await look(store, textsOf)).toEqual([saved.text, copy]);
    expect(await look(store, forks)).toMatchObject([{ id: 'from-a-copy', why: 'own-log' }]);
    const next = await commands.record('note', note('later'));
    if (next.type !== 'saved') throw new Error(next.type);
    expect(JSON.parse(next.text)).toMatchObject({ seq: 1, prev: hash });
  });

  it('keeps unreadable and newer texts, and leaves events of another station out', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const newer = eventText(station, 'n1', 'far', 0).replace('"v":1', '"v":9');
    const took = await commandsOf(store).receive(['{not json', newer, eventText('elsewhere', 'e', 'far', 0)], 'bundle');
    expect(took).toMatchObject({ type: 'done', value: { added: 2, foreign: 1 } });
    expect(await look(store, textsOf)).toEqual(['{not json', newer]);
  });

  it('queues what a bundle brought, and not what the server sent', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    const [pulled, brought] = await logTexts(station, 'far', 2);
    await commands.receive([pulled], 'pulled', '1-0123456789abcdef');
    expect(await look(store, outboxSummary)).toMatchObject({ notes: 0 });
    await commands.receive([brought, pulled], 'bundle');
    const rows = await look(store, (db) => db.outbox.toArray());
    expect(rows).toMatchObject([{ id: 'far-1', state: 'queued', what: 'note' }]);
  });

  it('leaves the cursor where it was when the texts could not be written', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    store.close();
    const took = await commandsOf(store).receive([eventText(station, 'e', 'far', 0)], 'pulled', '1-0123456789abcdef');
    expect(took.type).toBe('store-lost');
    const again = await openOrFail(station);
    expect(await look(again, (db) => db.meta.get('cursor'))).toBeUndefined();
  });
});

describe('readEvents', () => {
  it('hands out every text once, in order of arrival, in pieces', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const texts = await logTexts(station, 'far', 25);
    await commandsOf(store).receive(texts, 'bundle');
    const pieces: string[][] = [];
    for await (const read of readEvents(store, 10)) {
      if (read.type !== 'texts') throw new Error(read.type);
      pieces.push(read.texts);
    }
    expect(pieces.map((piece) => piece.length)).toEqual([10, 10, 5]);
    expect(pieces.flat()).toEqual(texts);
  });
});

describe('two pages', () => {
  it('tell each other, so that the fold of the other follows', async () => {
    const station = freshStation();
    const stores = [await openOrFail(station), await openOrFail(station)];
    const [here, there] = stores.map((store, index) => commandsOf(store, `page${index}`));
    const heard: string[] = [];
    there.onElsewhere((texts) => heard.push(...texts));
    const saved = await here.record('note', note('hello'));
    if (saved.type !== 'saved') throw new Error(saved.type);
    await expect.poll(() => heard, SLOW).toEqual([saved.text]);
    await here.receive([eventText(station, 'pulled', 'far', 0)], 'pulled', '1-0123456789abcdef');
    await expect.poll(() => heard.length, SLOW).toBe(2);
    here.close();
    there.close();
  });

  it('are caught up by hand when the message was lost', async () => {
    const station = freshStation();
    const stores = [await openOrFail(station), await openOrFail(station)];
    const [here, there] = stores.map((store, index) => commandsOf(store, `page${index}`));
    const heard: string[] = [];
    there.onElsewhere((texts) => heard.push(...texts));
    there.close();
    await here.record('note', note('unheard'));
    await there.catchUp();
    expect(heard).toHaveLength(1);
    here.close();
  });
});
