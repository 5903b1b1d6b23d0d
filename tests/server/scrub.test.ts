// The scrub finds every altered text and byte on both databases, goes on where it stopped, and clears what is whole.
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { listDamage } from '../../src/server/database/damage.ts';
import { type Database, type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { readFact } from '../../src/server/database/facts.ts';
import { dropOld, openPosition } from '../../src/server/upkeep/scrub.ts';
import { keepUp, scrubAll, type UpkeepParts } from '../../src/server/upkeep/upkeep.ts';
import { onBothDatabases } from './bothDatabases.ts';
import { eventText, OTHER, pairedPhone, STATION, sha, type TestServer, testServer } from './help.ts';

// Time on a busy machine is no finding.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const DAY = 86_400_000;
/** One of two chunks, one of one. */
const DOCUMENTS = [1_048_576 + 500, 3000].map((size) => new Uint8Array(size).map((_, i) => (i + (i >> 9)) % 251));
const LARGE = DOCUMENTS[0] ?? new Uint8Array();

onBothDatabases(describeScrub);

function describeScrub(address: () => Promise<DatabaseAddress>): void {
  let db: Database;
  let server: TestServer;
  let found: string[];
  let steps: number;
  beforeEach(async () => {
    db = await openDatabase(await address());
    server = testServer(db);
    found = [];
    steps = 0;
    for (const station of [STATION, OTHER]) {
      const token = await pairedPhone(db, server, station);
      const texts = Array.from({ length: 120 }, (_, i) =>
        eventText(`${station.id}-${i}`, { station: station.id, log: station.id, seq: i + 1 }),
      );
      expect((await server.ask('POST', '/api/events', { token, json: { texts } })).status).toBe(200);
      for (const bytes of DOCUMENTS) {
        const headers = { 'content-type': 'application/octet-stream' };
        const put = await server.ask('PUT', `/api/documents/${sha(bytes)}`, { token, body: bytes, headers });
        expect(put.status).toBe(201);
      }
    }
  });
  afterEach(async () => await db.close());

  const parts = (over: Partial<UpkeepParts> = {}): UpkeepParts => ({
    db,
    clock: server.clock,
    isQuiet: () => false,
    checkPages: async () => null,
    onFailure: (error) => {
      throw error;
    },
    onFound: (sentence) => found.push(sentence),
    pause: async () => {
      steps += 1;
      server.clock.move(1000);
    },
    stopping: () => false,
    ...over,
  });
  const alter = async (id: string, text: string) =>
    await db.query.updateTable('events').set({ text }).where('id', '=', id).execute();
  const named = async () => (await listDamage(db, 100)).first.map(({ kind, id }) => `${kind} ${id}`).sort();

  test('one altered text and one altered byte of each station are found by name, and told', async () => {
    await alter(`${STATION.id}-77`, 'no longer what it was');
    await alter(`${OTHER.id}-119`, eventText('quite-another'));
    const bytes = LARGE.slice(1_048_576);
    bytes[100] = (bytes[100] ?? 0) ^ 1;
    await db.query
      .updateTable('chunks')
      .set({ bytes: Buffer.from(bytes) })
      .where('station', '=', OTHER.id)
      .where('sha', '=', sha(LARGE))
      .where('n', '=', 1)
      .execute();
    await scrubAll(parts());
    expect(await named()).toEqual([`document ${sha(LARGE)}`, `event ${STATION.id}-77`, `event ${OTHER.id}-119`].sort());
    expect(found).toEqual([expect.stringContaining('3 damaged')]);
    expect((await readFact(db, 'scrub'))?.value).toMatchObject({ events: 240, documents: 4, damaged: 3 });
    expect(await openPosition(db)).toBeNull();
    const health = await (await server.app.request('/api/health')).json();
    expect(health).toMatchObject({ status: 'damaged', damaged: { count: 3 }, scrub: { damaged: 3 } });
    expect(JSON.stringify(health)).toContain(`event ${STATION.id}-77 of station ${STATION.id}`);
  });

  test('what is whole again is cleared by the next pass', async () => {
    const id = `${STATION.id}-3`;
    await alter(id, 'broken');
    await scrubAll(parts());
    expect(await named()).toEqual([`event ${id}`]);
    await alter(id, eventText(id, { log: STATION.id, seq: 4 }));
    await scrubAll(parts());
    expect(await named()).toEqual([]);
  });

  test('stopped in the middle, it goes on there; while one is at it, another keeps out', async () => {
    await scrubAll(parts({ stopping: () => steps >= 3 }));
    const open = await openPosition(db);
    expect(open?.position.events).toBeGreaterThan(0);
    expect(open?.position.events).toBeLessThan(240);
    server.clock.move(5000);
    steps = 0;
    let other = 0;
    await scrubAll(
      parts({
        pause: async () => {
          steps += 1;
          await scrubAll(
            parts({
              pause: async () => {
                other += 1;
              },
            }),
          );
        },
      }),
    );
    expect(other).toBe(0);
    // A pass that had begun anew would have begun later.
    expect((await readFact(db, 'scrub'))?.value).toMatchObject({ events: 240, began: open?.position.began });
  });

  test('it runs at once on a database that was never checked, then in quiet hours alone, at the latest after days', async () => {
    const passes: number[] = [];
    let quiet = false;
    let rounds = 0;
    await keepUp(
      parts({
        isQuiet: () => quiet,
        pause: async (ms) => {
          if (ms < 60_000) return server.clock.move(ms);
          rounds += 1;
          passes.push((await readFact(db, 'scrub'))?.at ?? 0);
          server.clock.move(DAY);
          quiet = rounds === 2;
        },
        stopping: () => rounds >= 6,
      }),
    );
    const days = passes.map((at) => Math.round((at - (passes[0] ?? 0)) / DAY));
    // The first at once, none by day, one in the quiet of the third round, the next when it is overdue.
    expect(days).toEqual([0, 0, 2, 2, 2, 2]);
  });

  test('parts that nobody went on sending for a week and old presence are dropped, newer ones stay', async () => {
    const now = server.clock.now();
    const part = (name: string, n: number, received_at: number) => ({
      station: STATION.id,
      sha: name,
      n,
      bytes: Buffer.from([1]),
      received_at,
    });
    const week = now - 8 * DAY;
    await db.query
      .insertInto('parts')
      .values([part('old', 0, week), part('old', 1, week), part('begun', 0, week), part('begun', 1, now)])
      .execute();
    const presence = (phone: string, at: number) => ({ station: STATION.id, phone, said: '{}', at });
    await db.query
      .insertInto('presence')
      .values([presence('gone', now - 2 * DAY), presence('here', now)])
      .execute();
    expect(await dropOld(db, now)).toBe(1);
    const left = await db.query.selectFrom('parts').select(['sha', 'n']).orderBy('n').execute();
    expect(left.map((row) => `${row.sha} ${row.n}`)).toEqual(['begun 0', 'begun 1']);
    expect(await db.query.selectFrom('presence').select('phone').execute()).toEqual([{ phone: 'here' }]);
  });
}
