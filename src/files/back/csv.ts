// The text file that a plan was read from, with its amended cells and nothing else changed: delimiter, encoding, line
// ends and quotation marks stay byte for byte. And what a spreadsheet would make of cells when it opens such a file.
//
// Limits: A text file has no place for a mark: what was amended stands in the column of notes alone. Where the file's
// encoding has no place for a letter of an amended cell, the whole file comes back in UTF-8.
import type { Table } from '../../core/schedule/rows/readTypes.ts';
import type { SheetOut } from '../../core/schedule/sheets/planSheets.ts';
import type { Spoiled } from '../../wire/planSheets.ts';
import { type CellSpan, cellSpans, type Delimiter, readCsv, toldDelimiter } from '../csv.ts';
import { cellToCsv } from '../csvOut.ts';
import { decodeText, type Encoding, encodeText } from '../encodings.ts';
import { type Splice, spliced } from '../xml.ts';
import type { Amended } from './workbook.ts';

/** @param chosen Its encoding, where a person chose it. @param source The rows as they were read from these bytes. @param out The same rows as they are to be. */
export function amendCsv(bytes: Uint8Array, source: Table, out: SheetOut, chosen?: Encoding): Amended {
  const read = readCsv(bytes, { encoding: chosen });
  if (read.type !== 'rows') return { type: 'not-in-place', why: read.error.what };
  const { encoding, mark } = decodeText(bytes, chosen);
  const made = write(bytes, { encoding, mark, delimiter: read.delimiter }, source, out);
  // What does not fit its encoding was written in another, which is known by its mark.
  const isOther = made[0] === 0xef && bytes[0] !== 0xef;
  const back = readCsv(made, isOther ? {} : { encoding: chosen });
  if (back.type !== 'rows' || back.delimiter !== read.delimiter || !saysSame(back.rows, out.rows)) {
    return { type: 'not-in-place', why: 'what was written is not read as it was meant' };
  }
  return { type: 'amended', bytes: made };
}

interface How {
  encoding: Encoding;
  mark: number;
  delimiter: Delimiter;
}

function write(bytes: Uint8Array, how: How, source: Table, out: SheetOut): Uint8Array<ArrayBuffer> {
  const own = bytes.subarray(how.mark);
  const isWide = how.encoding === 'UTF-16LE' || how.encoding === 'UTF-16BE';
  // One letter for each unit of the encoding: delimiters and quotation marks are the same in all of them.
  const units = isWide ? decodeText(own, how.encoding).text : toLatin(own);
  const size = isWide ? 2 : 1;
  const splices = toSplices(units, how.delimiter, source, out);
  const encoded = splices.map(({ text }) => encodeText(text, how.encoding));
  if (encoded.some((one) => one === null)) {
    const { text: all } = decodeText(bytes, how.encoding);
    const text = spliced(all, toSplices(all, how.delimiter, source, out));
    return new TextEncoder().encode(`\uFEFF${text}`);
  }
  const pieces: Uint8Array[] = [bytes.subarray(0, how.mark)];
  let from = 0;
  for (const [i, { at, end }] of splices.entries()) {
    pieces.push(own.subarray(from * size, at * size), encoded[i]!);
    from = end;
  }
  pieces.push(own.subarray(from * size));
  return joined(pieces);
}

function toLatin(bytes: Uint8Array): string {
  return decodeText(bytes, 'Windows-1252').text;
}

function joined(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** In the order in which they stand. Rows that are new stand behind the last one. */
function toSplices(text: string, delimiter: Delimiter, source: Table, out: SheetOut): Splice[] {
  const from = toldDelimiter(text)?.length ?? 0;
  const spans = cellSpans(text.slice(from), delimiter);
  const splices: Splice[] = [];
  const allQuoted = isQuoted(text.slice(from), spans[0]?.cells ?? []);
  const write = (cell: string, quoted: boolean) => {
    const plain = cellToCsv(cell, delimiter);
    return quoted && !plain.startsWith('"') ? `"${plain}"` : plain;
  };
  for (const [i, { cells }] of spans.entries()) {
    const [was, is] = [source.rows[i] ?? [], out.rows[i] ?? []];
    for (const [k, { at, end }] of cells.entries()) {
      if ((was[k] ?? '') === (is[k] ?? '')) continue;
      const quoted = text[from + at] === '"' || allQuoted;
      splices.push({ at: from + at, end: from + end, text: write(is[k] ?? '', quoted) });
    }
    const more = is.slice(cells.length);
    const at = from + (cells.at(-1)?.end ?? 0);
    const added = more.map((cell) => delimiter + write(cell, allQuoted)).join('');
    if (more.some((cell) => cell !== '')) splices.push({ at, end: at, text: added });
  }
  const fresh = out.rows.slice(spans.length).map((row) => row.map((cell) => write(cell, allQuoted)).join(delimiter));
  if (fresh.length === 0) return splices;
  const line = /\r\n|\n|\r/.exec(text)?.[0] ?? '\r\n';
  const end = from + (spans.at(-1)?.next ?? 0);
  const isEnded = end > 0 && /[\r\n]/.test(text[end - 1] ?? '');
  const lines = isEnded ? fresh.map((row) => row + line) : fresh.map((row) => line + row);
  return [...splices, { at: end, end, text: lines.join('') }];
}

function isQuoted(text: string, cells: readonly CellSpan[]): boolean {
  return cells.length > 1 && cells.every(({ at, end }) => end - at >= 2 && text[at] === '"' && text[end - 1] === '"');
}

function saysSame(a: readonly (readonly string[])[], b: readonly (readonly string[])[]): boolean {
  const toLine = (row: readonly string[] = []) => row.join('\0').replace(/\0+$/, '');
  for (let i = 0; i < Math.max(a.length, b.length); i += 1) if (toLine(a[i]) !== toLine(b[i])) return false;
  return true;
}

/**
 * Common practice, no source: a spreadsheet that opens a text file drops zeros in front, makes dates of `1/2`, `3-4` and
 * `1.2.26`, powers of `1E5`, and has no more than 15 figures of a number.
 */
const SPOILED =
  /^\s*(?:0\d+|[+-]?\d+(?:[.,]\d+)?e[+-]?\d+|\d{1,4}[/-]\d{1,2}(?:[/-]\d{1,4})?|\d{1,2}\.\d{1,2}\.(?:\d{2,4})?|\d{16,}|\d{1,2}[ -]?(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[ -]?\d{1,4}|\d+:\d\d|true|false)\s*$/i;
const SHOWN = 3;

/** The first of them each say another text. */
export function spoiledCells(tables: readonly SheetOut[]): Spoiled {
  const first: Spoiled['first'] = [];
  let n = 0;
  for (const { rows } of tables) {
    for (const [i, row] of rows.entries()) {
      for (const text of row) {
        if (!SPOILED.test(text)) continue;
        n += 1;
        if (first.length < SHOWN && !first.some((one) => one.text === text.trim()))
          first.push({ text: text.trim(), row: i + 1 });
      }
    }
  }
  return { n, first };
}
