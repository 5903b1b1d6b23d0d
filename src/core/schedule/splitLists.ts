// Several lists on one sheet, each under its own header: a table for each, with the numbers of its rows as the sheet has
// them. Headers are looked for below a break alone; no row is read here, and no row is lost.
//
// Limits: A second list needs a blank row or a title above its header, unless this has the titles of the list above in
// another order; a header most of whose cells are known titles, and items right below it.
import { nameToKey } from '../trade/names.ts';
import { type Columns, findColumns, headerAt, SEARCHED_ROWS, titleToKey } from './columns.ts';
import type { ListKind } from './meanings.ts';
import { isReordered } from './noItems.ts';
import type { Table } from './rows/readTypes.ts';
import { splitBeside } from './shapes/sideBySide.ts';
import { isLegendTitle } from './words.ts';

/** Rows below a header that are looked at for items. */
const ITEMS_SEARCHED = 20;
/** A longer cell is a sentence, not a title. */
const TITLE_LENGTH = 40;

/** What a row of each list has to name, at the least: one meaning out of each group. */
const ITEM: Record<ListKind, readonly (readonly string[])[]> = {
  cables: [
    ['from', 'fromUnit', 'fromJack', 'fromRack', 'number'],
    ['to', 'toUnit', 'toJack', 'toRack'],
  ],
  units: [['unit'], ['rack', 'room', 'u', 'uTop', 'height', 'jacks', 'description', 'address', 'model']],
  jacks: [['unit'], ['jack']],
  racks: [['rack'], ['room', 'height', 'numbering']],
  circuits: [['circuit'], ['hops']],
};

/** Tables with one list stay the very same. */
export function splitLists(tables: readonly Table[]): Table[] {
  const lists = tables.flatMap(splitTable).flatMap(splitBeside);
  return lists.length > 1 ? withUnitNames(lists) : lists;
}

/** Lists whose titles name no ends, with the units that the other lists of the file name. */
function withUnitNames(lists: readonly Table[]): Table[] {
  const found = lists.map(({ rows }) => findColumns(rows));
  const names = new Set<string>();
  found.forEach((columns, i) => {
    if (columns?.kind !== 'units') return;
    for (const row of (lists[i]?.rows ?? []).slice(columns.header + 1)) {
      const key = nameToKey(row[columns.at.get('unit') ?? -1] ?? '');
      if (key !== '') names.add(key);
    }
  });
  if (names.size === 0) return [...lists];
  return lists.map((table, i) => (found[i] === null ? { ...table, unitNames: names } : table));
}

function splitTable(table: Table): Table[] {
  const { rows } = table;
  const begins: number[] = [0];
  let header = firstHeader(rows);
  if (header === null) return [table];
  for (let i = header + 2; i < rows.length; i += 1) {
    const begin = beginOf(rows, i, header) ?? reorderedAt(rows, i, header);
    if (begin === null) continue;
    begins.push(begin);
    header = i;
  }
  return begins.length === 1 ? [table] : begins.map((begin, k) => part(table, begin, begins[k + 1] ?? rows.length));
}

/** The first header that has items below it: the first list begins with the sheet. */
function firstHeader(rows: Table['rows']): number | null {
  for (let i = 0; i < Math.min(rows.length, SEARCHED_ROWS); i += 1) {
    const found = mayBeHeader(rows[i] ?? []) ? headerAt(rows, i) : null;
    if (found && hasItems(rows, i, found)) return i;
  }
  return null;
}

