// Measurements of the core: folding, one more sighting, look-up, search and screens' slices, at two sizes, so that what
// grows with the plan shows.
import { explain } from '../../src/core/causes/explain.ts';
import { lookUp } from '../../src/core/plan/lookUp.ts';
import { indexPlan, type PlanIndex } from '../../src/core/plan/planIndex.ts';
import { searchPlan } from '../../src/core/report/plan/searchPlan.ts';
import { verdictAt } from '../../src/core/report/walk/verdict.ts';
import { walkView } from '../../src/core/report/walk/walkView.ts';
import { createFold, type Fold, foldAll } from '../../src/core/rules/fold.ts';
import { nameToKey } from '../../src/core/trade/names.ts';
import { createFacility, type Facility } from './benchFacility.ts';
import { against, counted, measure, type Row } from './benchMeasure.ts';

const SMALL = 2_500;
const LARGE = 25_000;
const SIGHTINGS = 100;

export async function measureCore(say: (text: string) => void): Promise<Row[]> {
  const rows: Row[] = [];
  const full: number[] = [];
  const one: number[] = [];
  const slice: number[] = [];
  for (const cables of [SMALL, LARGE]) {
    say(`Measuring the core at ${cables} cables …`);
    const facility = createFacility(cables);
    const size = `${cables} cables`;
    const index = indexPlan(facility.plan);
    full.push(await fullRows(facility, size, rows));
    const fold = foldAll(index, facility.events);
    one.push(await sightingRows(fold, facility, size, rows));
    slice.push(await sliceRow(fold, facility, size, rows));
    if (cables === LARGE) await textRows(facility, index, size, rows);
  }
  const grown = (values: number[]) => values[1]! / values[0]!;
  const growth = { size: `${SMALL} to ${LARGE}`, unit: '×' };
  rows.push(
    against({ ...growth, name: 'growth of the full fold', value: grown(full) / 10 }, 'goal', '1.3 × linear', 1.3),
    counted({ ...growth, name: 'growth of one more sighting (1 = independent of the plan)', value: grown(one) }),
    counted({ ...growth, name: "growth of the walk's slice", value: grown(slice) }),
  );
  return rows;
}

async function fullRows({ plan, events }: Facility, size: string, rows: Row[]): Promise<number> {
  const text = JSON.stringify({ plan, events });
  const parse = await measure(
    () => text,
    (given) => JSON.parse(given),
  );
  let found = 0;
  const value = await measure(
    () => null,
    () => {
      const fold = foldAll(plan, events);
      const differences = fold.discrepancies();
      found = differences.length;
      explain(fold, differences);
    },
  );
  if (found < events.length / 200) throw new Error('The fold found less than the facility holds.');
  const row = { name: 'index, full fold, discrepancies and causes', size, value, unit: 'ms' };
  rows.push(against(row, 'goal', '500 ms', 500), against(row, 'goal', '5 × JSON.parse of the same', parse * 5));
  return value;
}

/** One by one, as a walk brings them; each followed by the verdict the screen waits for. */
async function sightingRows(fold: Fold, facility: Facility, size: string, rows: Row[]): Promise<number> {
  let next = 0;
  const [places, cables] = [[] as number[], [] as number[]];
  const total = await measure(
    () => Array.from({ length: SIGHTINGS }, () => facility.another(next++)),
    (events) => {
      for (const event of events) {
        const touched = fold.add([event]);
        places.push(touched.places.size);
        cables.push(touched.cables.size);
        if (event.kind === 'sighting') verdictAt(fold, event.payload.places[0]!);
      }
    },
  );
  const again = foldAll(fold.index, [
    ...facility.events,
    ...Array.from({ length: next }, (_, i) => facility.another(i)),
  ]);
  if (JSON.stringify(again.discrepancies()) !== JSON.stringify(fold.discrepancies())) {
    throw new Error('One by one is not the same as all at once.');
  }
  const value = total / SIGHTINGS;
  rows.push(
    against({ name: 'one more sighting and its verdict', size, value, unit: 'ms' }, 'goal', '5 ms', 5),
    counted({ name: 'places touched by a sighting, most', size, value: Math.max(...places), unit: 'places' }),
    counted({ name: 'cables touched by a sighting, most', size, value: Math.max(...cables), unit: 'cables' }),
  );
  return value;
}

