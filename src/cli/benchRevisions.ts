// Measurements of revisions: a newer sheet of 25,000 rows matched and compared with the plan in force.
import type { Plan } from '../core/plan/model.ts';
import { readTables } from '../core/plan/readTables.ts';
import { comparePlans } from '../core/plan/revisions/compare.ts';
import { keepIds } from '../core/plan/revisions/keepIds.ts';
import { createFacility } from './benchFacility.ts';
import { against, measure, type Row } from './benchMeasure.ts';

const ROWS = 25_000;

export async function measureRevisions(say: (text: string) => void): Promise<Row[]> {
  say('Measuring revisions …');
  const { rows: cells } = createFacility(ROWS);
  const newer = toNewer(cells);
  const read = (rows: string[][]): Plan => {
    const result = readTables([{ name: 'Cables', rows }], { name: 'facility' });
    if (result.type !== 'plan') throw new Error(result.why);
    return result.plan;
  };
  const [old, next] = [read(cells), read(newer)];
  const changes = comparePlans(old, keepIds(old, next, 'r'));
  const renamed = changes.filter((one) => one.type === 'field' && one.field === 'label' && one.item === 'cable').length;
  if (renamed !== Math.floor(ROWS / 100)) throw new Error(`${renamed} numbers are told as changed.`);
  const value = await measure(
    () => next,
    (given) => comparePlans(old, keepIds(old, given, 'r')),
  );
  const reading = await measure(
    () => newer,
    (given) => read(given),
  );
  return [
    against({ name: 'a newer sheet compared', size: `${ROWS} rows`, value, unit: 'ms' }, 'peer', 'reading it', reading),
  ];
}

/** One number in a hundred is another one, one far jack in fifty is another row's; the rows run backwards. */
function toNewer(cells: readonly string[][]): string[][] {
  const [header = [], ...rows] = cells;
  const next = rows.map((row) => [...row]);
  for (let i = 99; i < next.length; i += 100) next[i]![0] = `N${next[i]![0]}`;
  for (let i = 0; i + 1 < next.length; i += 50) {
    const [a, b] = [next[i]!, next[i + 1]!];
    for (const column of [4, 5, 6]) [a[column], b[column]] = [b[column]!, a[column]!];
  }
  return [header, ...next.reverse()];
}
