// What a phone names when it compares with the server, and what it queues of what the server lacks: all that it keeps,
// also what waits aside for what comes before it in its log.
import { describe, expect, it } from 'vitest';
import { textToHash } from '../../src/store/hash.ts';
import { putOffRows } from '../../src/store/sending/putOff.ts';
import { createOutbox } from '../../src/store/sending/syncPorts.ts';
import { commandsOf, eventText, freshStation, look, openOrFail } from './helpers.ts';

/** A log of four; the phone has the first and the last two, which wait for the second. */
async function rig() {
  const station = freshStation();
  const store = await openOrFail(station);
  const commands = commandsOf(store);
  const outbox = createOutbox(store, commands, () => 1000);
  const texts: string[] = [];
  for (let seq = 0; seq < 4; seq += 1) {
    const before = texts.at(-1);
    texts.push(eventText(station, `e${seq}`, 'far', seq, 'x', before === undefined ? null : await textToHash(before)));
  }
  const [first = '', second = '', third = '', fourth = ''] = texts;
  await outbox.receive([first, third, fourth], '4-0123456789abcdef');
  const aside = () => look(store, (db) => db.aside.count());
  expect(await aside()).toBe(2);
  return { store, commands, outbox, aside, first, second, third, fourth };
}
type Rig = Awaited<ReturnType<typeof rig>>;

/** The whole comparison, with a server that lacks those ids; answers with what it was asked, step by step. */
async function compareAll({ outbox }: Pick<Rig, 'outbox'>, limit: number, lacks: string[]): Promise<string[][]> {
  await outbox.beginCompare();
  const steps: string[][] = [];
  for (;;) {
    const { events, next } = await outbox.compareBatch(limit);
    const asked = events.map(({ id }) => id);
    steps.push(asked);
    await outbox.compared({ events: asked.filter((id) => lacks.includes(id)), documents: [] }, next);
    if (next.done) return steps;
  }
}

const pending = async ({ outbox }: Pick<Rig, 'outbox'>) => (await outbox.pendingEvents(9)).map(({ text }) => text);

describe('what waits aside', () => {
  it('is compared too, and given back when the server lacks it', async () => {
    const phone = await rig();
    expect((await compareAll(phone, 500, ['e2', 'e3'])).flat().sort()).toEqual(['e0', 'e2', 'e3']);
    expect((await pending(phone)).sort()).toEqual([phone.third, phone.fourth].sort());
    expect(await phone.outbox.count()).toEqual({ events: 2, documents: 0, refused: 0 });
    await phone.outbox.settleEvents([
      { id: 'e2', answer: { type: 'stored', number: 7 } },
      { id: 'e3', answer: { type: 'stored', number: 8 } },
    ]);
    expect(await phone.outbox.count()).toEqual({ events: 0, documents: 0, refused: 0 });
    expect((await phone.outbox.numbering()).mark).toBe(`8-${(await textToHash(phone.fourth)).slice(0, 16)}`);
    expect(await phone.aside()).toBe(2);
  });

  it('is asked for once each in steps of any size, and not while it waits to be sent', async () => {
    for (const limit of [1, 2, 3, 4]) {
      const phone = await rig();
      const steps = await compareAll(phone, limit, ['e2', 'e3']);
      expect(steps.every((step) => step.length <= limit)).toBe(true);
      expect(steps.flat().sort()).toEqual(['e0', 'e2', 'e3']);
      expect((await compareAll(phone, limit, [])).flat()).toEqual(['e0']);
    }
  });

  it('is sent all the same when it was taken meanwhile', async () => {
    const phone = await rig();
    await compareAll(phone, 500, ['e2', 'e3']);
    await phone.outbox.receive([phone.second], '5-0123456789abcdef');
    expect(await phone.aside()).toBe(0);
    expect((await pending(phone)).sort()).toEqual([phone.third, phone.fourth].sort());
    await phone.outbox.settleEvents([{ id: 'e2', answer: { type: 'stored', number: 9 } }]);
    expect((await phone.outbox.numbering()).mark).toBe(`9-${(await textToHash(phone.third)).slice(0, 16)}`);
    expect(await pending(phone)).toEqual([phone.fourth]);
  });

  it('goes to a server that cannot compare with everything else', async () => {
    const phone = await rig();
    await phone.outbox.startOver();
    expect((await pending(phone)).sort()).toEqual([phone.first, phone.third, phone.fourth].sort());
  });
});

/** Past the guard that makes events add-only, as a failing disk would. */
function alterOnDisk({ store }: Pick<Rig, 'store'>, id: string): Promise<void> {
  return look(
    store,
    (db) =>
      new Promise<void>((done, failed) => {
        const tx = db.backendDB().transaction('events', 'readwrite');
        const events = tx.objectStore('events');
        const got = events.index('id').get(id);
        got.onsuccess = () => events.put({ ...got.result, text: got.result.text.replace('"text":"x"', '"text":"y"') });
        tx.oncomplete = () => done();
        tx.onerror = () => failed(tx.error);
      }),
  );
}

it('an entry whose text changed on the disk is not given back in place of the right one, and holds up no other', async () => {
  const phone = await rig();
  await phone.outbox.receive([phone.second], '5-0123456789abcdef');
  await alterOnDisk(phone, 'e0');
  await compareAll(phone, 500, ['e0', 'e1', 'e2']);
  // Also where the step holds nothing else.
  expect((await phone.outbox.pendingEvents(1)).map(({ id }) => id)).toEqual(['e1']);
  expect(await pending(phone)).toEqual([phone.second, phone.third]);
  expect(await look(phone.store, putOffRows)).toMatchObject([{ id: 'e0', state: 'refused', why: 'damaged-here' }]);
  expect(await phone.outbox.count()).toEqual({ events: 2, documents: 0, refused: 1 });
});
