// Where the rows of amended lists stand on their sheets. No row of the source ever moves, so that formulas, comments and
// merged cells of the file still mean what they meant: what a list gained stands at the end of its sheet.
import type { Table } from '../rows/readTypes.ts';
import { holdsRow, mappingOf, type SheetAnswers, type SheetMapping } from '../sheetAnswers.ts';

type Mark = 'changed' | 'removed';

/** One list as it was written: the rows of the source in their order, behind them what it gained. */
export type Written = Table & {
  marks: ReadonlyMap<string, Mark>;
  /** For a row that it gained, the row of the list that it is like, both counted from 0. */
  like?: ReadonlyMap<number, number>;
  /** Of its header, counted from 0; null where the table is no list. */
  header: number | null;
};

/** A whole sheet again. Rows from 0. */
export type LaidSheet = Table & {
  marks: Map<string, Mark>;
  /** For each row that the source does not have, the row of the source whose cells look as its should. */
  like: Map<number, number>;
};

export interface Layout {
  sheets: LaidSheet[];
  /** The number of row `k` of list `i`, as a spreadsheet shows it. */
  rowOf(i: number, k: number): number;
  /** Headers that stand a second time, for a list that another one follows on its sheet. */
  headers: { part: Table; headerRow: number }[];
}

/** @param parts The lists of the source. @param written The same as they are now. */
export function layOut(parts: readonly Table[], written: readonly Written[]): Layout {
  const sheets: LaidSheet[] = [];
  const headers: Layout['headers'] = [];
  /** Where what each list gained begins. */
  const gained: number[] = [];
  for (let begin = 0; begin < parts.length; ) {
    let end = begin + 1;
    while (end < parts.length && follows(parts[end - 1]!, parts[end]!)) end += 1;
    const sheet = emptySheet(parts[begin]!);
    for (let i = begin; i < end; i += 1) {
      const [part, one] = [parts[i]!, written[i]!];
      take(sheet, one, { from: 0, to: part.rows.length, at: (part.firstRow ?? 1) - 1 });
      if (one.merged) sheet.merged = [...(sheet.merged ?? []), ...one.merged];
    }
    // The last list goes on where it ends; the others begin anew below it.
    for (const i of [end - 1, ...Array.from({ length: end - 1 - begin }, (_, k) => begin + k)]) {
      const [part, one] = [parts[i]!, written[i]!];
      const isLast = i === end - 1;
      const more = one.rows.length - part.rows.length;
      if (more > 0 && !isLast) headers.push({ part, headerRow: repeatHeader(sheet, part, one) });
      gained[i] = sheet.rows.length;
      take(sheet, one, { from: part.rows.length, to: one.rows.length, at: sheet.rows.length });
      likeRows(sheet, part, one, gained[i]!);
    }
    sheets.push(writeOutMerged(sheet, parts.slice(begin, end)));
    begin = end;
  }
  const rowOf = (i: number, k: number) => {
    const part = parts[i]!;
    const own = k < part.rows.length;
    return own ? (part.firstRow ?? 1) + k : gained[i]! + 1 + k - part.rows.length;
  };
  return { sheets, headers, rowOf };
}

function follows(above: Table, below: Table): boolean {
  return above.name === below.name && (below.firstRow ?? 1) === (above.firstRow ?? 1) + above.rows.length;
}

function emptySheet({ name }: Table): LaidSheet {
  return { name, rows: [], marks: new Map(), like: new Map() };
}

function take(sheet: LaidSheet, one: Written, { from, to, at }: { from: number; to: number; at: number }): void {
  for (let k = from; k < to; k += 1) sheet.rows.push(one.rows[k]!);
  for (const [key, mark] of one.marks) {
    const [row = '0', column] = key.split(',');
    const k = Number(row);
    if (k >= from && k < to) sheet.marks.set(`${at + k - from},${column}`, mark);
  }
}

/** @returns its number as a spreadsheet shows it. */
function repeatHeader(sheet: LaidSheet, part: Table, one: Written): number {
  const header = one.header ?? 0;
  sheet.rows.push([], [...(one.rows[header] ?? [])]);
  sheet.like.set(sheet.rows.length - 1, (part.firstRow ?? 1) - 1 + header);
  return sheet.rows.length;
}

function likeRows(sheet: LaidSheet, part: Table, one: Written, at: number): void {
  const first = (part.firstRow ?? 1) - 1;
  const last = part.rows.findLastIndex((row) => row.some((cell) => cell !== ''));
  for (let k = part.rows.length; k < one.rows.length; k += 1) {
    sheet.like.set(at + k - part.rows.length, first + (one.like?.get(k) ?? Math.max(last, 0)));
  }
}

/**
 * A value in a cell that a merge covers would not be seen: that merge is taken apart, and the rows that it covered say
 * in full what they said through it.
 */
function writeOutMerged(sheet: LaidSheet, parts: readonly Table[]): LaidSheet {
  if (!sheet.merged) return sheet;
  const was = parts.flatMap(({ rows }) => rows);
  const kept = sheet.merged.filter(({ row, column, rows }) => {
    const covered = Array.from({ length: rows - 1 }, (_, k) => row + k);
    const isBroken = covered.some((i) => {
      const now = sheet.rows[i]?.[column - 1] ?? '';
      return sheet.marks.get(`${i},${column - 1}`) === 'changed' || now !== (was[i]?.[column - 1] ?? '');
    });
    if (!isBroken) return true;
    const text = was[row - 1]?.[column - 1] ?? '';
    for (const i of covered) {
      const cells = sheet.rows[i];
      if (!cells || sheet.marks.has(`${i},${column - 1}`) || (cells[column - 1] ?? '') !== '') continue;
      const out = [...cells];
      while (out.length < column) out.push('');
      out[column - 1] = text;
      sheet.rows[i] = out;
    }
    return false;
  });
  return { ...sheet, merged: kept };
}

/** What a person said of a sheet, for the sheet as it was written: cells that were written anew need no answer. */
export function answersAfter(answers: SheetAnswers, { sheets, headers }: Layout): SheetAnswers {
  const { mappings, cells, fixed } = answers;
  const bySheet = new Map(sheets.map((sheet) => [sheet.name, sheet]));
  const again = headers.flatMap(({ part, headerRow }): SheetMapping[] => {
    const mapping = mappingOf(part, answers);
    return mapping ? [{ ...mapping, headerRow }] : [];
  });
  const fixedAgain = headers.flatMap(({ part, headerRow }) =>
    (fixed ?? []).filter((one) => holdsRow(part, one.sheet, one.headerRow)).map((one) => ({ ...one, headerRow })),
  );
  return {
    ...answers,
    mappings: [...mappings, ...again],
    ...(fixed ? { fixed: [...fixed, ...fixedAgain] } : {}),
    cells: cells.filter(
      ({ sheet, row, column }) => row === null || !bySheet.get(sheet)?.marks.has(`${row - 1},${column - 1}`),
    ),
  };
}
