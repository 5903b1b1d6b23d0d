// The plan as sheets: in the columns of the sheet it was read from where that is here, else in columns of our own.
import type { Plan } from '../../plan/model.ts';
import type { Table } from '../rows/readTypes.ts';
import { planToTables } from './ownColumns.ts';
import type { PlanSheets } from './planSheets.ts';
import { type RedlineHow, redline } from './redline.ts';

/** @param source The tables of the files that the plan was read from; null where they are not here. */
export function planToSheets(plan: Plan, source: readonly Table[] | null, how?: RedlineHow): PlanSheets {
  const amended = source && redline(plan, source, how);
  return amended ?? { tables: planToTables(plan), form: 'own', amended: 0, left: { type: 'nothing' } };
}
