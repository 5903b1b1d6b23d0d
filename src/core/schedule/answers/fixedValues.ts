// A value that a whole list has and no cell of it says: its rack, its signal. Put into the rows that say nothing else, in
// a column of their own where the list has none for it. The file itself is not changed.
import type { Columns } from '../columns.ts';
import { meaningToWords } from '../meanings.ts';
import type { Table } from '../rows/readTypes.ts';

export interface FixedValue {
  sheet: string;
  /** Header row of the list as the spreadsheet numbers it. */
  headerRow: number;
  meaning: string;
  text: string;
}

/** Rows with fewer cells are headings and remarks, which a value put in would make items of. */
const ITEM_CELLS = 2;

/**
 * The table with the values of its list in it.
 * @param settled Cells, `row column`, that a person said something of: they keep it, blank too.
 */
export function putFixed(
  table: Table,
  columns: Columns,
  values: readonly FixedValue[],
  settled: ReadonlySet<string>,
): Table {
  const first = table.firstRow ?? 1;
  let width = table.rows.reduce((most, row) => Math.max(most, row.length), columns.titles.length);
  const added = new Map<string, number>();
  const rows = table.rows.map((row) => [...row]);
  for (const { meaning, text } of values) {
    const own = columns.at.get(meaning);
    const column = own ?? width;
    if (own === undefined) {
      added.set(meaning, column);
      width += 1;
    }
    for (const [i, row] of rows.entries()) {
      const given = table.rows[i] ?? [];
      if (i <= columns.header || given.filter((cell) => cell.trim() !== '').length < ITEM_CELLS) continue;
      while (row.length <= column) row.push('');
      const isSettled = settled.has(`${first + i} ${column + 1}`);
      if (row[column]?.trim() === '' && !isSettled) row[column] = text;
    }
  }
  return { ...table, rows, ...(added.size > 0 ? { added } : {}) };
}

/** The columns of a list with those that were put in beside them. */
export function withAdded(columns: Columns | null, { added }: Table): Columns | null {
  if (!columns || !added) return columns;
  const mine = new Set(added.values());
  const at = new Map([...columns.at].filter(([, column]) => !mine.has(column)));
  const titles = [...columns.titles];
  for (const [meaning, column] of added) {
    if (at.has(meaning)) continue;
    at.set(meaning, column);
    while (titles.length < column) titles.push('');
    titles[column] = meaningToWords(columns.kind, meaning);
  }
  return { ...columns, at, titles };
}
