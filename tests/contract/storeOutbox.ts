// What the exchange may rely on in any outbox. A rig brings an empty one and the ways to fill it.
import { expect, it } from 'vitest';
import type { Outbox } from '../../src/sync/ports.ts';

type OutboxRig = {
  outbox: Outbox;
  /** Makes an event on this phone. */
  record: (text: string) => Promise<{ id: string; text: string }>;
  addDocument: (bytes: Uint8Array<ArrayBuffer>) => Promise<string>;
  want: (sha: string) => Promise<void>;
  hash: (bytes: Uint8Array<ArrayBuffer>) => Promise<string>;
  /** First event text of another phone in the same station, a phone for each id. */
  foreignText: (id: string) => string;
  /** Kills the app and starts it again on the same data. */
  restart: () => Promise<Outbox>;
};

const bytesOf = (...bytes: number[]) => new Uint8Array(bytes);

export function outboxContract(makeRig: () => Promise<OutboxRig>): void {
  it('hands out what was recorded, oldest first, and no more than asked', async () => {
    const { outbox, record } = await makeRig();
    const made = [await record('1'), await record('2'), await record('3')];
    expect(await outbox.pendingEvents(10)).toEqual(made);
    expect(await outbox.pendingEvents(2)).toEqual(made.slice(0, 2));
    expect(await outbox.count()).toEqual({ events: 3, documents: 0, refused: 0 });
  });

  it('keeps everything through a restart until it is acknowledged', async () => {
    const { outbox, record, addDocument, restart } = await makeRig();
    const made = await record('1');
    const sha = await addDocument(bytesOf(1, 2));
    await outbox.pendingEvents(10);
    await outbox.pendingDocuments(10, true);
    const again = await restart();
    expect(await again.pendingEvents(10)).toEqual([made]);
    expect((await again.pendingDocuments(10, true)).map((one) => one.sha)).toEqual([sha]);
    expect(await again.documentBytes(sha)).toEqual({ type: 'bytes', bytes: bytesOf(1, 2) });
  });

  it('drops what is stored or already there, and nothing else', async () => {
    const { outbox, record } = await makeRig();
    const [a, b, c] = [await record('1'), await record('2'), await record('3')];
    await outbox.settleEvents([
      { id: a.id, answer: { type: 'stored', number: 1 } },
      { id: b.id, answer: { type: 'already', number: 2 } },
      { id: 'never-heard-of', answer: { type: 'stored', number: 3 } },
    ]);
    expect(await outbox.pendingEvents(10)).toEqual([c]);
    expect(await outbox.count()).toEqual({ events: 1, documents: 0, refused: 0 });
  });

  it('keeps the refused and the set aside in view without sending them again', async () => {
    const { outbox, record, restart } = await makeRig();
    const [a, b, c] = [await record('1'), await record('2'), await record('3')];
    await outbox.settleEvents([
      { id: a.id, answer: { type: 'refused', why: 'too-long', sentence: 'Too long.' } },
      { id: b.id, answer: { type: 'set-aside', why: 'same-id-other-text' } },
    ]);
    const again = await restart();
    expect(await again.pendingEvents(10)).toEqual([c]);
    expect(await again.count()).toEqual({ events: 1, documents: 0, refused: 2 });
  });

  it('settles documents one by one', async () => {
    const { outbox, addDocument } = await makeRig();
    const [first, second] = [await addDocument(bytesOf(1)), await addDocument(bytesOf(2))];
    await outbox.settleDocument(first, { type: 'stored' });
    await outbox.settleDocument(second, { type: 'refused', why: 'too-large', sentence: 'Too large.' });
    expect(await outbox.pendingDocuments(10, true)).toEqual([]);
    expect(await outbox.count()).toEqual({ events: 0, documents: 0, refused: 1 });
    expect(await outbox.documentBytes(first)).toEqual({ type: 'bytes', bytes: bytesOf(1) });
  });

  it('takes pulled texts once, with their cursor', async () => {
    const { outbox, foreignText, restart } = await makeRig();
    expect(await outbox.cursor()).toBe('0');
    await outbox.receive([foreignText('a'), foreignText('b')], '2-0123456789abcdef');
    await outbox.receive([foreignText('b'), foreignText('c')], '3-0123456789abcdef');
    const again = await restart();
    expect(await again.cursor()).toBe('3-0123456789abcdef');
    expect((await again.count()).events).toBe(0);
    await again.startOver();
    expect((await again.pendingEvents(10)).map((one) => one.id)).toEqual(['a', 'b', 'c']);
  });

  it('asks for wanted documents until bytes of that very hash are there', async () => {
    const { outbox, want, hash } = await makeRig();
    const bytes = bytesOf(9, 9, 9);
    const sha = await hash(bytes);
    await want(sha);
    expect(await outbox.wantedDocuments()).toEqual([sha]);
    expect(await outbox.documentBytes(sha)).toEqual({ type: 'missing' });
    expect(await outbox.storeDocument(sha, bytesOf(1), 'image/jpeg')).toBe(false);
    expect(await outbox.wantedDocuments()).toEqual([sha]);
    expect(await outbox.storeDocument(sha, bytes, 'image/jpeg')).toBe(true);
    expect(await outbox.wantedDocuments()).toEqual([]);
    expect(await outbox.documentBytes(sha)).toEqual({ type: 'bytes', bytes });
    expect((await outbox.count()).documents).toBe(0);
  });

  it('queues everything again when it has to start over, the refused too', async () => {
    const { outbox, record, addDocument, foreignText } = await makeRig();
    const [a, b] = [await record('1'), await record('2')];
    const sha = await addDocument(bytesOf(5));
    await outbox.receive([foreignText('far')], '4-0123456789abcdef');
    await outbox.settleEvents([
      { id: a.id, answer: { type: 'stored', number: 1 } },
      { id: b.id, answer: { type: 'refused', why: 'unreadable', sentence: 'No.' } },
    ]);
    await outbox.settleDocument(sha, { type: 'stored' });
    await outbox.startOver();
    await outbox.startOver();
    expect((await outbox.pendingEvents(10)).map((one) => one.id)).toEqual([a.id, b.id, 'far']);
    expect((await outbox.pendingDocuments(10, true)).map((one) => one.sha)).toEqual([sha]);
    expect(await outbox.count()).toEqual({ events: 3, documents: 1, refused: 0 });
    expect(await outbox.cursor()).toBe('0');
  });
}
