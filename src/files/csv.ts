// Bytes of a CSV file to rows of text: encoding, delimiter, the trade's lone-quote ditto, our own escape. Cells stay
// text; no meaning is read here.
import Papa from 'papaparse';
import type { Table } from '../core/schedule/rows/readTypes.ts';
import { decodeText, type Encoding } from './encodings.ts';
import { CAPS, magicToError, type SheetError } from './sheetError.ts';

type CsvRead =
  | {
      type: 'rows';
      rows: string[][];
      encoding: Encoding;
      delimiter: Delimiter;
      /** Cells that look as if a quotation mark were missing. */
      notes: NonNullable<Table['notes']>;
    }
  | { type: 'sheet-error'; error: SheetError };

const DELIMITERS = [',', ';', '\t', '|'] as const;
export type Delimiter = (typeof DELIMITERS)[number];

/** @param taken What a person chose; else each is told by the bytes. */
export function readCsv(
  bytes: Uint8Array,
  taken: { delimiter?: Delimiter; encoding?: Encoding | undefined } = {},
): CsvRead {
  const wrong = magicToError(bytes);
  if (wrong) return { type: 'sheet-error', error: wrong };
  const { text, encoding, bad } = decodeText(bytes, taken.encoding);
  const nul = text.indexOf('\0');
  if (nul >= 0) {
    const line = text.slice(0, nul).split(/\r\n|\n|\r/).length;
    return {
      type: 'sheet-error',
      error: { type: 'not-a-sheet', what: 'bytes that are no text', where: `line ${line}` },
    };
  }
  if (text.trim() === '') return { type: 'sheet-error', error: { type: 'empty', what: 'no text', where: '' } };
  const told = toldDelimiter(text);
  const used = taken.delimiter ?? told?.delimiter ?? guessDelimiter(text);
  const tooLarge = textToError(text, used);
  if (tooLarge) return { type: 'sheet-error', error: tooLarge };
  const formulas: NonNullable<Table['notes']> = [];
  const rows = textToRows(told ? text.slice(told.length) : text, used, (row, column, said) => {
    // Once per column: a whole export is written so.
    if (formulas.some((one) => one.column === column)) return;
    formulas.push({ row, column, said, readAs: `${unescapeCell(said)}, the text that the formula keeps` });
  });
  const error = rowsToError(rows, '');
  if (error) return { type: 'sheet-error', error };
  const notes = [...formulas, ...swallowedLines(rows, used)];
  if (bad > 0) {
    const said = bad === 1 ? '1 byte' : `${bad} bytes`;
    const readAs = 'no letter of UTF-8, in which the rest is written; read as the old Western code page has it';
    notes.push({ row: 1, column: 0, said, readAs });
  }
  return { type: 'rows', rows, encoding, delimiter: used, notes };
}

/** `sep=;` in front is how some spreadsheets tell each other the delimiter; its line keeps its number. */
export function toldDelimiter(text: string): { delimiter: Delimiter; length: number } | null {
  const told = /^sep=([,;\t|])(?=\r|\n)/i.exec(text);
  return told && { delimiter: told[1] as Delimiter, length: told[0].length };
}

/** Lines and delimiters are counted before anything is made of them: a million of either would fill the memory first. */
function textToError(text: string, delimiter: Delimiter): SheetError | null {
  // A line inside a quoted cell is counted too, so four times the cap is still read and then measured exactly.
  let lines = 1;
  let cells = 1;
  for (let i = 0; i < text.length; i += 1) {
    const sign = text[i];
    if (sign === '\n' || (sign === '\r' && text[i + 1] !== '\n')) {
      lines += 1;
      cells = 1;
      if (lines > CAPS.rows * 4) return { type: 'too-large', what: `more than ${CAPS.rows} rows`, where: '' };
    } else if (sign === delimiter) {
      cells += 1;
      if (cells > CAPS.columns * 64) {
        return { type: 'too-large', what: `more than ${CAPS.columns} columns`, where: `row ${lines}` };
      }
    }
  }
  return null;
}

