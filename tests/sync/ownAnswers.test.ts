// Only our own server's answers settle anything: whatever stands in its place may delay what was recorded, and never
// ends it, refuses it or claims to hold it.
import { describe, expect, test, vi } from 'vitest';
import { DOCUMENT_HEADER, WIRE_HEADER } from '../../src/wire/sync.ts';
import { eventText } from '../server/help.ts';
import { type Fate, madeUp, nudged, restOf } from './memoryPhone.ts';
import { db, paired, storedIds, useServer } from './pairedPhone.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
useServer();

const ours = { [WIRE_HEADER]: '1' };
const PHOTO = new Uint8Array([0xff, 0xd8, 0xff, 1]);
const storedDocuments = async () =>
  (await db.query.selectFrom('documents').select('sha').where('complete', '=', 1).execute()).map((row) => row.sha);

describe('a photo stays until our server names it', () => {
  const strangers: [string, (sha: string) => Fate][] = [
    ['a page that follows a redirect', () => madeUp(200, '<html>')],
    ['a redirect', () => madeUp(302, '', { location: 'https://login.example/' })],
    ['a redirect that the browser hides', () => madeUp(0, '')],
    ['a redirect with our header', () => madeUp(307, '', { ...ours, location: '/elsewhere' })],
    ['our header and another document', () => madeUp(200, '', { ...ours, [DOCUMENT_HEADER]: `${'0'.repeat(64)} 4` })],
    ['our header and another size', (sha) => madeUp(200, '', { ...ours, [DOCUMENT_HEADER]: `${sha} 5` })],
    ['our header alone', () => madeUp(200, '{}', ours)],
    ['an answer of another form', (sha) => madeUp(201, JSON.stringify({ type: 'stored', sha, bytes: 5 }), ours)],
  ];
  test.each(strangers)('not for %s', async (_name, answer) => {
    let broken = true;
    const { phone, sync } = await paired((request) =>
      broken && request.path.startsWith('/api/documents/') ? answer(request.path.slice(15)) : 'carry',
    );
    const name = phone.addDocument(PHOTO, 'image/jpeg');
    await nudged(sync);
    expect([...phone.waitingDocuments.keys()]).toEqual([name]);
    expect(await storedDocuments()).toEqual([]);
    broken = false;
    const rest = restOf(sync);
    // Past every wait of its own.
    sync.clock.at += 86_400_000;
    sync.nudge('person');
    expect((await rest).type).toBe('idle');
    expect(phone.waitingDocuments.size).toBe(0);
    expect(await storedDocuments()).toEqual([name]);
  });

  test('a server from before that header is believed by what it says to the document itself', async () => {
    const asked: string[] = [];
    const { phone, sync } = await paired((request) => {
      asked.push(request.method);
      if (!request.path.startsWith('/api/documents/')) return 'carry';
      const sha = request.path.slice(15);
      if (request.method === 'HEAD') return madeUp(200, '', ours);
      return madeUp(200, JSON.stringify({ type: 'already', sha, bytes: PHOTO.byteLength }), ours);
    });
    phone.addDocument(PHOTO, 'image/jpeg');
    expect((await nudged(sync)).type).toBe('idle');
    expect(asked).toEqual(expect.arrayContaining(['HEAD', 'PUT']));
    expect(phone.waitingDocuments.size).toBe(0);
  });
});

describe('what something on the way does not let pass', () => {
  test.each([413, 403, 400, 302])('a foreign %i holds the one it met, and the others go', async (status) => {
    let proxy = true;
    const { phone, sync } = await paired((request) =>
      proxy && String(request.body).includes('spoil') ? madeUp(status, '<html>') : 'carry',
    );
    for (let i = 0; i < 20; i += 1) phone.record(i === 13 ? 'spoil' : `e${i}`, eventText(i === 13 ? 'spoil' : `e${i}`));
    expect((await nudged(sync)).type).toBe('idle');
    expect(await storedIds()).toHaveLength(19);
    const held = phone.settled.find((one) => one.id === 'spoil')?.answer;
    expect(held).toMatchObject({ type: status === 413 ? 'refused' : 'later', why: 'way' });
    proxy = false;
    phone.sendAgain();
    expect((await nudged(sync)).type).toBe('idle');
    expect(await storedIds()).toContain('spoil');
  });

  test('a photo too large for the way is held with its reason, and the next one goes', async () => {
    let first = '';
    const { phone, sync } = await paired((request) =>
      request.method === 'PUT' && request.path.endsWith(first) ? madeUp(413, 'too large') : 'carry',
    );
    first = phone.addDocument(PHOTO, 'image/jpeg');
    const second = phone.addDocument(new Uint8Array([0xff, 0xd8, 0xff, 2]), 'image/jpeg');
    expect((await nudged(sync)).type).toBe('idle');
    expect(await storedDocuments()).toEqual([second]);
    expect(phone.refusedDocuments.get(first)).toMatchObject({
      why: 'way',
      sentence: 'Something on the way to the server refuses anything that large.',
    });
  });

  test('while nothing of ours answers, nothing is refused and nothing is halved without end', async () => {
    let asked = 0;
    const { phone, sync } = await paired(() => {
      asked += 1;
      return madeUp(403, '<html>Log in</html>');
    });
    for (let i = 0; i < 300; i += 1) phone.record(`e${i}`, eventText(`e${i}`));
    expect(await nudged(sync)).toMatchObject({ type: 'waiting', why: 'not-our-server' });
    expect(phone.unsettled.size).toBe(0);
    expect(asked).toBeLessThan(5);
  });
});
