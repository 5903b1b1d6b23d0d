// How much of a file came into the plan: rows that became cables with how many ends, and texts of the file that nothing
// in the plan says and no guess or question speaks of. Counts only; linear in the cells.
//
// Limits: A text that the plan says anywhere counts as reached wherever it stands. A cell of a column that is read as a
// sort of its own (signal, status, U) counts as reached with its row. Words that a person left out are not counted.
import type { Plan } from '../../plan/model.ts';
import type { Columns } from '../../schedule/columns.ts';
import type { Question, ReadCounts, SortedGuess, Table } from '../../schedule/rows/readTypes.ts';
import { reachedWords } from './reachedWords.ts';

export interface Coverage {
  rows: {
    /** Filled rows below the headers of lists of cables, but for those that a person left out. */
    of: number;
    /** Rows whose cables have a known jack at every end, at some, at none. */
    both: number;
    one: number;
    none: number;
    /** Rows that tell of a cable once more. */
    again: number;
    /** Rows that became no cable. */
    nothing: number;
  };
  unread: Unread;
}

export interface Unread {
  /** Texts that differ, column by column. */
  texts: number;
  cells: number;
  /** Those with the most cells first; cut off. */
  columns: UnreadColumn[];
  /** Columns beyond them. */
  more: number;
}

export interface UnreadColumn {
  sheet: string;
  /** Title; null for what stands above the list. */
  column: string | null;
  /** From 1; null as above. */
  number: number | null;
  texts: number;
  cells: number;
  /** The most frequent first; cut off. `row`: where it stands first. */
  first: { text: string; n: number; row: number }[];
}

/** One list as the file has it, and how it was read; null where it was not. */
export interface ReadList {
  table: Table;
  columns: Columns | null;
  /** Numbers of the rows that a person left out. */
  left?: ReadonlySet<number> | undefined;
}

const COLUMNS_SHOWN = 30;
const TEXTS_SHOWN = 20;

export function coverageOf(
  lists: readonly ReadList[],
  plan: Plan,
  counts: Pick<ReadCounts, 'joined'>,
  said: { guesses: readonly SortedGuess[]; questions: readonly Question[] },
): Coverage {
  return { rows: countRows(lists, plan, counts.joined), unread: findUnread(lists, plan, said) };
}

const isFilled = (row: readonly string[]) => row.some((cell) => cell.trim() !== '');

function countRows(lists: readonly ReadList[], plan: Plan, again: number): Coverage['rows'] {
  const ends = new Map<string, Map<number, 'both' | 'one' | 'none'>>();
  const worse = { both: 0, one: 1, none: 2 };
  for (const { origin, ends: all } of plan.cables) {
    if (!origin) continue;
    const known = all.filter(({ place }) => place !== null).length;
    const now = known === 0 ? 'none' : known === all.length && known > 1 ? 'both' : 'one';
    const rows = ends.get(origin.sheet) ?? new Map<number, 'both' | 'one' | 'none'>();
    ends.set(origin.sheet, rows);
    const before = rows.get(origin.row);
    if (!before || worse[now] > worse[before]) rows.set(origin.row, now);
  }
  const rows = { of: 0, both: 0, one: 0, none: 0, again, nothing: 0 };
  for (const { table, columns, left } of lists) {
    if (columns?.kind !== 'cables') continue;
    const first = table.firstRow ?? 1;
    const made = ends.get(table.name);
    for (let i = columns.header + 1; i < table.rows.length; i += 1) {
      if (left?.has(first + i) || !isFilled(table.rows[i] ?? [])) continue;
      rows.of += 1;
      const became = made?.get(first + i);
      if (became) rows[became] += 1;
      else rows.nothing += 1;
    }
  }
  rows.nothing = Math.max(0, rows.nothing - again);
  return rows;
}

function findUnread(
  lists: readonly ReadList[],
  plan: Plan,
  said: { guesses: readonly SortedGuess[]; questions: readonly Question[] },
): Unread {
  const titles = lists.flatMap(({ columns }) => columns?.titles ?? []);
  const isReached = reachedWords(plan, said, titles);
  const found: UnreadColumn[] = [];
  for (const list of lists) found.push(...unreadOf(list, isReached));
  found.sort((a, b) => b.cells - a.cells);
  return {
    texts: found.reduce((sum, { texts }) => sum + texts, 0),
    cells: found.reduce((sum, { cells }) => sum + cells, 0),
    columns: found.slice(0, COLUMNS_SHOWN),
    more: Math.max(0, found.length - COLUMNS_SHOWN),
  };
}

type IsReached = ReturnType<typeof reachedWords>;

function unreadOf({ table, columns, left }: ReadList, isReached: IsReached): UnreadColumn[] {
  const first = table.firstRow ?? 1;
  const header = columns?.header ?? -1;
  const meanings = new Map([...(columns?.at ?? [])].map(([meaning, column]) => [column, meaning]));
  /** By column; -1 is all that stands above the list. */
  const byColumn = new Map<number, Map<string, { n: number; row: number }>>();
  for (const [i, row] of table.rows.entries()) {
    const number = first + i;
    if (i === header || left?.has(number)) continue;
    const label = row[columns?.at.get('number') ?? -1];
    for (const [column, cell] of row.entries()) {
      if (cell === '') continue;
      const isAbove = i < header;
      if (
        isReached(cell, { sheet: table.name, row: number, label, meaning: isAbove ? undefined : meanings.get(column) })
      )
        continue;
      const at = isAbove ? -1 : column;
      const texts = byColumn.get(at) ?? new Map<string, { n: number; row: number }>();
      byColumn.set(at, texts);
      const text = cell.trim();
      const known = texts.get(text);
      if (known) known.n += 1;
      else texts.set(text, { n: 1, row: number });
    }
  }
  return [...byColumn].map(([column, texts]) => toColumn(table.name, column, columns?.titles[column], texts));
}

function toColumn(
  sheet: string,
  column: number,
  title: string | undefined,
  texts: ReadonlyMap<string, { n: number; row: number }>,
): UnreadColumn {
  let cells = 0;
  for (const { n } of texts.values()) cells += n;
  const first = [...texts]
    .sort(([, a], [, b]) => b.n - a.n)
    .slice(0, TEXTS_SHOWN)
    .map(([text, { n, row }]) => ({ text: text.slice(0, 120), n, row }));
  const isAbove = column < 0;
  return {
    sheet,
    column: isAbove ? null : (title ?? '').trim(),
    number: isAbove ? null : column + 1,
    texts: texts.size,
    cells,
    first,
  };
}
