// One event or document that nobody can read, or that always fails, stops nothing else: it is passed over, named, and
// tried again by itself.
import { describe, expect, test, vi } from 'vitest';
import { WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText, sha } from '../server/help.ts';
import { madeUp, nudged, restOf } from './memoryPhone.ts';
import { db, paired, storedIds, useServer } from './pairedPhone.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
useServer();

const failed = madeUp(500, '{"type":"failed","sentence":"The server failed."}', { [WIRE_HEADER]: '1' });
const json = (text: string) => new TextEncoder().encode(JSON.stringify({ text }));

describe('going out', () => {
  test('an event at which the server fails each time is put off, and the others go', async () => {
    let bug = true;
    const { phone, sync } = await paired((request) =>
      bug && String(request.body).includes('poison') ? failed : 'carry',
    );
    const ids = Array.from({ length: 30 }, (_, i) => (i === 7 ? 'poison' : `e${i}`));
    for (const id of ids) phone.record(id, eventText(id));
    expect((await nudged(sync)).type).toBe('idle');
    expect(await storedIds()).toHaveLength(29);
    expect(phone.waiting.get('poison')?.held).toMatchObject({ type: 'later', why: 'server-failed' });
    bug = false;
    sync.clock.at += 3_600_000;
    expect((await nudged(sync)).type).toBe('idle');
    expect(await storedIds()).toContain('poison');
  });

  test('a server that fails at every event makes the phone wait, not put off one after the other', async () => {
    const { phone, sync } = await paired((request) => (request.method === 'POST' ? failed : 'carry'));
    for (let i = 0; i < 100; i += 1) phone.record(`e${i}`, eventText(`e${i}`));
    expect(await nudged(sync)).toMatchObject({ type: 'waiting', why: 'server-failed' });
    expect([...phone.waiting.values()].filter((one) => one.held).length).toBeLessThanOrEqual(3);
    expect(phone.waiting.size).toBe(100);
  });

  test('a document at which the server fails is put off, and the others go', async () => {
    let bad = '';
    const { phone, sync } = await paired((request) =>
      request.method === 'PUT' && request.path.endsWith(bad) ? failed : 'carry',
    );
    bad = phone.addDocument(json('bad'), 'application/json');
    const good = phone.addDocument(json('good'), 'application/json');
    expect((await nudged(sync)).type).toBe('idle');
    expect([...phone.waitingDocuments.keys()]).toEqual([bad]);
    expect(phone.settledDocuments.at(-1)).toMatchObject({ sha: good, settlement: { type: 'stored' } });
    // It has a time of its own, so that nobody need ask.
    expect(Math.min(...sync.clock.waits)).toBeLessThanOrEqual(60_000);
    bad = 'none';
    const rest = restOf(sync);
    sync.clock.skip();
    await rest;
    expect(phone.waitingDocuments.size).toBe(0);
  });

  test('a photo that is damaged on this phone is not sent and stays, and the others go', async () => {
    const puts: string[] = [];
    const { phone, sync } = await paired((request) => {
      if (request.method === 'PUT') puts.push(request.path.slice(15));
      return 'carry';
    });
    const bad = phone.addDocument(new Uint8Array([0xff, 0xd8, 0xff, 1]), 'image/jpeg');
    phone.documents.set(bad, { bytes: new Uint8Array([0xff, 0xd8, 0xff, 9]), mime: 'image/jpeg' });
    const good = phone.addDocument(new Uint8Array([0xff, 0xd8, 0xff, 2]), 'image/jpeg');
    expect((await nudged(sync)).type).toBe('idle');
    expect(puts).toEqual([good]);
    expect(phone.refusedDocuments.get(bad)).toMatchObject({ why: 'damaged-here' });
    expect(phone.documents.has(bad)).toBe(true);
  });
});

describe('coming in', () => {
  test('an event that the reader cannot bear is put aside, the rest arrives, and it is tried again', async () => {
    const first = await paired();
    const { phone, sync } = await paired();
    phone.chokes = (text) => text.includes('note of bad');
    for (const id of ['a', 'bad', 'c']) first.phone.record(id, eventText(id));
    await nudged(first.sync);
    expect((await nudged(sync)).type).toBe('idle');
    expect([...phone.events.keys()]).toEqual(['a', 'c']);
    expect(phone.untaken.size).toBe(1);
    phone.chokes = () => false;
    expect((await nudged(sync)).type).toBe('idle');
    expect([...phone.events.keys()].sort()).toEqual(['a', 'bad', 'c']);
    expect(sync.failures).toEqual([]);
  });

  test('a document whose bytes at the server are others than its name says stops no other', async () => {
    const first = await paired();
    const good = first.phone.addDocument(json('good'), 'application/json');
    await nudged(first.sync);
    const bad = sha(json('bad'));
    const { phone, sync } = await paired((request) =>
      request.path.endsWith(bad)
        ? {
            type: 'answer',
            status: 200,
            text: '',
            bytes: json('other'),
            header: (n) => (n === WIRE_HEADER ? '1' : null),
          }
        : 'carry',
    );
    for (const name of [bad, good]) phone.want(name);
    expect((await nudged(sync)).type).toBe('idle');
    expect([...phone.documents.keys()]).toEqual([good]);
    expect(phone.wanted.get(bad)).toMatchObject({ why: 'differs', tries: 1 });
  });

  test('a document at which the server fails stops no other, and nothing stops the events', async () => {
    const first = await paired();
    const good = first.phone.addDocument(json('good'), 'application/json');
    first.phone.record('late', eventText('late'));
    await nudged(first.sync);
    const bad = sha(json('bad'));
    const { phone, sync } = await paired((request) => (request.path.endsWith(bad) ? failed : 'carry'));
    for (const name of [bad, good]) phone.want(name);
    expect((await nudged(sync)).type).toBe('idle');
    expect([...phone.documents.keys()]).toEqual([good]);
    expect([...phone.events.keys()]).toEqual(['late']);
    expect(phone.wanted.get(bad)).toMatchObject({ why: 'failed' });
  });

  test('sending that the server refuses does not keep the phone from receiving', async () => {
    const first = await paired();
    const { phone, sync } = await paired((request) => (request.method === 'POST' ? failed : 'carry'));
    first.phone.record('theirs', eventText('theirs'));
    await nudged(first.sync);
    phone.record('mine', eventText('mine'));
    await nudged(sync);
    expect(phone.events.has('theirs')).toBe(true);
    expect(await db.query.selectFrom('events').select('id').execute()).toEqual([{ id: 'theirs' }]);
  });
});
