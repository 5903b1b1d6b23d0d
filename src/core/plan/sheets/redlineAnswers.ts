// What a person said of a sheet, for the sheet as it was written: rows that moved keep their answers, cells that were
// written anew need none. Nothing is read here.
import type { Table } from '../readTypes.ts';
import type { SheetAnswers } from '../sheetAnswers.ts';

interface Written {
  table: Table & { marks: ReadonlyMap<string, unknown> };
  /** Where each row of the source stands now, both counted from 0; null where every row stays. */
  moved: readonly number[] | null;
}

export function movedAnswers({ mappings, cells }: SheetAnswers, written: readonly Written[]): SheetAnswers {
  const bySheet = new Map(written.map((one) => [one.table.name, one]));
  return {
    mappings,
    cells: cells.flatMap((answer) => {
      const one = bySheet.get(answer.sheet);
      if (!one || answer.row === null) return [answer];
      const first = one.table.firstRow ?? 1;
      const index = answer.row - first;
      const now = one.moved ? one.moved[index] : index;
      if (now === undefined || one.table.marks.has(`${now},${answer.column - 1}`)) return [];
      return [{ ...answer, row: first + now }];
    }),
  };
}
