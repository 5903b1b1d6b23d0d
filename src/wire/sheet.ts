// What the page hands to the worker that reads schedule files, and what comes back.
import type { Guess, Plan } from '../core/plan/model.ts';
import type { Question, ReadCounts, Table } from '../core/plan/readTypes.ts';
import type { DeskView } from '../core/report/deskView.ts';

export interface SheetRequest {
  files: { name: string; bytes: ArrayBuffer }[];
  /** `tables`: the rows alone, for a list that is no schedule. */
  as?: 'tables';
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
    }
  | { type: 'tables'; tables: Table[] }
  | { type: 'not-a-schedule'; why: string; where: { sheet: string; row: number } | null; nextStep: string }
  | { type: 'sheet-error'; error: { type: string; what: string; where: string }; file: string };