/** Where the list begins whose header is in row `i`: with its own title; null where none begins there. */
function beginOf(rows: Table['rows'], i: number, before: number): number | null {
  // A header may stand on two rows; what is above them must not be an item.
  const top = [i, i - 1].find((at) => isBreak(rows[at - 1] ?? []));
  const row = rows[i] ?? [];
  if (
    top === undefined ||
    !mayBeHeader(row) ||
    filledIn(rows[i + 1] ?? []) === 0 ||
    (top < i && !mayBeHeader(rows[top] ?? []))
  )
    return null;
  if (sameTitles(row, rows[before] ?? [])) return null;
  const found = headerAt(rows, i);
  if (!found || !isPlain(row, found) || !hasItems(rows, i, found)) return null;
  // The second row of a header says more than the first alone.
  const next = headerAt(rows, i + 1);
  if (next && next.score > found.score && mayBeHeader(rows[i + 1] ?? [])) return null;
  let begin = top;
  while (begin > before + 1 && filledIn(rows[begin - 1] ?? []) === 1) {
    begin -= 1;
    if (isLegendTitle(textIn(rows[begin] ?? []))) return null;
  }
  return begin;
}

/** The same titles in another order, right below the items: their columns are others from here on. */
function reorderedAt(rows: Table['rows'], i: number, before: number): number | null {
  if (!isReordered(rows[i] ?? [], rows[before] ?? [])) return null;
  const found = headerAt(rows, i);
  return found && hasItems(rows, i, found) ? i : null;
}

/** Titles are words: two of them at least, none a sentence, few with figures. Cheap, since it is asked of every row. */
function mayBeHeader(row: readonly string[]): boolean {
  let filled = 0;
  let figures = 0;
  for (const cell of row) {
    if (cell === '' || cell.trim() === '') continue;
    if (cell.length > TITLE_LENGTH) return false;
    filled += 1;
    if (/\d/.test(cell)) figures += 1;
  }
  return filled >= 2 && figures * 3 < filled;
}

/** Most of its cells are titles that mean something. */
function isPlain(row: readonly string[], { at }: Pick<Columns, 'at'>): boolean {
  const filled = filledIn(row);
  return at.size >= 2 && at.size * 2 > filled && (at.size >= 3 || at.size === filled);
}

function hasItems(rows: Table['rows'], header: number, { kind, at }: Pick<Columns, 'kind' | 'at'>): boolean {
  let items = 0;
  let others = 0;
  for (const row of rows.slice(header + 1, header + 1 + ITEMS_SEARCHED)) {
    if (filledIn(row) === 0) {
      if (items + others > 0) break;
      continue;
    }
    const names = (meaning: string) => {
      const cell = row[at.get(meaning) ?? -1]?.trim() ?? '';
      return cell !== '' && cell.length <= 2 * TITLE_LENGTH;
    };
    if (ITEM[kind].every((group) => group.some(names))) items += 1;
    else others += 1;
  }
  return items > 0 && items >= others;
}

function sameTitles(a: readonly string[], b: readonly string[]): boolean {
  const toKey = (row: readonly string[]) => row.map(titleToKey).join('\t').replace(/\t+$/, '');
  return toKey(a) === toKey(b);
}

/** Blank, or a title alone. Asked of every row, so it looks no further than it must. */
function isBreak(row: readonly string[]): boolean {
  let filled = 0;
  for (const cell of row) {
    if (cell === '' || cell.trim() === '') continue;
    filled += 1;
    if (filled > 1) return false;
  }
  return true;
}

function filledIn(row: readonly string[]): number {
  let filled = 0;
  for (const cell of row) if (cell !== '' && cell.trim() !== '') filled += 1;
  return filled;
}

function textIn(row: readonly string[]): string {
  return row.find((cell) => cell.trim() !== '') ?? '';
}

function part(table: Table, from: number, to: number): Table {
  const first = table.firstRow ?? 1;
  const has = ({ row }: { row: number }) => row >= first + from && row < first + to;
  const { notes, merged, shown } = table;
  return {
    ...table,
    rows: table.rows.slice(from, to),
    firstRow: first + from,
    ...(notes ? { notes: notes.filter(has) } : {}),
    ...(shown ? { shown: shown.filter(has) } : {}),
    ...(merged ? { merged: merged.filter(has) } : {}),
  };
}
