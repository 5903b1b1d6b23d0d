// The demo station: the files in public/demo are what the generator makes, and the floor holds what the list plants.
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { demoFiles, demoTables } from '../../src/cli/demo.ts';
import type { Plan } from '../../src/core/plan/model.ts';
import { indexPlan } from '../../src/core/plan/planIndex.ts';
import { planToPlaceNames, textToPlaces } from '../../src/core/plan/saidPlace.ts';
import { DISCREPANCY_KINDS } from '../../src/core/rules/discrepancy.ts';
import { foldAll } from '../../src/core/rules/fold.ts';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { planToLabels } from '../../src/core/schedule/rows/cableLabels.ts';
import { readSheetFile } from '../../src/files/sheet.ts';
import { readSightingsCsv, type SightingRow } from '../../src/files/sightingsCsv.ts';

const folder = new URL('../../public/demo/', import.meta.url);
const file = (name: string) => new Uint8Array(readFileSync(new URL(name, folder)));
const plantedSchema = z.object({
  planted: z.array(
    z.object({ kind: z.enum(DISCREPANCY_KINDS), places: z.array(z.string()), labels: z.array(z.string()) }),
  ),
});

async function planOf(name: string): Promise<Plan> {
  const sheet = await readSheetFile(file(name), name);
  if (sheet.type !== 'tables') throw new Error(sheet.error.what);
  const read = readTables(sheet.tables, { name });
  if (read.type !== 'plan') throw new Error(read.why);
  expect(read.questions).toEqual([]);
  return read.plan;
}

describe('the demo station', () => {
  let plan: Plan;
  let floor: SightingRow[];
  const { planted } = plantedSchema.parse(JSON.parse(new TextDecoder().decode(file('planted.json'))));
  beforeAll(async () => {
    plan = await planOf('schedule.xlsx');
    const read = readSightingsCsv(file('floor.csv'), plan);
    if (read.type !== 'sightings') throw new Error(read.type);
    expect(read.errors).toEqual([]);
    floor = read.sightings;
  });

  it('is what the generator makes, byte for byte', async () => {
    for (const [name, made] of await demoFiles()) {
      const bytes = typeof made === 'string' ? new TextEncoder().encode(made) : made;
      expect(Buffer.compare(file(name), bytes), name).toBe(0);
    }
  });

  it('has about 150 cables and a plan that does not contradict itself', () => {
    expect(plan.cables.length).toBeGreaterThanOrEqual(140);
    expect(plan.contradictions).toEqual([]);
  });

  it('joins the same places in the workbook and in the list with columns of its own', async () => {
    const ends = (one: Plan) => one.cables.map((cable) => [cable.id, ...cable.ends.map((end) => end.place)]);
    expect(ends(await planOf('schedule.csv'))).toEqual(ends(plan));
  });

  it('reads the same from the workbook as from the tables it was made of', () => {
    const read = readTables(demoTables(), { name: 'schedule.xlsx' });
    expect(read.type === 'plan' && read.plan).toEqual(plan);
  });

  it('states every jack of the plan exactly once', () => {
    const stated = floor.flatMap((row) => row.payload.places).filter((place) => !/^[@~]/.test(place));
    expect([...stated].sort()).toEqual(plan.jacks.map((jack) => jack.id).sort());
  });

  it('differs from the plan only at places that the planted list accounts for', () => {
    const names = planToPlaceNames(plan);
    const idsOf = (text: string) => {
      const read = textToPlaces(text, names);
      return read.type === 'places' ? read.places : [];
    };
    const listed = new Set(planted.flatMap((one) => one.places.flatMap(idsOf)));
    const movers = new Set(planted.filter((one) => one.kind !== 'unplanned-cable').flatMap((one) => one.labels));
    const labelAt = new Map(plan.cables.flatMap((cable) => cable.ends.map((end) => [end.place, cable.label] as const)));
    for (const { payload } of floor) {
      for (const place of payload.places.filter((one) => !/^[@~]/.test(one))) {
        const expected = labelAt.get(place);
        const found = payload.plugs[0]?.labels[0]?.text;
        if (found === expected && (payload.state === 'label') === (expected !== undefined)) continue;
        // A differing place is listed itself, or the cable planned there is listed where it was found.
        expect(listed.has(place) || movers.has(expected ?? ''), place).toBe(true);
      }
    }
  });

  it('plants each kind of difference that the walk through is about', () => {
    const kinds = planted.map((one) => one.kind);
    expect(kinds.filter((kind) => kind === 'wrong-jack')).toHaveLength(5);
    const others = [
      'empty-jack',
      'unplanned-cable',
      'unlabelled-cable',
      'illegible-label',
      'duplicate-label',
      'spare-in-use',
      'signal-clash',
      'old-label-left',
      'one-end-labelled',
      'not-landed',
      'unit-moved',
    ];
    expect(kinds).toEqual(expect.arrayContaining(others));
  });

  it('shows every planted difference to the fold, at its place and with its labels', () => {
    const events = floor.map((row, i) => ({
      ...{ v: 1, station: 's', log: 'l', prev: null, kind: 'sighting' as const, payload: row.payload },
      ...{ id: `e${String(i).padStart(5, '0')}`, seq: i, author: row.author, at: row.at ?? 0, zone: row.zone },
    }));
    const index = indexPlan(plan);
    const names = planToPlaceNames(plan);
    const found = foldAll(index, events).discrepancies();
    for (const { kind, places, labels } of planted) {
      const ids = places.flatMap((text) => {
        const read = textToPlaces(text, names);
        return read.type === 'places' ? read.places : [];
      });
      const match = found.find(
        (one) =>
          one.kind === kind &&
          ids.every((place) => one.places.includes(place)) &&
          labels.every((label) => one.labels.includes(label)),
      );
      expect(match, `${kind} ${places.join(', ')}`).toBeDefined();
    }
  });

  it('uses only addresses set aside for documentation (RFC 5737, RFC 9542)', () => {
    const settings = plan.settings.filter((setting) => setting.name === 'address');
    expect(settings.length).toBeGreaterThan(15);
    for (const { value } of settings) expect(value).toMatch(/^(192\.0\.2|198\.51\.100)\.\d{1,3}$/);
    for (const unit of plan.units) if (unit.mac) expect(unit.mac).toMatch(/^00-00-5E-00-53-[0-9A-F]{2}$/);
  });

  it('gives one label for each end, saying where this end and the other go', () => {
    const labels = planToLabels(plan);
    expect(labels).toHaveLength(plan.cables.length * 2);
    expect(labels.find((label) => label.text === '1003' && label.end === 'B')).toEqual({
      cable: '1003',
      end: 'B',
      text: '1003',
      here: 'SW1 P03',
      there: 'MIO31 NET',
    });
  });
});
