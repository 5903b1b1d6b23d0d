// The plan as sheets, and what their columns could not say.
import type { Plan } from '../../plan/model.ts';
import type { Table } from '../rows/readTypes.ts';

/** What the written sheet says against what the plan says, to be compared and told by whoever makes words. */
export type SheetsLeft = { type: 'nothing' } | { type: 'unread' } | { type: 'read'; sheet: Plan; plan: Plan };

/** Rows and columns of marks and likes from 0. Each row of a source stands where it stood. */
export type SheetOut = Pick<Table, 'name' | 'rows'> & {
  marks?: ReadonlyMap<string, 'changed' | 'removed'>;
  /** For each row that the source does not have, the row of the source whose cells look as its should. */
  like?: ReadonlyMap<number, number>;
};

export interface PlanSheets {
  tables: SheetOut[];
  form: 'own' | 'source';
  /** Cells that say something else than in the sheet it was read from. */
  amended: number;
  left: SheetsLeft;
}
