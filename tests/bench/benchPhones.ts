// Two hundred phones of one station that come back at once, at the built server as a process of its own on this machine:
// on SQLite, and on a PostgreSQL that is made for it. The same entries through a shared Yjs document are the peer.
import { randomBytes } from 'node:crypto';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type DatabaseAddress, openDatabase } from '../../src/server/database/database.ts';
import { makeCode, pairPhone } from '../../src/server/phones/pairing.ts';
import { startPostgres, type TestPostgres } from '../server/postgres.ts';
import { startServer } from '../server/process.ts';
import { against, counted, percentile, type Row } from './benchMeasure.ts';
import { peakMemory } from './benchServer.ts';
import { type Load, runLoad } from './phonesLoad.ts';
import { type LoadSize, type MadePhoto, makeBatches, makePhotos, STATION } from './phonesMade.ts';
import { PEER, type PeerLoad, runPeer } from './phonesPeer.ts';

type Say = (text: string) => void;

const SIZE: LoadSize = { phones: 200, eventsEach: 250, photos: 500, followers: 10, atOnce: 32 };

export async function measurePhones(say: Say, root: string): Promise<Row[]> {
  const program = join(root, 'dist-node', 'server.js');
  if (!existsSync(program)) {
    say('Not measured: two hundred phones, since there is no build.');
    return [];
  }
  const batches = makeBatches(SIZE);
  const photos = makePhotos(SIZE.photos);
  say('Measuring the peer of the phones …');
  const peer = await runPeer(SIZE, batches);
  const measureOn = async (name: string, url: string | null) => {
    say(`Measuring ${SIZE.phones} phones on ${name} …`);
    return toRows(name, await loadServer(program, url, SIZE, batches, photos), peer, photos);
  };
  const rows = await measureOn('SQLite', null);
  let postgres: TestPostgres;
  try {
    postgres = await startPostgres();
  } catch (error) {
    say(`Not measured: two hundred phones on PostgreSQL. ${error instanceof Error ? error.message : String(error)}`);
    return rows;
  }
  try {
    return [...rows, ...(await measureOn('PostgreSQL, fsync off', await postgres.fresh()))];
  } finally {
    await postgres.stop();
  }
}

type Loaded = Load & { memory: number | null };

/** @param url Of an empty PostgreSQL database; null for SQLite in a folder that is gone afterwards. */
export async function loadServer(
  program: string,
  url: string | null,
  size: LoadSize,
  batches: readonly string[][][],
  photos: readonly MadePhoto[],
): Promise<Loaded> {
  const data = mkdtempSync(join(tmpdir(), 'asfound-bench-phones-'));
  try {
    const address: DatabaseAddress =
      url === null ? { type: 'sqlite', file: join(data, 'asfound.db') } : { type: 'postgresql', url };
    const tokens = await pairAll(address, size.phones + 2);
    const server = await startServer(program, { PORT: '0', ASFOUND_DATA: data, DATABASE_URL: url ?? '' });
    try {
      const load = await runLoad(`http://127.0.0.1:${server.port}`, tokens, size, batches, photos);
      return { ...load, memory: peakMemory(server.child) };
    } finally {
      await server.kill('SIGTERM');
    }
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
}

/** Straight into the database: over the wire pairing is slow on purpose. */
async function pairAll(address: DatabaseAddress, count: number): Promise<string[]> {
  const db = await openDatabase(address);
  try {
    const tokens: string[] = [];
    while (tokens.length < count) {
      const first = tokens.length === 0;
      const { code } = await makeCode(db, randomBytes, Date.now(), first ? null : STATION);
      const asked = { code, phone: `Phone ${tokens.length + 1}`, station: first ? STATION : null };
      const paired = await pairPhone(db, randomBytes, Date.now(), asked);
      if (paired.type !== 'paired') throw new Error(`A phone was not paired: ${paired.type}`);
      tokens.push(paired.answer.token);
    }
    return tokens;
  } finally {
    await db.close();
  }
}

function toRows(name: string, load: Loaded, peer: PeerLoad, photos: readonly MadePhoto[]): Row[] {
  const { phones, eventsEach, followers, atOnce } = SIZE;
  const all = phones * eventsEach;
  if (
    load.followed.some(({ held, twice }) => held !== all + load.made || twice > 0) ||
    load.photosHeld !== photos.length
  )
    throw new Error(`Not everything came once: ${JSON.stringify([load.followed, load.photosHeld])}`);
  const size = `${name}, ${phones} phones, one run`;
  const row = (what: string, value: number, unit: string) => counted({ name: what, size, value, unit });
  const beside = (what: string, value: number, unit: string, theirs: number) =>
    against({ name: what, size, value, unit }, 'peer', PEER, theirs);
  const megabytes = photos.reduce((sum, { bytes }) => sum + bytes.length, 0) / 1e6;
  return [
    beside(
      `${all} events taken in, ${atOnce} at once; ${followers} phones pull all, the others from their own mark`,
      all / load.seconds.events,
      'per s',
      all / peer.seconds,
    ),
    ...[50, 95, 99].map((share) =>
      beside(
        `… a batch of 20 to 50 pushed, ${share} of 100 within`,
        percentile(load.push, share),
        'ms',
        percentile(peer.push, share),
      ),
    ),
    row(`… ${photos.length} photos taken in, 8 at once`, photos.length / load.seconds.photos, 'per s'),
    row('… and their bytes', megabytes / load.seconds.photos, 'MB per s'),
    ...[50, 95].map((share) =>
      row(`… an entry seen by another phone among events, ${share} of 100`, percentile(load.seen.events, share), 'ms'),
    ),
    ...[50, 95].map((share) =>
      row(`… among photos with ${phones} streams open, ${share} of 100`, percentile(load.seen.photos, share), 'ms'),
    ),
    row('… slowest of a tiny request every 50 ms', load.stall.server, 'ms'),
    row('… longest stall of the measuring process itself', load.stall.own, 'ms'),
    row('… connections that broke and were tried again', load.broken, ''),
    row('… answers "come again later"', load.told, ''),
    ...(load.memory === null ? [] : [row('… most memory of the server', load.memory, 'MB')]),
  ];
}
