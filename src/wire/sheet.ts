// What the page hands to the worker that reads schedule files, and what comes back. The worker keeps the rows, so that
// the same file is read again with other answers without being handed over again.
import type { SiteRules } from '../core/plan/desk/siteRules.ts';
import type { Guess, Plan } from '../core/plan/model.ts';
import type { ListKind, Question, ReadCounts, Table } from '../core/plan/readTypes.ts';
import type { RememberedShape, SheetAnswers } from '../core/plan/sheetAnswers.ts';
import type { DeskView } from '../core/report/deskView.ts';
import type { Compared } from '../core/report/revisionView.ts';

export interface SheetOpening {
  type: 'open';
  files: { name: string; bytes: ArrayBuffer }[];
  /** `tables`: the rows alone, for a list that is no schedule. */
  as?: 'tables';
  /** The station's own, for the desk check. */
  rules?: SiteRules | undefined;
  /** The plan in force, with whose ids the new one goes on; `bytes` is null while its document is not here. */
  against?: { revision: string; name: string; bytes: ArrayBuffer | null } | null;
  /** Columns that a person chose before, by the shape of the sheet. */
  shapes?: RememberedShape[];
}

export type SheetRequest =
  | SheetOpening
  | { type: 'again'; answers: SheetAnswers }
  | { type: 'row'; sheet: string; row: number };

/** How one sheet of the file was taken, for whoever wants it taken otherwise. */
export interface SheetShape {
  sheet: string;
  /** Null: no list. */
  kind: ListKind | null;
  headerRow: number;
  rows: number;
  /** Folded titles of the header row, by which a choice is remembered. */
  key: string;
  columns: { column: number; title: string; meaning: string | null; samples: string[] }[];
  /** Rows in which the header may stand. */
  first: { row: number; text: string }[];
}

/** What stands beside every reading, and beside a refusal to read. */
export interface SheetTaken {
  sheets: SheetShape[];
  answers: SheetAnswers;
  /** Sheets read with columns chosen on an earlier day. */
  remembered: { sheet: string; at: number }[];
  /** SHA-256 of the files, under which answers are kept. */
  sha256: string;
}

/** One cell of a row, for whoever wants it read otherwise. */
export interface RowCell {
  column: number;
  title: string;
  text: string;
  /** Cells of this column that say the same, this one too. */
  same: number;
}

export type SheetAnswer =
  /** `rows` of `of` are read; `of` is 0 while the file is being opened. */
  | { type: 'progress'; share: number; rows: number; of: number }
  | ({
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
    } & SheetTaken)
  | { type: 'tables'; tables: Table[] }
  | { type: 'row'; cells: RowCell[] }
  | ({
      type: 'not-a-schedule';
      why: string;
      where: { sheet: string; row: number } | null;
      nextStep: string;
    } & SheetTaken)
  | { type: 'sheet-error'; error: { type: string; what: string; where: string }; file: string };
