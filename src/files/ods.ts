// Bytes of an OpenDocument spreadsheet to tables of text: what each cell shows, as it shows it. Element and attribute
// names: OpenDocument 1.3 part 3, chapters 9 (tables), 6 (text) and 14 (annotations). Nothing is calculated or fetched.
//
// Limits: What an amended sheet is given back as is a new workbook; colours, strike-through and filters are not read.
import type { Table } from '../core/schedule/rows/readTypes.ts';
import type { SheetError } from './sheetError.ts';
import { createGrid, type Grid, TooLarge } from './tableGrid.ts';
import { unzipParts } from './unzip.ts';
import { attributeOf, scanXml, XmlTrouble } from './xml.ts';

type OdsRead = { type: 'tables'; tables: Table[] } | { type: 'sheet-error'; error: SheetError };

const MIME = 'application/vnd.oasis.opendocument.spreadsheet';
const CONTENT = 'content.xml';

const refuse = (type: SheetError['type'], what: string, where = ''): OdsRead => ({
  type: 'sheet-error',
  error: { type, what, where },
});

/** The entry that tells its kind stands first in the archive, unpacked (OpenDocument 1.3 part 2, 3.3). */
export function isOds(bytes: Uint8Array): boolean {
  const head = new TextDecoder('latin1').decode(bytes.subarray(30, 30 + 8 + MIME.length + 64));
  return head.startsWith('mimetype') && head.includes(MIME);
}

export function readOds(bytes: Uint8Array, onRow?: (rows: number) => void): OdsRead {
  const unzipped = unzipParts(bytes, (name) => name === CONTENT || name === 'META-INF/manifest.xml');
  if (unzipped.type === 'sheet-error') return unzipped;
  const textOf = (name: string) => new TextDecoder().decode(unzipped.parts.get(name) ?? new Uint8Array());
  if (/:encryption-data\b/.test(textOf('META-INF/manifest.xml'))) {
    return refuse('encrypted', 'a sheet locked with a password');
  }
  const xml = textOf(CONTENT);
  if (xml === '') return refuse('not-a-sheet', 'an archive without a sheet');
  try {
    const tables = readContent(xml, onRow);
    if (tables.every(({ rows }) => rows.length === 0)) return refuse('empty', 'no cells');
    return { type: 'tables', tables };
  } catch (thrown) {
    if (thrown instanceof TooLarge) return { type: 'sheet-error', error: thrown.error };
    if (thrown instanceof XmlTrouble) return refuse('damaged', thrown.message, CONTENT);
    throw thrown;
  }
}

interface OdsCell {
  type: string;
  text: string;
  paragraphs: number;
  columns: number;
  rows: number;
  times: number;
}

function readContent(xml: string, onRow: (rows: number) => void = () => undefined): Table[] {
  const grids: Grid[] = [];
  let grid: Grid | null = null;
  let cell: OdsCell | null = null;
  /** Inside a remark, whose words are not the cell's. */
  let remarks = 0;
  let isText = false;
  let rows = 0;
  scanXml(xml, {
    open(name, attributes) {
      const times = (key: string) => Math.max(1, Number(attributeOf(attributes, key) ?? 1) || 1);
      if (name === 'table' && !cell) {
        grid = createGrid(attributeOf(attributes, 'name') ?? `Sheet ${grids.length + 1}`);
        grids.push(grid);
      } else if (name === 'annotation') remarks += 1;
      else if (remarks > 0) return;
      else if (name === 'table-row' && grid && !cell) {
        grid.row(
          times('number-rows-repeated'),
          /^(collapse|filter)$/.test(attributeOf(attributes, 'visibility') ?? ''),
        );
        rows += 1;
        if (rows % 500 === 0) onRow(rows);
      } else if ((name === 'table-cell' || name === 'covered-table-cell') && grid) {
        cell = {
          type: attributeOf(attributes, 'value-type') ?? 'string',
          text: '',
          paragraphs: 0,
          columns: times('number-columns-spanned'),
          rows: times('number-rows-spanned'),
          times: times('number-columns-repeated'),
        };
      } else if (cell && name === 'p') {
        isText = true;
        cell.paragraphs += 1;
        if (cell.paragraphs > 1) cell.text += '\n';
      } else if (cell && name === 's') cell.text += ' '.repeat(Math.min(times('c'), 1_000));
      else if (cell && name === 'tab') cell.text += '\t';
      else if (cell && name === 'line-break') cell.text += '\n';
    },
    text(text) {
      if (cell && isText && remarks === 0) cell.text += text;
    },
    close(name) {
      if (name === 'annotation') remarks -= 1;
      else if (remarks > 0) return;
      else if (name === 'p') isText = false;
      else if ((name === 'table-cell' || name === 'covered-table-cell') && grid && cell) {
        grid.cell(cell.text, { times: cell.times, rows: cell.rows, note: toNote(cell) });
        cell = null;
      } else if (name === 'table') grid = null;
    },
  });
  return grids.map((one) => one.table());
}

/** A name that was taken for a number or a date is told, since a spreadsheet may have eaten what was meant. */
function toNote({ type, text }: OdsCell): Pick<NonNullable<Table['notes']>[number], 'readAs' | 'kind'> | null {
  switch (type) {
    case 'date':
    case 'time':
      return { kind: 'date', readAs: `${text}; the cell is a ${type}, perhaps a number such as 3-4 was meant` };
    case 'float':
      return { kind: 'number-cell', readAs: `${text}; the cell is a number, zeros in front may be lost` };
    case 'boolean':
      return { kind: 'file', readAs: `${text}; the cell is a yes or no, perhaps a name was meant` };
    default:
      return null;
  }
}
