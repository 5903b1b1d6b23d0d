// Measurements of revisions: a newer sheet of 25,000 rows matched and compared with the plan in force, and the sheet given
// back with amendments.

import type { Plan } from '../../src/core/plan/model.ts';
import { sheetsLeftToLines } from '../../src/core/report/plan/sheetsLeft.ts';
import { readTables } from '../../src/core/schedule/readTables.ts';
import { comparePlans } from '../../src/core/schedule/revisions/compare.ts';
import { keepIds } from '../../src/core/schedule/revisions/keepIds.ts';
import type { Table } from '../../src/core/schedule/rows/readTypes.ts';
import { planToSheets } from '../../src/core/schedule/sheets/planToSheets.ts';
import { amendWorkbook } from '../../src/files/back/workbook.ts';
import { tablesToXlsx } from '../../src/files/planSheet.ts';
import { readXlsx } from '../../src/files/xlsx.ts';
import { createFacility } from './benchFacility.ts';
import { against, measure, type Row } from './benchMeasure.ts';

const ROWS = 25_000;
const AMENDED = 500;

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
  const amended = amend(old);
  const source = [{ name: 'Cables', rows: cells }];
  const sheets = planToSheets(amended, source);
  if (sheets.form !== 'source' || sheets.amended !== AMENDED || sheetsLeftToLines(sheets.left).length > 0)
    throw new Error(`${sheets.amended} cells amended, ${sheetsLeftToLines(sheets.left).length} left.`);
  const redline = await measure(
    () => amended,
    (given) => planToSheets(given, source),
  );
  const size = `${ROWS} rows`;
  return [
    against({ name: 'a newer sheet compared', size, value, unit: 'ms' }, 'peer', 'reading it', reading),
    against(
      { name: `the sheet given back, ${AMENDED} cells amended`, size, value: redline, unit: 'ms' },
      'peer',
      'reading it twice',
      2 * reading,
    ),
    await measureWorkbook(amended, source, size),
  ];
}

/** The whole way of a workbook that is given back: put together, amended in place, read again. */
async function measureWorkbook(amended: Plan, source: Table[], size: string): Promise<Row> {
  const bytes = await tablesToXlsx(source);
  const opened = await readXlsx(bytes);
  if (opened.type !== 'tables') throw new Error(opened.error.what);
  const { tables } = opened;
  const value = await measure(
    () => amended,
    async (given) => {
      const back = await amendWorkbook(bytes, tables, planToSheets(given, tables).tables);
      if (back.type !== 'amended') throw new Error(back.why);
    },
  );
  return against({ name: 'its own workbook given back', size, value, unit: 'ms' }, 'goal', 'five seconds', 5_000);
}

function amend(plan: Plan): Plan {
  const every = Math.floor(plan.cables.length / AMENDED);
  return {
    ...plan,
    origin: 'amendments',
    cables: plan.cables.map((cable, i) =>
      i % every === 0 && i < every * AMENDED ? { ...cable, length: `${900 + (i % 50)}` } : cable,
    ),
  };
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
