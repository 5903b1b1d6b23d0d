// What the page hands to the worker that writes the plan as sheets, and what comes back. The worker reads the plan and
// says which files it wants; the page looks them up.
import type { SiteRules } from '../core/schedule/desk/siteRules.ts';
import type { SheetAnswers } from '../core/schedule/sheetAnswers.ts';

/** Whether the files are the ones it was read from, with nothing but the amended cells changed. */
export type Kept =
  | { type: 'original' }
  /** Another kind of file was asked for, or there is none to keep. */
  | { type: 'made' }
  /** It holds something that cannot be amended piece by piece: `why` in a few words. */
  | { type: 'not-in-place'; why: string };

/** Cells of a text file that a spreadsheet makes something else of when it opens it, and the first of them. */
export interface Spoiled {
  n: number;
  first: { text: string; row: number }[];
}

export type SheetsRequest =
  /** The plan in force as its document. */
  | { type: 'write'; plan: ArrayBuffer; as: 'xlsx' | 'csv' }
  | {
      type: 'sources';
      /** The files it was read from; null where one of them is not here. */
      files: { name: string; bytes: ArrayBuffer }[] | null;
      /** What was settled when they were brought in; null where that is not known on this phone. */
      answers: SheetAnswers | null;
      /** The station's own, by which its sheets are read. */
      rules?: SiteRules | undefined;
    };

export type SheetsAnswer =
  /** Files that the plan names, and the hash of all of them, under which answers are kept. */
  | { type: 'wants'; files: { name: string; sha256: string }[]; sha256: string | null }
  | {
      type: 'sheets';
      files: { name: string; mime: string; bytes: ArrayBuffer }[];
      /** `own`: columns of this app; `source`: those of the sheet it was read from, with the amendments in place. */
      form: 'own' | 'source';
      kept: Kept;
      spoiled: Spoiled;
      /** Cells that say something else than in the sheet it was read from. */
      amended: number;
      /** The first of what the columns of that sheet cannot say, and how many there are. */
      left: { n: number; first: string[] };
    };
