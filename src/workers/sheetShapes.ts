// How each sheet of a file was taken, and the cells of one row, for a person who wants them read otherwise. Reads the rows
// as the file has them; decides nothing.

import { type rememberedMappings, shapeKey } from '../core/schedule/answers/remembered.ts';
import { SEARCHED_ROWS } from '../core/schedule/columns.ts';
import type { Table } from '../core/schedule/rows/readTypes.ts';
import { columnsOf, holdsRow, mappingOf, type SheetAnswers, withAnswers } from '../core/schedule/sheetAnswers.ts';
import type { RowCell, SheetShape } from '../wire/sheet.ts';

const SAMPLES = 3;
/** Wider sheets than a person would map by hand are cut here. */
const COLUMNS = 60;

/**
 * @param given As the file has it: a choice is remembered by its titles, whatever was said of them.
 * @param all The lists of the file, this one among them.
 * @param remembered Choices of earlier days.
 */
export function tableToShape(
  given: Table,
  answers: SheetAnswers,
  all: readonly Table[] = [given],
  remembered: ReturnType<typeof rememberedMappings> = [],
): SheetShape {
  const [table = given] = withAnswers([given], answers);
  const first = table.firstRow ?? 1;
  const columns = columnsOf(table, answers);
  const chosen = mappingOf(table, answers) ?? null;
  const filled = table.rows.findIndex((row) => row.some((cell) => cell.trim() !== ''));
  const header = columns?.header ?? (chosen ? chosen.headerRow - first : Math.max(filled, 0));
  const titles = table.rows[header] ?? [];
  const meanings = new Map([...(columns?.at ?? [])].map(([meaning, column]) => [column, meaning]));
  const rows = table.rows.slice(header + 1);
  // What a person said of the whole list stands in no column of the file.
  const added = new Set(table.added?.values());
  const widest = Math.max(titles.length, ...given.rows.slice(header + 1, header + 201).map((row) => row.length));
  const width = Math.min(COLUMNS, widest);
  return {
    sheet: table.name,
    from: first,
    to: first + table.rows.length - 1,
    whole: isWhole(given, all),
    chosen,
    rememberedAt: remembered.find(({ mapping }) => JSON.stringify(mapping) === JSON.stringify(chosen))?.at ?? null,
    kind: columns?.kind ?? null,
    headerRow: first + header,
    rows: rows.length,
    key: shapeKey(given.rows[header] ?? []),
    columns: Array.from({ length: width }, (_, column) => ({
      column: column + 1,
      title: (columns?.titles[column] ?? titles[column] ?? '').trim(),
      meaning: meanings.get(column) ?? null,
      samples: samplesOf(rows, column),
    })).filter(({ column, title, samples }) => !added.has(column - 1) && (title !== '' || samples.length > 0)),
    fixed: (answers.fixed ?? [])
      .filter((one) => holdsRow(given, one.sheet, one.headerRow))
      .map(({ meaning, text }) => ({ meaning, text })),
    first: table.rows.flatMap((row, i) => {
      if (i >= SEARCHED_ROWS && i !== header) return [];
      const text = row.filter((cell) => cell.trim() !== '').join(' · ');
      return text === '' ? [] : [{ row: first + i, text: text.slice(0, 120) }];
    }),
  };
}

/** Is it the only list of its sheet? */
export function isWhole({ name }: Table, all: readonly Table[]): boolean {
  return all.filter((one) => one.name === name).length === 1;
}

/** The first few texts that differ. */
function samplesOf(rows: readonly (readonly string[])[], column: number): string[] {
  const found = new Set<string>();
  for (const row of rows.slice(0, 500)) {
    const text = (row[column] ?? '').trim();
    if (text !== '') found.add(text.slice(0, 40));
    if (found.size === SAMPLES) break;
  }
  return [...found];
}

export function rowCells(table: Table | null, row: number, answers: SheetAnswers): RowCell[] {
  if (!table) return [];
  const columns = columnsOf(table, answers);
  const i = row - (table.firstRow ?? 1);
  const header = columns?.header ?? 0;
  const titles = columns?.titles ?? table.rows[header] ?? [];
  const width = Math.min(COLUMNS, Math.max(titles.length, table.rows[i]?.length ?? 0));
  return Array.from({ length: width }, (_, column) => {
    const text = (table.rows[i]?.[column] ?? '').trim();
    const same = table.rows.slice(header + 1).filter((cells) => (cells[column] ?? '').trim() === text).length;
    return { column: column + 1, title: (titles[column] ?? '').trim(), text, same };
  });
}
