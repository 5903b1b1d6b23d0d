// A tidy plan as rows of cells, and rows as the files that spreadsheets save. By hand where the habit is in the file:
// a lone quotation mark is what our own writer would never leave.
import writeWorkbook, { type SheetData } from 'write-excel-file/universal';
import type { Tidy, TidyCable } from './tidy.ts';

export const COLUMNS = [
  'Cable No',
  'From Loc',
  'From Unit',
  'From Jack',
  'To Loc',
  'To Unit',
  'To Jack',
  'Signal',
  'Type',
  'Len',
  'Stat',
  'Notes',
] as const;
export type Column = (typeof COLUMNS)[number];
export const at = (column: Column) => COLUMNS.indexOf(column);

export const toCells = ({ label, from, to, signal, type, length, status, notes }: TidyCable): string[] => [
  label,
  from.unit.place,
  from.unit.label,
  from.jack,
  to.unit.place,
  to.unit.label,
  to.jack,
  signal,
  type,
  length,
  status,
  notes,
];

/** The whole list, header first. */
export const toRows = ({ cables }: Pick<Tidy, 'cables'>): string[][] => [[...COLUMNS], ...cables.map(toCells)];

/** As an old spreadsheet saves it: nothing quoted but what has to be, and a lone mark as it stands. */
export function toCsv(rows: readonly (readonly string[])[], delimiter: string): Uint8Array {
  const cell = (text: string) =>
    text !== '"' && (text.includes(delimiter) || /["\n]/.test(text)) ? `"${text.replaceAll('"', '""')}"` : text;
  const lines = rows.map((cells) => cells.map(cell).join(delimiter));
  return new TextEncoder().encode(`${lines.join('\r\n')}\r\n`);
}

export async function toXlsx(sheets: { sheet: string; data: SheetData }[]): Promise<Uint8Array> {
  return new Uint8Array(await (await writeWorkbook(sheets).toBlob()).arrayBuffer());
}

/** Every unit with its place, for habits that only a unit list brings to light. */
export function toUnitRows({ units }: Pick<Tidy, 'units'>): string[][] {
  return [
    ['Unit', 'Room', 'Rack', 'Description'],
    ...units.map(({ label, place }) =>
      place.startsWith('R') ? [label, '', place, 'frame'] : [label, place, '', 'frame'],
    ),
  ];
}

/** Every jack that a cable uses, in its printed spelling. */
export function toJackRows({ cables }: Pick<Tidy, 'cables'>): string[][] {
  const ends = cables.flatMap(({ from, to }) => [from, to]);
  return [['Unit', 'Jack', 'Connector'], ...ends.map(({ unit, jack }) => [unit.label, jack, 'RJ45'])];
}
