// What the page hands to the worker that reads schedule files, and what comes back.
import type { SiteRules } from '../core/plan/desk/siteRules.ts';
import type { Guess, Plan } from '../core/plan/model.ts';
import type { Question, ReadCounts, Table } from '../core/plan/readTypes.ts';
import type { DeskView } from '../core/report/deskView.ts';
import type { Compared } from '../core/report/revisionView.ts';

export interface SheetRequest {
  files: { name: string; bytes: ArrayBuffer }[];
  /** `tables`: the rows alone, for a list that is no schedule. */
  as?: 'tables';
  /** The station's own, for the desk check. */
  rules?: SiteRules | undefined;
  /** The plan in force, with whose ids the new one goes on; `bytes` is null while its document is not here. */
  against?: { revision: string; name: string; bytes: ArrayBuffer | null } | null;
}

export type SheetAnswer =
  | { type: 'progress'; share: number }
  | {
      type: 'read';
      plan: Plan;
      guesses: Guess[];
      questions: Question[];
      counts: ReadCounts;
      sample: { sheet: string; row: number; cells: string[] }[];
      encoding: string | null;
      desk: DeskView;
      /** Null where no plan is in force. */
      compared: Compared | null;
    }
  | { type: 'tables'; tables: Table[] }
  | { type: 'not-a-schedule'; why: string; where: { sheet: string; row: number } | null; nextStep: string }
  | { type: 'sheet-error'; error: { type: string; what: string; where: string }; file: string };
