// Why a file is no schedule, in one sentence with the place and what to do, and what of one is no list. Nothing is read
// here.
import { type Columns, findColumns, SEARCHED_ROWS } from './columns.ts';
import type { ReadOptions } from './readOptions.ts';
import type { Ignored, ReadPlan, Table } from './rows/readTypes.ts';

/** @param lists Lists that have a header and nothing below it that is an item. */
export function notASchedule(
  tables: readonly Table[],
  options: ReadOptions,
  lists: readonly { table: Table; columns: Columns }[],
): ReadPlan {
  const answer = (why: string, where: { sheet: string; row: number } | null, nextStep: string): ReadPlan => ({
    type: 'not-a-schedule',
    why,
    where,
    nextStep,
  });
  const first = tables.find((table) => table.rows.some((row) => row.some((cell) => cell.trim() !== '')));
  if (!first) return answer(`${options.name} has no cells.`, null, 'Choose the file with the schedule.');
  const [list] = lists;
  if (list) {
    const row = (list.table.firstRow ?? 1) + list.columns.header;
    const why = `Row ${row} of ${list.table.name} names the columns of a list, but no row below it is an item.`;
    return answer(
      why,
      { sheet: list.table.name, row },
      'Check that the rows are there and that each column is under its name.',
    );
  }
  const turned = tables.find((table) => findColumns(turn(table)) !== null);
  if (turned) {
    const why = `The column names run downwards in ${turned.name}: every item is a column there.`;
    const nextStep = 'Swap rows and columns in the spreadsheet (paste, transposed) and choose it again.';
    return answer(why, { sheet: turned.name, row: turned.firstRow ?? 1 }, nextStep);
  }
  return answer(
    `No row within the first ${SEARCHED_ROWS} of ${tables.map((table) => table.name).join(', ')} names the columns of a schedule.`,
    { sheet: first.name, row: first.firstRow ?? 1 },
    'Give one row column names such as Cable, From, From Jack, To, To Jack, or Unit, Rack, U.',
  );
}

/** @param isWhole False where other rows of the sheet are a list. */
export function toIgnored({ name, rows, firstRow = 1 }: Table, isWhole: boolean): Ignored {
  let said = '';
  for (const row of rows) said ||= row.find((cell) => cell.trim() !== '')?.trim() ?? '';
  return { sheet: name, row: firstRow, isWhole, said };
}

/** The first columns of a sheet as rows. */
function turn({ rows }: Table): string[][] {
  const head = rows.slice(0, 60);
  const width = Math.min(3, Math.max(0, ...head.map((row) => row.length)));
  return Array.from({ length: width }, (_, column) => head.map((row) => row[column] ?? ''));
}
