// A server that was put back to an earlier state: whatever any phone holds comes back by itself, from whoever holds it,
// and a comparison that breaks off goes on.
import { describe, expect, test, vi } from 'vitest';
import { eventText, STATION } from '../server/help.ts';
import { appTransport, madeUp, nudged, startSync } from './memoryPhone.ts';
import { db, paired, server, storedIds, useServer } from './pairedPhone.ts';
import { putBack, stateOf } from './putBack.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
useServer();

const photo = (n: number) => new Uint8Array([0xff, 0xd8, 0xff, n]);
const heldDocuments = async () =>
  (await db.query.selectFrom('documents').select('sha').where('complete', '=', 1).execute())
    .map((row) => row.sha)
    .sort();

/** Two phones; five events and two photos are acknowledged after the backup, and the other phone has pulled them. */
async function afterBackup(fate?: Parameters<typeof paired>[0]) {
  const a = await paired(fate);
  const b = await paired();
  a.phone.record('before', eventText('before'));
  await nudged(a.sync);
  const backup = await stateOf(db);
  const ids = ['e1', 'e2', 'e3', 'e4', 'e5'];
  for (const id of ids) a.phone.record(id, eventText(id));
  const photos = [1, 2].map((n) => a.phone.addDocument(photo(n), 'image/jpeg')).sort();
  expect((await nudged(a.sync)).type).toBe('idle');
  for (const name of photos) b.phone.want(name);
  expect((await nudged(b.sync)).type).toBe('idle');
  expect([...b.phone.documents.keys()].sort()).toEqual(photos);
  return { a, b, ids, photos, backup };
}

describe('five events and two photos sent after the backup come back', () => {
  test.each(['the sender', 'another phone'] as const)('from %s', async (who) => {
    const { a, b, ids, photos, backup } = await afterBackup();
    await putBack(db, backup, 'h-restored');
    expect(await storedIds()).toEqual(['before']);
    const { sync, phone } = who === 'the sender' ? a : b;
    expect((await nudged(sync)).type).toBe('idle');
    expect((await storedIds()).sort()).toEqual(['before', ...ids]);
    expect(await heldDocuments()).toEqual(photos);
    expect(phone.known.history).toBe('h-restored');
    expect(phone.waiting.size + phone.waitingDocuments.size).toBe(0);
  });

  test('also where the history kept its name and other events took their numbers', async () => {
    const { a, b, ids, photos, backup } = await afterBackup();
    await putBack(db, backup, null);
    const c = await paired();
    for (let i = 0; i < 12; i += 1) c.phone.record(`new${i}`, eventText(`new${i}`));
    await nudged(c.sync);
    for (const one of [a, b]) expect((await nudged(one.sync)).type).toBe('idle');
    expect(await storedIds()).toEqual(expect.arrayContaining(ids));
    expect(await heldDocuments()).toEqual(photos);
    for (const one of [a, b]) expect(one.phone.events.has('new11')).toBe(true);
  });

  test('also to a phone that sent and never pulled what it was given numbers for', async () => {
    const a = await paired((request) => (request.method === 'GET' ? 'lose-request' : 'carry'));
    const backup = await stateOf(db);
    a.phone.record('only', eventText('only'));
    await nudged(a.sync);
    expect(a.phone.waiting.size).toBe(0);
    expect(a.phone.at).toBe('0');
    await putBack(db, backup, null);
    // The app is started anew, where there is a network.
    const again = startSync(a.phone, appTransport(server.app));
    expect((await nudged(again)).type).toBe('idle');
    expect(await storedIds()).toEqual(['only']);
  });

  test('and only what is missing is sent', async () => {
    const pushed: string[] = [];
    const { a, ids, backup } = await afterBackup((request) => {
      if (request.path === '/api/events' && request.method === 'POST')
        pushed.push(...(JSON.parse(String(request.body)) as { texts: string[] }).texts);
      return 'carry';
    });
    await putBack(db, backup, 'h-restored');
    pushed.length = 0;
    await nudged(a.sync);
    expect(pushed).toEqual(ids.map((id) => eventText(id)));
  });

  test('a comparison that breaks off goes on where it was, after a restart of the app too', async () => {
    let left = Number.POSITIVE_INFINITY;
    const asked: string[] = [];
    const { a, ids, photos, backup } = await afterBackup((request) => {
      if (request.path !== '/api/compare') return 'carry';
      left -= 1;
      if (left < 0) return 'lose-request';
      const { events } = JSON.parse(String(request.body)) as { events: { id: string }[] };
      asked.push(...events.map((event) => event.id));
      return 'carry';
    });
    await putBack(db, backup, 'h-restored');
    left = 1;
    expect(await nudged(a.sync)).toMatchObject({ type: 'waiting', why: 'no-answer' });
    a.sync.stop();
    const first = [...asked];
    expect(first.length).toBeGreaterThan(0);
    const again = startSync(
      a.phone,
      appTransport(server.app, (request) => {
        if (request.path === '/api/compare')
          asked.push(...(JSON.parse(String(request.body)) as { events: { id: string }[] }).events.map((one) => one.id));
        return 'carry';
      }),
    );
    expect((await nudged(again)).type).toBe('idle');
    expect(asked.filter((id) => first.includes(id))).toEqual(first);
    expect((await storedIds()).sort()).toEqual(['before', ...ids]);
    expect(await heldDocuments()).toEqual(photos);
  });
});

