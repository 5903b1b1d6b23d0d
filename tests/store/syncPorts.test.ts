// The exchange's ports on a real database layer: the outbox contract, the pairing, and the running sum.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bytesToHash } from '../../src/store/hash.ts';
import { document, outboxSummary } from '../../src/store/queries.ts';
import { getMeta } from '../../src/store/schema.ts';
import { StoreFailed } from '../../src/store/sending/failed.ts';
import { misnamedDocuments } from '../../src/store/sending/misnamed.ts';
import { dequeue, EMPTY_SUM, enqueue, outboxKey } from '../../src/store/sending/outbox.ts';
import { hold, putOffRows } from '../../src/store/sending/putOff.ts';
import { createOutbox, createPairing } from '../../src/store/sending/syncPorts.ts';
import { untakenTexts } from '../../src/store/sending/untaken.ts';
import { missedDocuments } from '../../src/store/sending/wanted.ts';
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
    expect(await look(store, putOffRows)).toMatchObject([{ id: saved.id, why: 'hostile-id', sentence: 'Bad id.' }]);
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
              else for (const key of keys) await hold(db, key, 'refused', 'why', null, 1);
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

describe('one that stops nothing', () => {
  const day = 86_400_000;
  async function rig(at = { now: 1000 }) {
    const store = await openOrFail(freshStation());
    const commands = commandsOf(store);
    return { store, commands, at, outbox: createOutbox(store, commands, () => at.now) };
  }
  const noted = async (commands: ReturnType<typeof commandsOf>, text: string) => {
    const saved = await commands.record('note', note(text));
    if (saved.type !== 'saved') throw new Error(saved.type);
    return saved.id;
  };

  it('is passed over for a growing time, counts as waiting, and is sent again when a person says so', async () => {
    const { store, commands, at, outbox } = await rig();
    const [a, b] = [await noted(commands, 'a'), await noted(commands, 'b')];
    const later = { type: 'later' as const, why: 'server-failed', sentence: 'Fault.' };
    await outbox.settleEvents([{ id: a, answer: later }]);
    expect((await outbox.pendingEvents(9)).map((one) => one.id)).toEqual([b]);
    expect(await outbox.count()).toMatchObject({ events: 2, refused: 0 });
    expect(await look(store, putOffRows)).toMatchObject([{ id: a, why: 'server-failed', dueAt: 11_000 }]);
    at.now = 11_000;
    expect((await outbox.pendingEvents(9)).map((one) => one.id)).toEqual([a, b]);
    await outbox.settleEvents([{ id: a, answer: later }]);
    expect(await look(store, putOffRows)).toMatchObject([{ dueAt: 31_000 }]);
    await outbox.sendAgain(`event:${a}`);
    expect((await outbox.pendingEvents(9)).map((one) => one.id)).toEqual([a, b]);
    await outbox.settleEvents([{ id: a, answer: { type: 'stored', number: 1 } }]);
    expect(await look(store, putOffRows)).toEqual([]);
    expect(await outbox.count()).toMatchObject({ events: 1 });
  });

  it('is tried again after a day when it was refused or set aside, and at once when a person says so', async () => {
    const { commands, at, outbox } = await rig();
    const [a, b] = [await noted(commands, 'a'), await noted(commands, 'b')];
    const refuse = () =>
      outbox.settleEvents([
        { id: a, answer: { type: 'refused', why: 'way', sentence: 'Too large.' } },
        { id: b, answer: { type: 'set-aside', why: 'same-id-other-text' } },
      ]);
    await refuse();
    at.now += day - 1;
    await outbox.tend();
    expect(await outbox.pendingEvents(9)).toEqual([]);
    at.now += 1;
    await outbox.tend();
    expect((await outbox.pendingEvents(9)).map((one) => one.id)).toEqual([a, b]);
    await refuse();
    await outbox.sendAgain(null);
    expect(await outbox.count()).toEqual({ events: 2, documents: 0, refused: 0 });
    // A clock that is put back must not keep it for a year.
    await refuse();
    at.now -= 365 * day;
    await outbox.tend();
    expect(await outbox.pendingEvents(9)).toHaveLength(2);
  });

  it('photos are left out while they wait for a good network, plans are not', async () => {
    const { commands, outbox } = await rig();
    await commands.storeDocument(new Uint8Array([1]), 'image/jpeg');
    const plan = await commands.storeDocument(new Uint8Array([2]), 'application/json');
    if (plan.type !== 'stored') throw new Error(plan.type);
    expect((await outbox.pendingDocuments(9, false)).map((one) => one.sha)).toEqual([plan.sha]);
    expect(await outbox.pendingDocuments(9, true)).toHaveLength(2);
  });

  it('a photo whose bytes changed on the disk is told to be damaged, and is still shown', async () => {
    const { store, commands, outbox } = await rig();
    const kept = await commands.storeDocument(new Uint8Array([1, 2, 3]), 'image/jpeg');
    if (kept.type !== 'stored') throw new Error(kept.type);
    await look(store, (db) =>
      db.transaction('rw', db.documents, async () => {
        await db.documents.put({ sha: kept.sha, n: 0, bytes: new Uint8Array([1, 2, 9]).buffer });
      }),
    );
    expect(await outbox.documentBytes(kept.sha)).toEqual({ type: 'damaged' });
    expect(await document(store, kept.sha)).toMatchObject({ value: { bytes: new Uint8Array([1, 2, 9]) } });
  });

  it('a text that makes the reader throw is kept aside and named, the rest and the cursor are taken', async () => {
    const at = { now: 1000 };
    const { store, commands } = await rig(at);
    let bug = true;
    const outbox = createOutbox(
      store,
      {
        receive: (texts, ...more) => {
          if (bug && texts.some((text) => text.includes('"id":"bad"'))) throw new RangeError('Invalid time value');
          return commands.receive(texts, ...more);
        },
      },
      () => at.now,
    );
    const station = store.station;
    const texts = ['a', 'bad', 'c'].map((id, seq) => eventText(station, id, `far-${seq}`, 0));
    await outbox.receive(texts, '3-0123456789abcdef');
    expect(await outbox.cursor()).toBe('3-0123456789abcdef');
    const ids = () => look(store, async (db) => (await db.events.toArray()).map((row) => row.id));
    expect(await ids()).toEqual(['a', 'c']);
    expect(await look(store, untakenTexts)).toMatchObject([{ text: texts[1], why: 'Invalid time value', tries: 1 }]);
    at.now += 60_000;
    await outbox.tend();
    expect(await look(store, untakenTexts)).toMatchObject([{ tries: 2 }]);
    bug = false;
    at.now += 600_000;
    await outbox.tend();
    expect(await look(store, untakenTexts)).toEqual([]);
    expect((await ids()).sort()).toEqual(['a', 'bad', 'c']);
  });

  it('a database that refuses is no fault of a text', async () => {
    const { store, commands } = await rig();
    const failing = createOutbox(store, { ...commands, receive: async () => ({ type: 'full' }) }, () => 1);
    await expect(failing.receive(['x'], '1-0123456789abcdef')).rejects.toThrow(StoreFailed);
    expect(await failing.cursor()).toBe('0');
    expect(await look(store, untakenTexts)).toEqual([]);
  });

  it('a name that is no hash is never asked for, and is told', async () => {
    const { store, commands, at, outbox } = await rig();
    await commands.wantDocument('../health');
    // As an earlier build noted it.
    await look(store, (db) =>
      db.documentHeads.put({ sha: '../phones', mime: '', bytes: 0, chunks: 0, complete: 0, origin: 'pulled', at: 1 }),
    );
    const good = '0'.repeat(64);
    await commands.wantDocument(good);
    expect(await outbox.wantedDocuments()).toEqual([good]);
    expect(await look(store, misnamedDocuments)).toEqual(['../health', '../phones']);
    await outbox.missDocument(good, 'differs');
    expect(await outbox.wantedDocuments()).toEqual([]);
    expect(await look(store, missedDocuments)).toMatchObject([{ sha: good, why: 'differs' }]);
    at.now += 10_000;
    expect(await outbox.wantedDocuments()).toEqual([good]);
    await outbox.missDocument(good, 'not-there');
    await outbox.wantAgain();
    expect(await outbox.wantedDocuments()).toEqual([good]);
  });
});

