// What the page hands to the worker that writes the plan as sheets, and what comes back.

export interface SheetsRequest {
  /** The plan in force as its document. */
  plan: ArrayBuffer;
  as: 'xlsx' | 'csv';
  /** The files it was read from; null where one of them is not here. */
  sources: { name: string; bytes: ArrayBuffer }[] | null;
}

export type SheetsAnswer =
  | {
      type: 'sheets';
      files: { name: string; mime: string; bytes: ArrayBuffer }[];
      /** `own`: columns of this app; `source`: those of the sheet it was read from, with the amendments in place. */
      form: 'own' | 'source';
      /** Cells that say something else than in the sheet it was read from. */
      amended: number;
      /** What the columns of that sheet cannot say. */
      left: string[];
    }
  | { type: 'failed'; why: string };