/** Rows and columns beyond the caps, named with their place. */
function rowsToError(rows: readonly (readonly string[])[], sheet: string): SheetError | null {
  const where = (row: number) => (sheet === '' ? `row ${row}` : `${sheet}, row ${row}`);
  if (rows.length > CAPS.rows) return { type: 'too-large', what: `${rows.length} rows`, where: where(CAPS.rows + 1) };
  const wide = rows.findIndex((row) => row.length > CAPS.columns);
  if (wide < 0) return null;
  return { type: 'too-large', what: `${rows[wide]?.length} columns`, where: where(wide + 1) };
}

/** The delimiter under which most of the first lines have the same number of cells, and many. */
export function guessDelimiter(text: string): Delimiter {
  const head = text
    .slice(0, 64_000)
    .split(/\r\n|\n|\r/)
    .slice(0, 60)
    .join('\n');
  let best: { delimiter: Delimiter; score: number } = { delimiter: ',', score: 0 };
  for (const delimiter of DELIMITERS) {
    const rows = textToRows(head, delimiter).filter((row) => row.some((cell) => cell.trim() !== ''));
    const counts = new Map<number, number>();
    for (const row of rows) counts.set(row.length, (counts.get(row.length) ?? 0) + 1);
    for (const [cells, times] of counts) {
      const score = cells < 2 ? 0 : (Math.min(cells, 40) - 1) * (times / rows.length) ** 2;
      if (score > best.score) best = { delimiter, score };
    }
  }
  return best.delimiter;
}

/** @param onFormula Hears of each cell such as `="0101"`, by its place from 1. */
export function textToRows(
  text: string,
  delimiter: Delimiter,
  onFormula?: (row: number, column: number, said: string) => void,
): string[][] {
  const prepared = unifyLineEnds(quoteDittos(text, delimiter), delimiter);
  const { data } = Papa.parse(prepared, { delimiter, newline: '\n', skipEmptyLines: false });
  const rows = data.map((row, i) =>
    row.map((cell, column) => {
      if (onFormula && TEXT_FORMULA.test(cell)) onFormula(i + 1, column + 1, cell);
      return unescapeCell(cell);
    }),
  );
  const last = rows.at(-1);
  if (last && last.length === 1 && last[0] === '') rows.pop();
  return rows;
}

/**
 * Files joined from several machines mix line ends, and a parser that guesses one kind then swallows rows or leaves a
 * stray return in the last cell. Inside a quoted cell they are data and stay.
 */
function unifyLineEnds(text: string, delimiter: Delimiter): string {
  const quotedOrEnd = new RegExp(`(?<=^|${inRegExp(delimiter)})"(?:[^"]|"")*"|\\r\\n?`, 'gm');
  return text.includes('\r') ? text.replace(quotedOrEnd, (found) => (found.startsWith('"') ? found : '\n')) : text;
}

const inRegExp = (delimiter: Delimiter) => (delimiter === '|' ? '\\|' : delimiter);

/** A formula that is a text and nothing else: how exports keep a spreadsheet from eating zeros. */
const TEXT_FORMULA = /^="((?:[^"]|"")*)"$/;

/**
 * Takes off the apostrophe that writing put before a text that a spreadsheet would run as a formula (csvOut.ts), and the
 * signs around a text that is kept as one.
 */
