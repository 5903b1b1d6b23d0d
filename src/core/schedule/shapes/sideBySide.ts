// Lists beside each other on one sheet, as splitLists.ts has them one below another: a table for each, in which the cells
// of the others are blank, so that rows and columns keep their numbers.
//
// Limits: Each list needs a header of its own in the same row. Where no blank column parts them, each has to be a list of
// cables with a column for their numbers.
import { headerAt, SEARCHED_ROWS, titleToKey } from '../columns.ts';
import type { Table } from '../rows/readTypes.ts';

type Rows = readonly (readonly string[])[];

/** A table with one list across stays the very same. */
export function splitBeside(table: Table): Table[] {
  for (let i = 0; i < Math.min(table.rows.length - 1, SEARCHED_ROWS); i += 1) {
    const begins = beginsIn(table.rows, i);
    if (begins.length > 1)
      return begins.map((begin, k) => part(table, begin, begins[k + 1] ?? Number.POSITIVE_INFINITY));
  }
  return [table];
}

/** The columns in which lists begin whose header is in this row; none where it names one list or none. */
function beginsIn(rows: Rows, header: number): number[] {
  const keys = (rows[header] ?? []).map(titleToKey);
  const first = keys.findIndex((key) => key !== '');
  if (keys.filter((key) => key !== '').length < 4) return [];
  const again = keys.flatMap((key, column) => (key === keys[first] ? [column] : []));
  if (
    again.length > 1 &&
    listsAt(rows, header, again).every((list) => list?.kind === 'cables' && list.at.has('number'))
  )
    return [0, ...again.slice(1)];
  const gaps = keys.flatMap((key, column) =>
    key === '' && column > first && keys[column + 1] && rows.slice(header).every((row) => !row[column]?.trim())
      ? [column + 1]
      : [],
  );
  const begins = [0, ...gaps];
  return gaps.length > 0 && listsAt(rows, header, begins).every((list) => list !== null) ? begins : [];
}

function listsAt(rows: Rows, header: number, begins: readonly number[]): (ReturnType<typeof headerAt> | null)[] {
  return begins.map((begin, k) => {
    const cut = (row: readonly string[] = []) => row.slice(begin, begins[k + 1]);
    const list = headerAt([...(header > 0 ? [cut(rows[header - 1])] : []), cut(rows[header])], header > 0 ? 1 : 0);
    const hasItems = rows.slice(header + 1).some((row) => cut(row).filter((cell) => cell.trim() !== '').length > 1);
    return hasItems ? list : null;
  });
}

function part(table: Table, from: number, to: number): Table {
  const { notes, merged } = table;
  const isHere = ({ column }: { column: number }) => column === 0 || (column > from && column <= to);
  return {
    ...table,
    rows: table.rows.map((row) => row.slice(0, to).map((cell, column) => (column < from ? '' : cell))),
    beside: { from: from + 1, to },
    ...(notes ? { notes: notes.filter(isHere) } : {}),
    ...(merged ? { merged: merged.filter(isHere) } : {}),
  };
}
