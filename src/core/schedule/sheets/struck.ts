// Rows that this app struck out in a sheet it gave back: they are there to be seen, and are not read again.
import type { Table } from '../rows/readTypes.ts';

/** Title of the column that says what was amended. */
export const AMENDED = 'Amended';
/** Begins the note of a row that the plan no longer has. */
export const STRUCK = 'Struck: ';

/** The tables with struck rows blank, so that every other row keeps its number. */
export function withoutStruck(tables: readonly Table[]): readonly Table[] {
  return tables.map((table) => {
    const header = table.rows.slice(0, 40).findIndex((row) => row.includes(AMENDED));
    const column = table.rows[header]?.indexOf(AMENDED) ?? -1;
    if (column < 0 || !table.rows.some((row) => row[column]?.startsWith(STRUCK))) return table;
    return { ...table, rows: table.rows.map((row) => (row[column]?.startsWith(STRUCK) ? [] : row)) };
  });
}
