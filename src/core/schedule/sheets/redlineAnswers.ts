// What a person said of a sheet, for the sheet as it was written: rows that moved keep their answers, cells that were
// written anew need none. Nothing is read here.
import type { Table } from '../rows/readTypes.ts';
import { holdsRow, type SheetAnswers } from '../sheetAnswers.ts';

/** One list of the source, and what was written of it. */
interface Written {
  from: Table;
  table: Table & { marks: ReadonlyMap<string, unknown> };
  /** Where each row of the source stands now, both counted from 0; null where every row stays. */
  moved: readonly number[] | null;
}

export function movedAnswers({ mappings, cells }: SheetAnswers, written: readonly Written[]): SheetAnswers {
  /** The number of a row now, and whether this cell of it says what it said. */
  const moved = (sheet: string, row: number, column: number): number | null => {
    const one = written.find(({ from }) => holdsRow(from, sheet, row));
    if (!one) return row;
    const index = row - (one.from.firstRow ?? 1);
    const now = one.moved ? one.moved[index] : index;
    if (now === undefined || one.table.marks.has(`${now},${column - 1}`)) return null;
    return (one.table.firstRow ?? 1) + now;
  };
  return {
    mappings: mappings.map((one) => ({ ...one, headerRow: moved(one.sheet, one.headerRow, 0) ?? one.headerRow })),
    cells: cells.flatMap((answer) => {
      const row = answer.row === null ? null : moved(answer.sheet, answer.row, answer.column);
      return answer.row !== null && row === null ? [] : [{ ...answer, row }];
    }),
  };
}
