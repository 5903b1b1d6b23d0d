// What happens in a fault run: what people do, what the network, the server, the clocks and strangers do to them. Each
// act draws its chances before it begins anything, so that the seed alone decides them.

import type { Database } from '../../src/server/database/database.ts';
import type { StationName } from '../../src/wire/sync.ts';
import { sha } from '../server/help.ts';
import type { FaultPhone } from './faultPhone.ts';
import { pushPoison } from './faultPoison.ts';
import { CALM, CAPTIVE, DEAD, type FaultProxy, ROUGH } from './faultProxy.ts';
import type { FaultServer, Holding } from './faultServer.ts';
import type { FaultCounts } from './faultVerdict.ts';

/** mulberry32: small, fast, and the same everywhere. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** A phone that is run by somebody else. */
export type Guest = {
  name: string;
  /** Records something; what was shown as kept. */
  act: (random: () => number) => Promise<void>;
  made: Map<string, string>;
  taken: Set<string>;
  restart: () => Promise<void>;
  nextDay: () => Promise<unknown>;
  held: () => Promise<Holding>;
  close: () => Promise<void>;
};

export type Run = {
  random: () => number;
  server: FaultServer;
  proxy: FaultProxy;
  station: StationName;
  phones: FaultPhone[];
  guests: Guest[];
  tokens: string[];
  counts: FaultCounts;
  underWay: Set<Promise<void>>;
};

type Act = { name: string; weight: number; run: (run: Run) => Promise<void> };

const pick = <T>(random: () => number, all: readonly T[]): T => all[Math.floor(random() * all.length)] as T;

function jpeg(random: () => number, size: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(size);
  const step = 1 + Math.floor(random() * 250);
  const from = Math.floor(random() * 4_294_967_296);
  for (let i = 0; i < size; i += 1) bytes[i] = (from + i * step + (i >> 8)) % 251;
  bytes.set([0xff, 0xd8, 0xff, 0xe0, from & 255, (from >> 8) & 255, (from >> 16) & 255, (from >> 24) & 255]);
  return bytes;
}

/** Beside the others: the server dies, and the walk goes on. */
function beside({ underWay }: Run, work: Promise<void>): void {
  const mine = work.finally(() => underWay.delete(mine));
  // Whoever waits for it in the end hears of its failure.
  mine.catch(() => undefined);
  underWay.add(mine);
}

/** A text that differs in one letter, a hash that belongs to no text, or no row at all any more. */
async function damageEvent(db: Database, { station, id, text }: Named & { text: string }, how: number): Promise<void> {
  if (how < 0.25) {
    await db.query.deleteFrom('events').where('station', '=', station).where('id', '=', id).execute();
    return;
  }
  const altered = how < 0.5 ? { hash: 'f'.repeat(64) } : { text: text.replace(/.$/, ' ') };
  await db.query.updateTable('events').set(altered).where('station', '=', station).where('id', '=', id).execute();
}

type Named = { station: string; id: string };

async function damageChunk(db: Database, chunk: Chunk, how: number): Promise<void> {
  const bytes = Buffer.from('not what it was');
  if (how < 0.3)
    await db.query
      .deleteFrom('chunks')
      .where((eb) => eb.and(chunk))
      .execute();
  else
    await db.query
      .updateTable('chunks')
      .set({ bytes })
      .where((eb) => eb.and(chunk))
      .execute();
}

type Chunk = { station: string; sha: string; n: number };

/** Alters what the database holds, as a failing disk or a wrong hand would. */
async function damage({ server, counts }: Run, random: () => number): Promise<void> {
  counts.kills += 1;
  await server.kill(async (db) => {
    const held = await db.query
      .selectFrom('events')
      .select(['station', 'id', 'text', 'hash'])
      .orderBy('number')
      .execute();
    // Text and hash of one row altered both is a limit that eventMend.ts names.
    const events = held.filter(({ text, hash }) => sha(Buffer.from(text)) === hash);
    const event = events.length > 0 ? pick(random, events) : null;
    if (event) {
      await damageEvent(db, event, random());
      counts.damaged += 1;
    }
    const chunks = await db.query.selectFrom('chunks').select(['station', 'sha', 'n']).orderBy('sha').execute();
    const chunk = chunks.length > 0 && random() < 0.5 ? pick(random, chunks) : null;
    if (!chunk) return;
    await damageChunk(db, chunk, random());
    counts.damaged += 1;
  });
}

