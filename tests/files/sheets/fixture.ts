// An invented schedule with what an engineer reads in each row beside it, and how both are written down. Rows are lines,
// cells stand between strokes; behind `=>` stands the reading, which is no part of the sheet. Knows nothing of the reader.

import type { Table } from '../../../src/core/schedule/rows/readTypes.ts';
import type { Signal } from '../../../src/core/trade/kinds.ts';
import { SIGNALS } from '../../../src/core/trade/kinds.ts';
import { readSheetFile } from '../../../src/files/sheet.ts';
import { type Looks, toBook } from './book.ts';

export interface Sheet {
  name: string;
  /**
   * `1001 | SW1 | P01 | SW2 | P02 => 1001: SW1 @ P01 > SW2 @ P02 {network}`. Several cables of one row stand between
   * `;;`; `?` is a jack that nobody knows, `-` an end that goes nowhere, `a~b` either of two readings, `maybe` a
   * cable that may as well be left out. `\n` in a cell is a line break. Rows without `=>` list no cable.
   */
  rows: string;
  /** What a workbook shows beside its texts. */
  looks?: Looks;
}

export interface Fixture {
  name: string;
  /** Whose list it is. */
  who: string;
  sheets: Sheet[];
  /** As which file it comes: rows of text unless told. */
  file?: 'workbook' | { csv: string };
  /** The sheet does not say which end is from and which is to. */
  anyOrder?: true;
}

export interface WantedEnd {
  unit: string[];
  /** `?` among them: the engineer knows the unit and no jack. */
  jack: string[];
}

export interface Wanted {
  sheet: string;
  row: number;
  label: string[];
  /** A reader may take it or leave it. */
  isOptional: boolean;
  ends: (WantedEnd | null)[];
  signal?: Signal;
  status: string;
  onAir: boolean;
  length?: string;
  type?: string;
  note?: string;
}

const splitRow = (line: string) => {
  const [cells = '', reading = ''] = line.split(/\s*=> /);
  return { cells, reading: reading.trim() };
};

export function sheetToCells({ rows }: Sheet): string[][] {
  return linesOf(rows).map((line) => {
    const { cells } = splitRow(line);
    return cells.trim() === '' ? [] : cells.split('|').map((cell) => cell.trim().replaceAll('\\n', '\n'));
  });
}

const linesOf = (rows: string) =>
  rows
    .replace(/^\n/, '')
    .replace(/\n\s*$/, '')
    .split('\n');

/** What the engineer reads, in the order of the rows. */
export function fixtureToWanted({ sheets }: Fixture): Wanted[] {
  return sheets.flatMap(({ name, rows }) =>
    linesOf(rows).flatMap((line, i) => {
      const { reading } = splitRow(line);
      return reading === '' ? [] : reading.split(';;').map((one) => toWanted(name, i + 1, one.trim()));
    }),
  );
}

function toWanted(sheet: string, row: number, text: string): Wanted {
  const [, maybe, label = '', ends = '', extras = ''] = /^(maybe )?(.*?): (.*?)(?:\s*\{(.*)\})?$/.exec(text) ?? [];
  if (ends === '') throw new Error(`${sheet}, row ${row}: cannot read ${text}`);
  const wanted: Wanted = {
    sheet,
    row,
    label: label.trim().split('~'),
    isOptional: maybe !== undefined,
    ends: ends.split(/\s+>\s+/).map(toEnd),
    status: 'in-use',
    onAir: false,
  };
  for (const extra of extras.split(/,\s+/).map((one) => one.trim())) {
    const [key = '', value] = extra.split('=');
    if (extra === '') continue;
    if (value !== undefined && (key === 'length' || key === 'type' || key === 'note')) wanted[key] = value;
    else if (extra === 'on air') wanted.onAir = true;
    else if (extra === 'spare' || extra === 'future') wanted.status = extra;
    else if (isSignal(extra)) wanted.signal = extra;
    else throw new Error(`${sheet}, row ${row}: no such thing as ${extra}`);
  }
  return wanted;
}

const isSignal = (text: string): text is Signal => (SIGNALS as readonly string[]).includes(text);

function toEnd(text: string): WantedEnd | null {
  if (text.trim() === '-') return null;
  const [unit = '', jack = '?'] = text.split('@').map((part) => part.trim());
  return { unit: unit.split('~'), jack: jack.split('~') };
}

/** The fixture as the tables that a file reader hands on, or why it would not. */
export async function fixtureToTables(fixture: Fixture): Promise<Table[] | string> {
  if (fixture.file === undefined) {
    return fixture.sheets.map((sheet) => ({ name: sheet.name, rows: sheetToCells(sheet) }));
  }
  const { bytes, name } = fixtureToFile(fixture);
  const read = await readSheetFile(bytes, name);
  return read.type === 'tables' ? read.tables : read.error.what;
}

/** The fixture as a file that somebody saved. */
export function fixtureToFile(fixture: Fixture): { bytes: Uint8Array; name: string } {
  const { sheets, file } = fixture;
  const [only] = sheets;
  if (typeof file !== 'object' || !only) {
    const parts = sheets.map((sheet) => ({ name: sheet.name, cells: sheetToCells(sheet), looks: sheet.looks }));
    return { bytes: toBook(parts), name: `${fixture.name}.xlsx` };
  }
  const quote = (text: string) =>
    text.includes(file.csv) || /["\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
  // `="0101"` is how some exports keep a spreadsheet from eating zeros; it stands unquoted.
  const lines = sheetToCells(only).map((cells) =>
    cells.map((text) => (/^="[^"]*"$/.test(text) || text === '"' ? text : quote(text))).join(file.csv),
  );
  return { bytes: new TextEncoder().encode(`${lines.join('\r\n')}\r\n`), name: `${only.name}.csv` };
}
