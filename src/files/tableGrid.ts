// Cells as they come, to the table they make: repeated rows and cells written out under caps, merged ones put where they
// belong. Knows no file format.
import type { Table } from '../core/schedule/rows/readTypes.ts';
import { CAPS, type SheetError } from './sheetError.ts';

/** Thrown out of the walk through a file, so that one that is too large ends where it becomes so. */
export class TooLarge extends Error {
  constructor(readonly error: SheetError) {
    super(error.what);
  }
}

type Note = NonNullable<Table['notes']>[number];

export interface CellWay {
  /** How often it stands beside itself. */
  times?: number;
  /** How many rows it is merged over. */
  rows?: number;
  note?: Pick<Note, 'readAs' | 'kind'> | null;
}

export interface Grid {
  /** @param times How often the row stands below itself. */
  row(times?: number, isHidden?: boolean): void;
  cell(text: string, way?: CellWay): void;
  table(): Table;
}

/** Texts that repetition may make: a few bytes could otherwise ask for a hundred million. */
const MOST_COPIES = 2_000_000;

export function createGrid(name: string): Grid {
  const table: Table & Required<Pick<Table, 'notes' | 'merged'>> = { name, rows: [], notes: [], merged: [] };
  const hidden: number[] = [];
  let cells: string[] = [];
  let at = 0;
  let repeats = 0;
  let copies = 0;
  let covered = 0;

  const tooLarge = (what: string, row = at): never => {
    throw new TooLarge({ type: 'too-large', what, where: `${name}, row ${row}` });
  };

  /** Rows that hold nothing count, and are written only where something stands below them. */
  function endRow(): void {
    if (repeats === 0) return;
    while (cells.at(-1) === '') cells.pop();
    if (cells.length > 0) {
      if (at + repeats - 1 > CAPS.rows) tooLarge(`more than ${CAPS.rows} rows`);
      copies += (repeats - 1) * cells.length;
      if (copies > MOST_COPIES) tooLarge('rows that repeat too often');
      while (table.rows.length < at - 1) table.rows.push([]);
      for (let i = 0; i < repeats; i += 1) table.rows.push(i === 0 ? cells : [...cells]);
    }
    at += repeats - 1;
    repeats = 0;
    cells = [];
  }

  return {
    row(times = 1, isHidden = false) {
      endRow();
      at += 1;
      repeats = times;
      if (isHidden) hidden.push(at);
    },
    cell(text, { times = 1, rows = 1, note = null } = {}) {
      const row = at;
      if (text === '') {
        // Sheets are filled up with blank cells far beyond what they hold.
        for (let i = 0; i < Math.min(times, CAPS.columns); i += 1) cells.push('');
        return;
      }
      if (cells.length + times > CAPS.columns) tooLarge(`more than ${CAPS.columns} columns`);
      if (note) table.notes.push({ row, column: cells.length + 1, said: text, ...note });
      covered += rows - 1;
      if (rows > 1 && covered <= CAPS.rows) table.merged.push({ row, column: cells.length + 1, rows });
      for (let i = 0; i < times; i += 1) cells.push(text);
    },
    table() {
      endRow();
      const first = hidden.find((row) => row <= table.rows.length);
      if (first !== undefined) {
        const said = hidden.length === 1 ? '1 hidden row' : `${hidden.length} hidden rows`;
        const readAs = 'read like the others, although the sheet does not show them';
        table.notes.push({ row: first, column: 0, said, readAs, kind: 'file' });
      }
      return table;
    },
  };
}
