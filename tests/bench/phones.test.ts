// A few phones of the measurement at a real server: everything pushed is pulled once, the photos are there. Times are
// not looked at.
import { resolve } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { startPostgres } from '../server/postgres.ts';
import { bundleServer } from '../server/process.ts';
import { loadServer } from './benchPhones.ts';
import { type LoadSize, makeBatches, makePhotos } from './phonesMade.ts';
import { runPeer } from './phonesPeer.ts';

const SIZE: LoadSize = { phones: 3, eventsEach: 70, photos: 5, followers: 2, atOnce: 4 };
const EVENTS = SIZE.phones * SIZE.eventsEach;
const batches = makeBatches(SIZE);
const photos = makePhotos(SIZE.photos);

let program: string;
beforeAll(async () => {
  program = resolve(await bundleServer('bench-phones'));
});

describe('what the phones bring', () => {
  test('is the same from the same seed, every entry another one, every photo of its size', () => {
    expect(makeBatches(SIZE)).toEqual(batches);
    expect(makePhotos(SIZE.photos).map(({ sha }) => sha)).toEqual(photos.map(({ sha }) => sha));
    expect(new Set(batches.flat(2)).size).toBe(EVENTS);
    expect(new Set(photos.map(({ sha }) => sha)).size).toBe(SIZE.photos);
    for (const { bytes } of photos) expect(Math.abs(bytes.length - 300_000)).toBeLessThanOrEqual(100_000);
  });
});

async function check(url: string | null): Promise<void> {
  const load = await loadServer(program, url, SIZE, batches, photos);
  // The one that makes entries all the while is pulled as well.
  const all = { held: EVENTS + load.made, twice: 0 };
  expect(load.followed).toEqual(Array.from({ length: SIZE.followers }, () => all));
  expect(load.push).toHaveLength(batches.flat().length);
  expect(load.photosHeld).toBe(SIZE.photos);
  expect(load.made).toBeGreaterThan(0);
  expect(load.seen.events.length).toBeGreaterThan(0);
}

test('on SQLite everything pushed is pulled once, and the photos are there', async () => {
  await check(null);
});

test('on PostgreSQL as well', async () => {
  const postgres = await startPostgres();
  try {
    await check(await postgres.fresh());
  } finally {
    await postgres.stop();
  }
});

test('the peer holds the same entries at each that follows', async () => {
  const peer = await runPeer(SIZE, batches);
  expect(peer.held).toEqual([EVENTS, EVENTS]);
  expect(peer.push).toHaveLength(batches.flat().length);
});