describe('what is claimed and compared', () => {
  async function rig() {
    const store = await openOrFail(freshStation());
    const commands = commandsOf(store);
    const outbox = createOutbox(store, commands, () => 5);
    const pairing = createPairing(store, () => 'Harbour');
    return { store, commands, outbox, pairing };
  }
  const credentials = { token: 't', phoneId: 'p', history: 'h1', station: { id: 's', name: 'Harbour' } };

  it('the highest mark ever acknowledged is kept, of events and documents alike', async () => {
    const { commands, outbox, pairing } = await rig();
    await pairing.keep(credentials);
    expect(await outbox.numbering()).toEqual({ history: 'h1', mark: null });
    const saved = await commands.record('note', note('x'));
    const kept = await commands.storeDocument(new Uint8Array([1]), 'image/jpeg');
    if (saved.type !== 'saved' || kept.type !== 'stored') throw new Error('not kept');
    await outbox.settleDocument(kept.sha, { type: 'stored', number: 9 });
    expect((await outbox.numbering()).mark).toBe(`9-${kept.sha.slice(0, 16)}`);
    await outbox.settleEvents([{ id: saved.id, answer: { type: 'stored', number: 8 } }]);
    expect((await outbox.numbering()).mark).toBe(`9-${kept.sha.slice(0, 16)}`);
    const more = await commands.record('note', note('y'));
    if (more.type !== 'saved') throw new Error(more.type);
    await outbox.settleEvents([{ id: more.id, answer: { type: 'already', number: 12 } }]);
    const hash = await bytesToHash(new TextEncoder().encode(more.text));
    expect((await outbox.numbering()).mark).toBe(`12-${hash.slice(0, 16)}`);
  });

  it('another history takes mark and cursor back at once, and is remembered in the pairing', async () => {
    const { outbox, pairing } = await rig();
    await pairing.keep(credentials);
    await outbox.receive([], '7-0123456789abcdef');
    await outbox.newHistory('h2');
    expect(await outbox.numbering()).toEqual({ history: 'h2', mark: null });
    expect(await outbox.cursor()).toBe('0');
    expect(await pairing.history()).toBe('h2');
    expect(await outbox.comparing()).toEqual({ type: 'under-way', forAll: true });
    await outbox.newHistory(null);
    expect(await outbox.numbering()).toEqual({ history: null, mark: null });
    await outbox.learnHistory('h3');
    expect(await outbox.numbering()).toEqual({ history: 'h3', mark: null });
    expect(await pairing.history()).toBe('h3');
  });

  it('goes batch by batch over what does not wait, queues exactly what is missing, and survives a restart', async () => {
    const { store, commands, outbox } = await rig();
    const far = Array.from({ length: 5 }, (_, seq) => eventText(store.station, `far-${seq}`, `log-${seq}`, 0));
    await outbox.receive(far, '5-0123456789abcdef');
    await commands.record('note', note('waits'));
    const bytes = new Uint8Array([1, 2]);
    const photo = await bytesToHash(bytes);
    await commands.wantDocument(photo);
    await outbox.storeDocument(photo, bytes, 'image/jpeg');
    await outbox.beginCompare();
    const asked: string[] = [];
    for (let outside = 0; outside < 9; outside += 1) {
      // A new exchange on the same data, as after a restart.
      const again = createOutbox(store, commands, () => 6);
      if ((await again.comparing()).type === 'rests') break;
      const { events, documents, next } = await again.compareBatch(2);
      asked.push(...events.map((one) => one.id), ...documents);
      const missing = { events: events.filter((one) => one.id === 'far-3').map((one) => one.id), documents };
      await again.compared(missing, next);
    }
    expect(asked).toEqual(['far-0', 'far-1', 'far-2', 'far-3', 'far-4', photo]);
    expect(await outbox.comparing()).toEqual({ type: 'rests', lastAt: 6 });
    expect((await outbox.pendingEvents(9)).map((one) => one.id).sort()).toEqual([
      'far-3',
      expect.stringMatching(/^p-/),
    ]);
    expect((await outbox.pendingDocuments(9, true)).map((one) => one.sha)).toEqual([photo]);
  });

  it('an answer that belongs to an earlier comparison moves nothing', async () => {
    const { store, outbox } = await rig();
    await outbox.receive([eventText(store.station, 'a', 'far', 0)], '1-0123456789abcdef');
    await outbox.beginCompare();
    const { next } = await outbox.compareBatch(1);
    await outbox.newHistory('h2');
    await outbox.compared({ events: ['a'], documents: [] }, next);
    expect(await outbox.pendingEvents(9)).toEqual([]);
    expect((await outbox.compareBatch(9)).events.map((one) => one.id)).toEqual(['a']);
  });
});
