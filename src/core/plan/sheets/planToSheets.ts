// The plan as sheets, in columns of our own.
import type { Plan } from '../model.ts';
import type { Table } from '../readTypes.ts';
import { planToTables } from './ownColumns.ts';

export interface PlanSheets {
  tables: (Pick<Table, 'name' | 'rows'> & { marks?: ReadonlyMap<string, 'changed' | 'removed'> })[];
  form: 'own' | 'source';
  /** Cells that say something else than in the sheet it was read from. */
  amended: number;
  /** What the columns of that sheet cannot say, in words. */
  left: string[];
}

export function planToSheets(plan: Plan): PlanSheets {
  return { tables: planToTables(plan), form: 'own', amended: 0, left: [] };
}
