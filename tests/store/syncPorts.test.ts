// The exchange's ports on a real database layer: the outbox contract, the pairing, and the running sum.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bytesToHash } from '../../src/store/hash.ts';
import { dequeue, EMPTY_SUM, enqueue, hold, outboxKey } from '../../src/store/outbox.ts';
import { outboxSummary, refusedRows } from '../../src/store/queries.ts';
import { getMeta } from '../../src/store/schema.ts';
import { createOutbox, createPairing, StoreFailed } from '../../src/store/syncPorts.ts';
import type { Outbox, Pairing } from '../../src/sync/ports.ts';
import { outboxContract } from '../contract/storeOutbox.ts';
import { commandsOf, eventText, freshStation, look, note, openOrFail } from './helpers.ts';

describe('the outbox on the database', () => {
  outboxContract(async () => {
    const station = freshStation();
    let store = await openOrFail(station);
    const commands = commandsOf(store);
    // The compiler holds our form and the exchange's together here.
    const outbox: Outbox = createOutbox(store, commands, () => 1);
    return {
      outbox,
      record: async (text) => {
        const saved = await commands.record('note', note(text));
        if (saved.type !== 'saved') throw new Error(saved.type);
        return { id: saved.id, text: saved.text };
      },
      addDocument: async (bytes) => {
        const kept = await commands.storeDocument(bytes, 'image/jpeg');
        if (kept.type !== 'stored') throw new Error(kept.type);
        return kept.sha;
      },
      want: async (sha) => void (await commands.wantDocument(sha)),
      hash: bytesToHash,
      foreignText: (id) => eventText(station, id, `log-${id}`, 0),
      restart: async () => {
        store.close();
        store = await openOrFail(station);
        return createOutbox(store, commandsOf(store), () => 2);
      },
    };
  });

  it('throws what the database refuses, so that the exchange waits and tries again', async () => {
    const store = await openOrFail(freshStation());
    const outbox = createOutbox(store, commandsOf(store), () => 1);
    store.close();
    await expect(outbox.count()).rejects.toThrow(StoreFailed);
  });

  it('shows what was refused with its reason', async () => {
    const store = await openOrFail(freshStation());
    const commands = commandsOf(store);
    const saved = await commands.record('note', note('x'));
    if (saved.type !== 'saved') throw new Error(saved.type);
    const outbox = createOutbox(store, commands, () => 1);
    await outbox.settleEvents([{ id: saved.id, answer: { type: 'refused', why: 'hostile-id', sentence: 'Bad id.' } }]);
    expect(await look(store, refusedRows)).toMatchObject([{ id: saved.id, why: 'hostile-id', sentence: 'Bad id.' }]);
  });
});

describe('the running sum of the outbox', () => {
  it('is what counting the rows would give, after any acts', async () => {
    const id = fc.constantFrom('a', 'b', 'c', 'd');
    const act = fc.record({
      act: fc.constantFrom('queue', 'drop', 'hold'),
      ids: fc.array(id, { maxLength: 4 }),
      bytes: fc.nat(9),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(act, { maxLength: 12 }), async (acts) => {
        const store = await openOrFail(freshStation());
        for (const { act, ids, bytes } of acts) {
          await look(store, (db) =>
            db.transaction('rw', [db.outbox, db.meta], async () => {
              const keys = ids.map((one) => outboxKey('event', one));
              const row = { kind: 'event' as const, what: 'note' as const, at: 0, bytes, order: 0 };
              if (act === 'queue')
                await enqueue(
                  db,
                  ids.map((one) => ({ ...row, id: one })),
                );
              else if (act === 'drop') await dequeue(db, keys);
              else for (const key of keys) await hold(db, key, 'refused', 'why', null);
            }),
          );
        }
        const rows = await look(store, (db) => db.outbox.toArray());
        const queued = rows.filter((row) => row.state === 'queued');
        expect((await look(store, (db) => getMeta(db, 'outboxSum'))) ?? EMPTY_SUM).toEqual({
          ...EMPTY_SUM,
          events: { ...EMPTY_SUM.events, note: queued.length },
          bytes: queued.reduce((sum, row) => sum + row.bytes, 0),
          refused: rows.length - queued.length,
        });
        store.close();
      }),
      { numRuns: 40 },
    );
  });

  it('counts a photo once while its picture, its event, or both wait', async () => {
    const store = await openOrFail(freshStation());
    const commands = commandsOf(store);
    const photo = await commands.addPhoto({ bytes: new Uint8Array([1, 2]), mime: 'image/jpeg', width: 2, height: 1 });
    if (photo.type !== 'saved') throw new Error(photo.type);
    expect(await look(store, outboxSummary)).toMatchObject({ photos: 1, statements: 0, notes: 0, other: 0 });
    const outbox = createOutbox(store, commands, () => 1);
    await outbox.settleDocument(photo.sha, { type: 'stored' });
    expect(await look(store, outboxSummary)).toMatchObject({ photos: 1 });
    await outbox.settleEvents([{ id: photo.id, answer: { type: 'stored', number: 1 } }]);
    expect(await look(store, outboxSummary)).toMatchObject({ photos: 0, bytes: 0 });
  });
});

describe('the pairing', () => {
  it('keeps station and history when the token is dropped, and never touches the record', async () => {
    const station = freshStation();
    const store = await openOrFail(station);
    const commands = commandsOf(store);
    await commands.record('note', note('x'));
    const pairing: Pairing = createPairing(store, () => 'Harbour Community Radio');
    expect(await pairing.credentials()).toBeNull();
    expect(await pairing.station()).toEqual({ id: station, name: 'Harbour Community Radio' });
    const credentials = { token: 't', phoneId: 'p', history: 'h1', station: { id: station, name: 'Harbour' } };
    await pairing.keep(credentials);
    expect(await pairing.credentials()).toEqual(credentials);
    await pairing.dropToken();
    expect(await pairing.credentials()).toBeNull();
    expect(await pairing.history()).toBe('h1');
    expect(await pairing.station()).toEqual(credentials.station);
    expect(await look(store, outboxSummary)).toMatchObject({ notes: 1 });
  });
});