/** The slice of the walk screen is made anew after each sighting; a quarter of 100 ms, since phones count four times. */
async function sliceRow(fold: Fold, facility: Facility, size: string, rows: Row[]): Promise<number> {
  const places = facility.plan.jacks
    .filter((_, i) => i % Math.floor(facility.plan.jacks.length / 3) === 5)
    .map((jack) => jack.id);
  const total = await measure(
    () => places,
    (given) => {
      for (const place of given) if (!walkView(fold, 'a', place)) throw new Error(`No slice at ${place}.`);
    },
  );
  const value = total / places.length;
  rows.push(
    against({ name: "the walk screen's slice at one place", size, value, unit: 'ms' }, 'goal', '100 ms ÷ 4', 25),
  );
  return value;
}

async function textRows(facility: Facility, index: PlanIndex, size: string, rows: Row[]): Promise<void> {
  const labels = facility.plan.cables
    .slice(0, 10_000)
    .map((cable) => ` ${cable.ends[0]!.unit}_${cable.label.toLowerCase()} `);
  let sink = 0;
  const perCall = async (texts: readonly string[], call: (text: string) => number) => {
    const total = await measure(
      () => texts,
      (given) => {
        for (const text of given) sink += call(text);
      },
    );
    return (total * 1000) / texts.length;
  };
  const key = await perCall(labels, (text) => nameToKey(text).length);
  const upper = await perCall(labels, (text) => text.trim().toUpperCase().length);
  rows.push(
    against(
      { name: 'nameToKey, per call', size: '10000 names', value: key, unit: 'µs' },
      'peer',
      'trim and toUpperCase',
      upper,
    ),
  );
  const known = facility.plan.cables.slice(0, 10_000).map((cable) => cable.label);
  const exact = await perCall(known, (text) => (lookUp(index.names, text, 'cable').type === 'found' ? 1 : 0));
  const bare = await perCall(known, (text) => index.names.exact.get(text)?.length ?? 0);
  const folded = await perCall(
    known.map((text) => text.replace('1', 'l')),
    (text) => (lookUp(index.names, text, 'cable').type === 'found' ? 1 : 0),
  );
  rows.push(
    against({ name: 'look-up of an exact label, per call', size, value: exact, unit: 'µs' }, 'peer', 'Map.get', bare),
    against({ name: 'look-up of a misread label, per call', size, value: folded, unit: 'µs' }, 'peer', 'Map.get', bare),
  );
  for (const [what, text] of [
    ['a label', '17003'],
    ['nothing that is there', 'QQ77'],
    ['a unit', 'AIO2'],
    ['one letter', 'P'],
  ] as const) {
    const hits = searchPlan(index, text).reduce((sum, { n }) => sum + n, 0);
    if (hits > 0 !== (text !== 'QQ77')) throw new Error(`Search for ${text} found ${hits}.`);
    const value = await measure(
      () => text,
      (given) => searchPlan(index, given),
    );
    const plain = await measure(
      () => text,
      (given) => {
        for (const cable of index.plan.cables) {
          const line = `${cable.label} ${cable.ends.map((end) => `${end.unit} ${end.jack}`).join(' ')}`;
          if (line.toUpperCase().includes(given)) sink += 1;
        }
      },
    );
    rows.push(
      against({ name: `search for ${what}`, size, value, unit: 'ms' }, 'peer', 'includes over every row', plain),
    );
  }
  const empty = await measure(
    () => null,
    () => createFold(facility.plan),
  );
  const walk = await measure(
    () => null,
    () => structuredClone(facility.plan),
  );
  rows.push(
    against({ name: 'index of a plan', size, value: empty, unit: 'ms' }, 'peer', 'structuredClone of it', walk),
  );
  if (sink < 0) throw new Error('Nothing was measured.');
}
