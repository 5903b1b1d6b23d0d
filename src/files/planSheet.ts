// A plan's sheets to files: a workbook whose cells are text, or one CSV for each list. Marks become red and struck cells.
import writeWorkbook, { type SheetData } from 'write-excel-file/universal';
import type { Table } from '../core/schedule/rows/readTypes.ts';
import { rowsToCsvBytes } from './csvOut.ts';
import { escapeText } from './xlsxParts.ts';

type CellMark = 'changed' | 'removed';
/** `marks`: by row and column of the table, counted from 0: `3,4`. */
type MarkedTable = Pick<Table, 'name' | 'rows'> & { marks?: ReadonlyMap<string, CellMark> };

/** Red pencil, as on paper; what is gone is struck through. */
const RED = '#b3211a';

export async function tablesToXlsx(tables: readonly MarkedTable[]): Promise<Uint8Array<ArrayBuffer>> {
  const taken = new Set<string>();
  const sheets = tables.map((table) => ({ sheet: sheetName(table.name, taken), data: toData(table) }));
  const blob = await writeWorkbook(sheets).toBlob();
  return new Uint8Array(await blob.arrayBuffer());
}

export function tableToCsv(table: Pick<MarkedTable, 'rows'>): Uint8Array {
  return rowsToCsvBytes(table.rows);
}

/** A text that every object answers to, such as `constructor`, is escaped: the writer keeps its texts as keys of one. */
function toXstring(text: string): string {
  if (text in {}) return `_x${text.charCodeAt(0).toString(16).padStart(4, '0')}_${text.slice(1)}`;
  return escapeText(text);
}

function toData({ rows, marks }: MarkedTable): SheetData {
  return rows.map((cells, row) =>
    cells.map((cell, column) => {
      if (cell === '' && !marks?.has(`${row},${column}`)) return null;
      const mark = marks?.get(`${row},${column}`);
      return {
        value: toXstring(cell),
        type: String,
        ...(row === 0 ? { fontWeight: 'bold' as const } : {}),
        ...(mark ? { textColor: RED } : {}),
        ...(mark === 'removed' ? { textDecoration: { strikethrough: true } } : {}),
      };
    }),
  );
}

/** A workbook takes at most 31 characters, none of seven, and no name twice whatever its case (ECMA-376 part 1, 18.2.19). */
function sheetName(name: string, taken: Set<string>): string {
  const bare =
    name
      .replace(/[\\/?*[\]:]/g, ' ')
      .replace(/^'+|'+$/g, '')
      .trim()
      .slice(0, 28) || 'Sheet';
  let own = bare;
  for (let n = 2; taken.has(own.toLowerCase()); n += 1) own = `${bare} ${n}`;
  taken.add(own.toLowerCase());
  return own;
}
