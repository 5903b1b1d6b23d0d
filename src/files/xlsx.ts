// Bytes of an XLSX workbook to tables of text. Only the parts that hold cells are unpacked, under caps; nothing in the
// workbook is run, fetched or calculated.
import type { Table } from '../core/schedule/rows/readTypes.ts';
import { CAPS, entriesToError, isZip, magicToError, type SheetError } from './sheetError.ts';
import { commentsPart, readComments, readStyleMarks } from './shown/xlsxMarks.ts';
import type { StruckText } from './shown/xlsxRuns.ts';
import { entryNames, unzipParts } from './unzip.ts';
import { readStyles } from './xlsxLooks.ts';
import { readSharedStrings, readWorkbookPart } from './xlsxParts.ts';
import { readSheetPart } from './xlsxSheet.ts';
import { XmlTrouble } from './xml.ts';

type WorkbookRead = { type: 'tables'; tables: Table[] } | { type: 'sheet-error'; error: SheetError };

const BOOK = 'xl/workbook.xml';
/** Parts that hold cells, or say where and how. */
export const isCellPart = (name: string) =>
  /^xl\/(workbook\.xml|_rels\/workbook\.xml\.rels|sharedStrings\.xml|styles\.xml|worksheets\/[^/]+\.xml)$/i.test(name);

/** Relations of a sheet, and the comments that they name. */
const isCommentPart = (name: string) =>
  /^xl\/(worksheets\/_rels\/[^/]+\.rels|(worksheets\/|threaded)?comments?[^/]*\.xml|comments\/[^/]+\.xml)$/i.test(name);

const refuse = (type: SheetError['type'], what: string, where = ''): WorkbookRead => ({
  type: 'sheet-error',
  error: { type, what, where },
});

/** @param onRow Called with the number of rows of all sheets that have been read so far. */
export async function readXlsx(bytes: Uint8Array, onRow?: (rows: number) => void): Promise<WorkbookRead> {
  const wrong = magicToError(bytes);
  if (wrong) return { type: 'sheet-error', error: wrong };
  if (!isZip(bytes)) return refuse('not-a-sheet', 'no workbook');
  const unzipped = unzipParts(bytes, (name) => isCellPart(name) || isCommentPart(name));
  if (unzipped.type === 'sheet-error') return unzipped;
  let part = '';
  const textOf = (name: string) => {
    part = name;
    const found = [...unzipped.parts].find(([key]) => key.toLowerCase() === name.toLowerCase());
    return found ? new TextDecoder().decode(found[1]) : '';
  };
  if (textOf(BOOK) === '') {
    const other = entriesToError(entryNames(bytes));
    if (other) return { type: 'sheet-error', error: other };
  }
  if (textOf(BOOK) === '') return refuse('not-a-sheet', 'an archive without a workbook');
  try {
    const book = readWorkbookPart(textOf(BOOK), textOf('xl/_rels/workbook.xml.rels'));
    const shared = textOf('xl/sharedStrings.xml');
    const struck = new Map<number, StruckText>();
    const strings = shared === '' ? [] : readSharedStrings(shared, struck);
    const styles = textOf('xl/styles.xml');
    const looks = styles === '' ? [] : readStyles(styles);
    const marks = styles === '' ? [] : readStyleMarks(styles);
    const context = { strings, looks, from1904: book.from1904, marks, struck };
    const tables: Table[] = [];
    for (const sheet of book.sheets) {
      const xml = textOf(sheet.part);
      if (xml === '') continue;
      const before = tables.reduce((sum, { rows }) => sum + rows.length, 0);
      const told = onRow && ((rows: number) => onRow(before + rows));
      const read = readSheetPart(xml, sheet.name, context, told);
      if ('what' in read) return { type: 'sheet-error', error: read };
      if (sheet.isHidden) {
        read.notes?.push({ row: 1, column: 0, said: sheet.name, readAs: 'a hidden sheet, read like the others' });
      }
      const comments = commentsPart(textOf(sheet.part.replace(/([^/]+)$/, '_rels/$1.rels')));
      if (comments !== '') addComments(read, textOf(comments));
      tables.push(read);
    }
    if (tables.every((table) => table.rows.length === 0)) return refuse('empty', 'no cells');
    return { type: 'tables', tables };
  } catch (thrown) {
    if (thrown instanceof XmlTrouble) return refuse('damaged', thrown.message, part);
    throw thrown;
  }
}

function addComments(table: Table, xml: string): void {
  if (xml === '') return;
  for (const { row, column, text } of readComments(xml)) {
    if (row > CAPS.rows || column > CAPS.columns || text === '') continue;
    table.shown ??= [];
    table.shown.push({ type: 'comment', row, column, to: column, said: text });
  }
}
