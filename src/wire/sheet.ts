// What the page hands to the worker that reads schedule files, and what comes back. The worker keeps rows and plan: the
// page is told what it shows, in lists that are cut off, and gets the plan as the bytes of its document.

import type { Coverage } from '../core/report/plan/coverage.ts';
import type { DeskView } from '../core/report/plan/deskView.ts';
import type { Agreement, GuessList } from '../core/report/plan/guessKinds.ts';
import type { GroupAnswer, QuestionList, QuestionsOf } from '../core/report/plan/questionGroups.ts';
import type { Compared } from '../core/report/plan/revisionView.ts';
import type { TextEncoding } from '../core/schedule/answers/encodings.ts';
import type { LeftRows, RowLike } from '../core/schedule/answers/leftRows.ts';
import type { RememberedShape } from '../core/schedule/answers/remembered.ts';
import type { SiteRules } from '../core/schedule/desk/siteRules.ts';
import type { ListKind } from '../core/schedule/meanings.ts';
import type { ReadCounts, Table } from '../core/schedule/rows/readTypes.ts';
import type { SheetAnswers, SheetMapping } from '../core/schedule/sheetAnswers.ts';

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
  /** `agreed`: what was agreed to at an earlier time, in place of what is now. */
  | { type: 'again'; answers: SheetAnswers; agreed?: string | undefined }
  | { type: 'agree'; said: Agreement }
  /** One answer for all questions of a group that are open; answered by the reading that follows. */
  | { type: 'settle'; of: QuestionsOf; how: GroupAnswer }
  | { type: 'row'; sheet: string; row: number }
  /** Rows of a sheet as the file has them, from this one on. */
  | { type: 'rows'; sheet: string; from: number; n: number }
  /** The nearest row below this one of which a guess or a question is open. */
  | { type: 'next'; sheet: string; row: number }
  /** The plan as its document, under another name if one is given, with the files that it is to name. */
  | { type: 'document'; name?: string | undefined };

/** How one list of the file was taken, for whoever wants it taken otherwise. A sheet may hold several. */
export interface SheetShape {
  sheet: string;
  /** Its rows as the spreadsheet numbers them, header and title with them. */
  from: number;
  to: number;
  /** Is it the only list of its sheet? */
  whole: boolean;
  /** What a person said of it. */
  chosen: SheetMapping | null;
  /** When that was chosen, on an earlier day; null where it was said of this very file. */
  rememberedAt: number | null;
  /** Null: no list. */
  kind: ListKind | null;
  headerRow: number;
  rows: number;
  /** Folded titles of the header row, by which a choice is remembered. */
  key: string;
  columns: { column: number; title: string; meaning: string | null; samples: string[] }[];
  /** Values that a person said of all its rows. */
  fixed: { meaning: string; text: string }[];
  /** Rows in which the header may stand. */
  first: { row: number; text: string }[];
}

/** What stands beside every reading, and beside a refusal to read. */
export interface SheetTaken {
  sheets: SheetShape[];
  answers: SheetAnswers;
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

/** One row, and what may be said of it as a whole. */
export interface RowFacts {
  cells: RowCell[];
  /** What it made; empty where it made nothing. */
  readAs: string;
  /** Open guesses and questions of it, in words. */
  open: { said: string; words: string }[];
  /** Its kind, and how many rows of its list are of it, this one too; null for a blank row. */
  like: RowLike | null;
  alike: number;
  /** Rows of its list. */
  list: { from: number; to: number };
  /** The answer by which it is no item. */
  left: LeftRows | null;
}

/** A row as it is drawn in a list of all of them. */
export interface RowLine {
  row: number;
  cells: string[];
  readAs: string;
  /** How many guesses and questions of it are open. */
  open: number;
  is: 'header' | 'left' | 'item' | 'nothing' | 'blank';
}

/** `sha256` is of these very bytes. */
export interface HashedBytes {
  bytes: ArrayBuffer;
  sha256: string;
}

export type SheetAnswer =
  /** `rows` of `of` are read; `of` is 0 while the file is being opened and nobody knows how many there are. */
  | { type: 'progress'; share: number; rows: number; of: number }
  | ({
      type: 'read';
      /** The plan's own, in case the station has none. */
      name: string;
      plan: { cables: number; units: number; jacks: number; racks: number };
      guesses: GuessList;
      questions: QuestionList;
      counts: ReadCounts;
      /** Null for sheets of this app's own, which are read by their ids. */
      coverage: Coverage | null;
      /** The header and the first rows of each list, with what became of them. */
      samples: { sheet: string; whole: boolean; rows: { row: number; cells: string[]; readAs: string }[] }[];
      /** Of the text files; null for workbooks. */
      encoding: TextEncoding | null;
      desk: DeskView;
      /** Null where no plan is in force. */
      compared: Compared | null;
    } & SheetTaken)
  /** `agreed`: the keys of all that is agreed to, one a line, to be kept. */
  | { type: 'agreed'; guesses: GuessList; questions: QuestionList; agreed: string }
  /** The bytes are handed over, not copied. `settled`: what was said of files with this hash, to be kept. */
  | {
      type: 'document';
      name: string;
      plan: HashedBytes;
      files: HashedBytes[];
      settled: { sha256: string; answers: SheetAnswers };
    }
  | { type: 'tables'; tables: Table[] }
  | ({ type: 'row' } & RowFacts)
  | { type: 'rows'; lines: RowLine[] }
  /** Null where none follows, nor stands above. */
  | { type: 'next'; row: number | null }
  | ({
      type: 'not-a-schedule';
      why: string;
      where: { sheet: string; row: number } | null;
      nextStep: string;
    } & SheetTaken)
  | { type: 'sheet-error'; error: { type: string; what: string; where: string }; file: string };
