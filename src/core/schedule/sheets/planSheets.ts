// The plan as sheets, and what their columns could not say.
import type { Plan } from '../../plan/model.ts';
import type { Table } from '../rows/readTypes.ts';

/** What the written sheet says against what the plan says, to be compared and told by whoever makes words. */
export type SheetsLeft = { type: 'nothing' } | { type: 'unread' } | { type: 'read'; sheet: Plan; plan: Plan };

export interface PlanSheets {
  tables: (Pick<Table, 'name' | 'rows'> & { marks?: ReadonlyMap<string, 'changed' | 'removed'> })[];
  form: 'own' | 'source';
  /** Cells that say something else than in the sheet it was read from. */
  amended: number;
  left: SheetsLeft;
}