export const ACTS: Act[] = [
  {
    name: 'note',
    weight: 40,
    run: async ({ random, phones }) => {
      const phone = pick(random, phones);
      const lines = random() < 0.03 ? 400 : 1;
      await phone.note(`${phone.name} “sees” ${Math.floor(random() * 1e9)} ✓\n`.repeat(lines));
    },
  },
  {
    name: 'burst',
    weight: 4,
    run: async ({ random, phones }) => {
      const phone = pick(random, phones);
      for (let n = Math.floor(random() * 60); n >= 0; n -= 1) await phone.note(`row ${n}`);
    },
  },
  {
    name: 'photo',
    weight: 9,
    run: async ({ random, phones }) => {
      const large = random() < 0.12;
      await pick(random, phones).photo(
        jpeg(random, large ? 1_200_000 + Math.floor(random() * 1_500_000) : 500 + Math.floor(random() * 40_000)),
      );
    },
  },
  {
    name: 'want',
    weight: 5,
    run: async ({ random, phones }) => {
      const names = phones.flatMap((one) => [...one.taken]);
      if (names.length > 0) await pick(random, phones).want(pick(random, names));
    },
  },
  {
    name: 'guest',
    weight: 8,
    run: async ({ random, guests }) => void (guests.length > 0 && (await pick(random, guests).act(random))),
  },
  {
    name: 'restart',
    weight: 6,
    run: async (run) => {
      const all = [...run.phones, ...run.guests];
      await pick(run.random, all).restart();
      run.counts.restarts += 1;
    },
  },
  {
    name: 'kill',
    weight: 2,
    run: async (run) => {
      run.counts.kills += 1;
      beside(run, run.server.kill());
    },
  },
  {
    name: 'kill in mid-request',
    weight: 3,
    run: async (run) => {
      run.proxy.onNextForward(() => {
        run.counts.kills += 1;
        beside(run, run.server.kill());
      });
    },
  },
  {
    name: 'backup',
    weight: 3,
    run: async (run) => {
      run.counts.backups += 1;
      beside(run, run.server.backup());
    },
  },
  {
    name: 'restore',
    weight: 1,
    run: async (run) => {
      const newest = run.random() < 0.6;
      beside(
        run,
        run.server.restore(newest).then((done) => {
          run.counts.restores += done ? 1 : 0;
        }),
      );
    },
  },
  { name: 'damage', weight: 1, run: async (run) => beside(run, damage(run, seeded(run.random() * 2 ** 32))) },
  {
    name: 'clock',
    weight: 4,
    run: async ({ random, phones, counts }) => {
      // Minutes, days or most of a year, ahead and behind.
      const days = pick(random, [0.01, 1.1, 30, 200]) * (random() < 0.5 ? -1 : 1);
      pick(random, phones).jumpClock(days);
      counts.clockJumps += 1;
    },
  },
  {
    name: 'poison',
    weight: 4,
    run: async (run) => {
      const logs = await Promise.all(run.phones.map((phone) => phone.log()));
      await pushPoison(run.server.port(), pick(run.random, run.tokens), run.station.id, logs, run.random);
      run.counts.poison += 1;
      // What a plan of that name would have every phone ask for.
      for (const phone of run.phones) await phone.want('../health');
    },
  },
  {
    name: 'way',
    weight: 6,
    run: async ({ random, proxy }) => proxy.setChances(pick(random, [ROUGH, ROUGH, ROUGH, CALM, CAPTIVE, DEAD])),
  },
  { name: 'person asks', weight: 6, run: async ({ random, phones }) => pick(random, phones).nudge() },
];

export function byWeight(random: () => number, acts: Act[]): Act {
  let left = random() * acts.reduce((sum, act) => sum + act.weight, 0);
  for (const act of acts) {
    left -= act.weight;
    if (left < 0) return act;
  }
  throw new Error('The weights do not add up.');
}
