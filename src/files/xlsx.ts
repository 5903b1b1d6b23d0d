// Bytes of an XLSX workbook to tables of text. The archive is measured before anything is inflated; numbers and dates
// come back as text and are noted, since a spreadsheet may have eaten what was meant.
import { unzipSync } from 'fflate';
import readWorkbook from 'read-excel-file/universal';
import type { Table } from '../core/plan/readTypes.ts';
import { rowsToError } from './csv.ts';
import { CAPS, isZip, magicToError, type SheetError } from './sheetError.ts';

export type WorkbookRead = { type: 'tables'; tables: Table[] } | { type: 'sheet-error'; error: SheetError };

/** Measures a ZIP by its directory. Null when it may be inflated. */
export function zipToError(bytes: Uint8Array): SheetError | null {
  let entries = 0;
  let inflated = 0;
  const names: string[] = [];
  try {
    unzipSync(bytes, {
      filter: (entry) => {
        entries += 1;
        inflated += entry.originalSize;
        if (names.length < CAPS.zipEntries) names.push(entry.name);
        return false;
      },
    });
  } catch {
    return { type: 'damaged', what: 'the archive cannot be opened', where: '' };
  }
  if (entries > CAPS.zipEntries) return { type: 'too-large', what: `${entries} entries`, where: '' };
  if (inflated > CAPS.inflatedBytes || inflated > bytes.length * CAPS.zipRatio + 1_000_000) {
    return { type: 'too-large', what: `${inflated} bytes when unpacked`, where: '' };
  }
  if (!names.some((name) => name.toLowerCase() === 'xl/workbook.xml')) {
    return { type: 'not-a-sheet', what: 'an archive without a workbook', where: '' };
  }
  return null;
}

/** A number as the file writes it, kept apart from texts so that it can be noted. */
interface WrittenNumber {
  written: string;
}

export async function readXlsx(bytes: Uint8Array): Promise<WorkbookRead> {
  const wrong = magicToError(bytes) ?? (isZip(bytes) ? zipToError(bytes) : notZip);
  if (wrong) return { type: 'sheet-error', error: wrong };
  const copy = new Uint8Array(bytes);
  let sheets: { sheet: string; data: unknown[][] }[];
  try {
    sheets = await readWorkbook<WrittenNumber>(copy.buffer, { parseNumber: (written) => ({ written }), trim: false });
  } catch (thrown) {
    const what = thrown instanceof Error ? thrown.message : 'the workbook cannot be read';
    return { type: 'sheet-error', error: { type: 'damaged', what, where: '' } };
  }
  const tables = sheets.map(({ sheet, data }) => toTable(sheet, data));
  for (const table of tables) {
    const error = rowsToError(table.rows, table.name);
    if (error) return { type: 'sheet-error', error };
  }
  if (tables.every((table) => table.rows.length === 0)) {
    return { type: 'sheet-error', error: { type: 'empty', what: 'no cells', where: '' } };
  }
  return { type: 'tables', tables };
}

const notZip: SheetError = { type: 'not-a-sheet', what: 'no workbook', where: '' };

function toTable(name: string, data: readonly (readonly unknown[])[]): Table {
  const notes: NonNullable<Table['notes']> = [];
  const rows = data.map((cells, r) =>
    cells.map((cell, c) => {
      if (cell === null || cell === undefined) return '';
      if (typeof cell === 'string') return cell;
      const at = { row: r + 1, column: c + 1 };
      if (cell instanceof Date) {
        const text = Number.isNaN(cell.getTime()) ? '' : cell.toISOString().replace(/T00:00:00\.000Z$/, '');
        notes.push({
          ...at,
          said: text,
          readAs: `${text}; the cell is a date, perhaps a number such as 3-4 was meant`,
        });
        return text;
      }
      if (typeof cell === 'object' && 'written' in cell) {
        const text = String(cell.written);
        // Plain whole numbers cannot have lost anything but zeros in front, which is said once per cell that matters.
        if (/e/i.test(text))
          notes.push({
            ...at,
            said: text,
            readAs: `${text}; the cell is a number, perhaps a name such as 1E5 was meant`,
          });
        else notes.push({ ...at, said: text, readAs: `${text}; the cell is a number, zeros in front may be lost` });
        return text;
      }
      return String(cell);
    }),
  );
  return { name, rows, notes };
}
