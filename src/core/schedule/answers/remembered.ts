// What a person chose for sheets of one shape, known again on the next sheet whose header has the same titles in the same
// order, whatever the file and the rows.
import { SEARCHED_ROWS, titleToKey } from '../columns.ts';
import type { ListKind } from '../meanings.ts';
import type { Table } from '../rows/readTypes.ts';
import type { SheetAnswers, SheetMapping } from '../sheetAnswers.ts';
import type { RowLike } from './leftRows.ts';

export interface RememberedShape {
  /** Titles of the header row, folded. */
  key: string;
  kind: ListKind | null;
  columns: { column: number; meaning: string }[] | null;
  /** True where nobody chose the columns: kind and columns are as the reader finds them. */
  asFound?: boolean | undefined;
  /** Values that the whole list has. */
  fixed?: { meaning: string; text: string }[] | undefined;
  /** Rows that are no item. */
  left?: RowLike[] | undefined;
  /** When it was chosen, milliseconds since 1970. */
  at: number;
}

/** Sheets of one shape have the same titles in the same order, however they are written. */
export function shapeKey(titles: readonly string[]): string {
  return titles.map(titleToKey).join('\t').replace(/\t+$/, '');
}

interface Known {
  table: Table;
  headerRow: number;
  shape: RememberedShape;
}

function knownAgain(tables: readonly Table[], shapes: readonly RememberedShape[]): Known[] {
  const byKey = new Map(shapes.map((shape) => [shape.key, shape]));
  byKey.delete('');
  if (byKey.size === 0) return [];
  return tables.flatMap((table) => {
    for (const [i, row] of table.rows.slice(0, SEARCHED_ROWS).entries()) {
      const shape = byKey.get(shapeKey(row));
      if (shape) return [{ table, headerRow: (table.firstRow ?? 1) + i, shape }];
    }
    return [];
  });
}

/** The columns that were chosen before for sheets of these shapes. */
export function rememberedMappings(
  tables: readonly Table[],
  shapes: readonly RememberedShape[],
): { mapping: SheetMapping; at: number }[] {
  return knownAgain(tables, shapes).flatMap(({ table, headerRow, shape }) => {
    if (shape.asFound) return [];
    const { kind, columns, at } = shape;
    return [{ mapping: { sheet: table.name, kind, headerRow, columns }, at }];
  });
}

/** All that was said before of sheets of these shapes. */
export function rememberedAnswers(tables: readonly Table[], shapes: readonly RememberedShape[]): SheetAnswers {
  const known = knownAgain(tables, shapes);
  const fixed = known.flatMap(({ table, headerRow, shape }) =>
    (shape.fixed ?? []).map((one) => ({ sheet: table.name, headerRow, ...one })),
  );
  const left = known.flatMap(({ table, headerRow, shape }) =>
    (shape.left ?? []).map((like) => ({ sheet: table.name, from: headerRow + 1, to: lastRow(table), like })),
  );
  return {
    mappings: rememberedMappings(tables, shapes).map(({ mapping }) => mapping),
    cells: [],
    ...(fixed.length > 0 ? { fixed } : {}),
    ...(left.length > 0 ? { left } : {}),
  };
}

/** One list as it is read now. */
interface ListNow {
  sheet: string;
  /** Its rows as the spreadsheet numbers them. */
  from: number;
  to: number;
  headerRow: number;
  /** Of its header row. */
  key: string;
  kind: ListKind | null;
  /** What a person said of its columns. */
  chosen: SheetMapping | null;
}

/** What there is to remember of one list; null where nothing was said that another file can use. */
export function toRemember(list: ListNow, answers: SheetAnswers, at: number): RememberedShape | null {
  const { key, kind, chosen } = list;
  const isMine = (sheet: string, row: number) => sheet === list.sheet && row >= list.from && row <= list.to;
  const fixed = (answers.fixed ?? []).flatMap(({ sheet, headerRow, meaning, text }) =>
    isMine(sheet, headerRow) ? [{ meaning, text }] : [],
  );
  const left = (answers.left ?? []).flatMap(({ sheet, from, like }) => (isMine(sheet, from) && like ? [like] : []));
  if (key === '' || (!chosen && fixed.length + left.length === 0)) return null;
  return {
    key,
    ...(chosen ? { kind: chosen.kind, columns: chosen.columns } : { kind, columns: null, asFound: true }),
    ...(fixed.length > 0 ? { fixed } : {}),
    ...(left.length > 0 ? { left } : {}),
    at,
  };
}

const lastRow = ({ firstRow = 1, rows }: Table) => firstRow + rows.length - 1;
