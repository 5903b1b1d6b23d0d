// A small seeded fault run: nothing lost, nothing twice, nothing changed. The large one is `npm run faults`.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { bundleServer } from '../server/process.ts';
import { seeded } from './faultActs.ts';
import { faultRun } from './faultRun.ts';
import { countsText } from './faultVerdict.ts';

vi.setConfig({ testTimeout: 240_000, hookTimeout: 60_000 });

let file: string;
let folder: string;
beforeAll(async () => {
  file = await bundleServer('faults');
  folder = mkdtempSync(join(tmpdir(), 'asfound-faults-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('three phones, a bad way, kills, a restore, damage, poison and wrong clocks: all hold the same in the end', async () => {
  const seed = 20_261;
  const acts = 80;
  const said: string[] = [];
  const counts = await faultRun(
    {
      seed,
      phones: 3,
      over: (act) => act >= acts,
      server: { file, folder, freshPostgres: null },
      say: (text) => said.push(text),
    },
    acts,
  );
  console.log(countsText(seed, counts));
  // It was a bad day indeed.
  expect(counts.acts).toBe(acts);
  expect(counts.kills).toBeGreaterThanOrEqual(3);
  expect(counts.restores).toBeGreaterThanOrEqual(1);
  expect(Math.min(counts.poison, counts.damaged, counts.clockJumps, counts.restarts)).toBeGreaterThanOrEqual(1);
  expect(counts.entries).toBeGreaterThan(20);
  expect(counts.documents).toBeGreaterThan(2);
  const { lost, twice, differing, failures } = counts;
  expect({ lost, twice, differing, failures, said: said.slice(-8) }).toEqual({
    lost: [],
    twice: [],
    differing: [],
    failures: [],
    said: said.slice(-8),
  });
});

test('a seed gives one and the same row of chances', () => {
  const row = (seed: number) => Array.from({ length: 5 }, seeded(seed));
  expect(row(7)).toEqual(row(7));
  expect(row(7)).not.toEqual(row(8));
  expect(row(7).every((one) => one >= 0 && one < 1)).toBe(true);
});