test('a loss that nobody told of is found within a day', async () => {
  const { phone, sync } = await paired();
  phone.record('a', eventText('a'));
  phone.record('b', eventText('b'));
  await nudged(sync);
  await db.query.deleteFrom('events').where('id', '=', 'a').execute();
  await nudged(sync);
  expect(await storedIds()).toEqual(['b']);
  sync.clock.at += 86_400_000;
  expect((await nudged(sync)).type).toBe('idle');
  expect((await storedIds()).sort()).toEqual(['a', 'b']);
});

describe('a server that cannot compare', () => {
  const none = madeUp(404, '{"type":"not-found","sentence":"x"}', { 'asfound-wire': '1' });
  const older = (request: { path: string }) => (request.path === '/api/compare' ? none : ('carry' as const));

  test('is given everything when its history is another', async () => {
    const { a, ids, photos, backup } = await afterBackup(older);
    await putBack(db, backup, 'h-restored');
    expect((await nudged(a.sync)).type).toBe('idle');
    expect(a.phone.startedOver).toBe(1);
    expect((await storedIds()).sort()).toEqual(['before', ...ids]);
    expect(await heldDocuments()).toEqual(photos);
  });

  test('is not given everything day after day', async () => {
    const { phone, sync } = await paired(older);
    phone.record('a', eventText('a'));
    await nudged(sync);
    for (let day = 0; day < 3; day += 1) {
      sync.clock.at += 86_400_000;
      expect((await nudged(sync)).type).toBe('idle');
    }
    expect(phone.startedOver).toBe(0);
    expect(phone.settled).toHaveLength(1);
  });
});

test('two servers that answer in turn do not lead a phone round and round', async () => {
  let turn = 0;
  const { phone, sync } = await paired((request) => {
    if (request.method !== 'GET' || !request.path.startsWith('/api/events')) return 'carry';
    turn += 1;
    const answer = { events: [], next: '0', more: false, now: 1, history: `h-${turn}` };
    return madeUp(200, JSON.stringify(answer), { 'asfound-wire': '1' });
  });
  phone.record('a', eventText('a'));
  expect(await nudged(sync)).toMatchObject({ type: 'waiting', why: 'answer-unreadable' });
  expect(turn).toBeLessThan(6);
  expect(await storedIds()).toEqual(['a']);
  expect(phone.own).toEqual(STATION);
});