function unescapeCell(cell: string): string {
  if (/^'+[=+\-@\t\r\n,;|]/.test(cell)) return cell.slice(1);
  const [, text] = TEXT_FORMULA.exec(cell) ?? [];
  return text === undefined ? cell : text.replaceAll('""', '"');
}

/**
 * A cell that is a single quotation mark means "as above". A parser takes it for the opening of a quoted cell and eats
 * the rest of the row, so it is written the way CSV wants it (RFC 4180: `""""`) before parsing. So is a text that only
 * begins with a quotation mark (`"red" plug`, or one that is never closed): it is that text, not the rest of the file.
 */
export function quoteDittos(text: string, delimiter: Delimiter): string {
  if (!new RegExp(`(?:^|${inRegExp(delimiter)})"`, 'm').test(text)) return text;
  const ends = endsCell(text, delimiter);
  const pieces: string[] = [];
  let from = 0;
  let i = 0;
  while (i < text.length) {
    // Here a cell begins.
    if (text[i] === '"') {
      const start = i;
      const close = closeOfQuoted(text, i, ends);
      i = close < 0 ? start + 1 : close;
      while (close < 0 && !ends(i)) i += 1;
      if (close < 0) {
        pieces.push(text.slice(from, start), `"${text.slice(start, i).replaceAll('"', '""')}"`);
        from = i;
      }
    }
    while (!ends(i)) i += 1;
    i += 1;
  }
  pieces.push(text.slice(from));
  return pieces.join('');
}

const endsCell = (text: string, delimiter: string) => (i: number) =>
  i >= text.length || text[i] === delimiter || text[i] === '\n' || text[i] === '\r';

/** Where the quoted cell that begins here is over; -1 where it is a ditto, or a text that only begins with the mark. */
function closeOfQuoted(text: string, at: number, ends: (i: number) => boolean): number {
  const isDitto = ends(at + 1) && !opensQuoted(text, at, ends);
  return isDitto ? -1 : afterQuoted(text, at, ends);
}

export interface CellSpan {
  at: number;
  end: number;
}

/** Where each cell of the text stands, by the same rules by which it is read; `next` is where the row below begins. */
export function cellSpans(text: string, delimiter: Delimiter): { cells: CellSpan[]; next: number }[] {
  const ends = endsCell(text, delimiter);
  const rows: { cells: CellSpan[]; next: number }[] = [];
  let cells: CellSpan[] = [];
  for (let i = 0; i <= text.length; ) {
    const at = i;
    if (text[i] === '"') i = Math.max(closeOfQuoted(text, i, ends), i + 1);
    while (!ends(i)) i += 1;
    cells.push({ at, end: i });
    const isNext = text[i] === delimiter;
    i += !isNext && text.startsWith('\r\n', i) ? 2 : 1;
    if (isNext) continue;
    rows.push({ cells, next: Math.min(i, text.length) });
    cells = [];
  }
  const last = rows.at(-1);
  if (last && last.cells.length === 1 && last.cells[0]!.at === last.cells[0]!.end) rows.pop();
  return rows;
}

/** `";foo";` opens a quoted cell whose text begins with the delimiter: the next quote on the line closes a word. */
function opensQuoted(text: string, at: number, ends: (i: number) => boolean): boolean {
  const next = text.indexOf('"', at + 1);
  const line = /[\r\n]/g;
  line.lastIndex = at + 1;
  const lineEnd = line.exec(text)?.index ?? -1;
  if (next < 0 || (lineEnd >= 0 && next > lineEnd)) return false;
  return !ends(next - 1) && ends(next + 1);
}

/** Where a quoted cell is over, blanks behind it included; -1 when the mark closes none that a cell could end at. */
function afterQuoted(text: string, at: number, ends: (i: number) => boolean): number {
  let i = at + 1;
  for (;;) {
    const quote = text.indexOf('"', i);
    if (quote < 0) return -1;
    if (text[quote + 1] !== '"') {
      let after = quote + 1;
      while (text[after] === ' ') after += 1;
      return ends(after) ? after : -1;
    }
    i = quote + 2;
  }
}

/** Cells that hold what looks like whole rows: where a closing quotation mark is missing, the next one ends the cell. */
function swallowedLines(rows: readonly (readonly string[])[], delimiter: Delimiter): NonNullable<Table['notes']> {
  return rows.flatMap((cells, i) =>
    cells.flatMap((cell, column) => {
      const lines = cell.includes('\n') || cell.includes('\r') ? cell.split(/\r\n|\n|\r/) : [];
      if (!lines.some((line) => line.split(delimiter).length > 3)) return [];
      const readAs = `one cell of ${lines.length} lines; a quotation mark may be missing, and rows with it`;
      return [{ row: i + 1, column: column + 1, said: lines[0] ?? '', readAs }];
    }),
  );
}
