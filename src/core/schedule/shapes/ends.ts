// Lists with one row per end: two rows of one number are one cable. Recognised by the numbers, which nearly all stand
// twice.
//
// Limits: A number has to stand on each of its rows.
import { nameToKey } from '../../trade/names.ts';
import { type Columns, columnsAs, SEARCHED_ROWS, titleToKey } from '../columns.ts';

type Rows = readonly (readonly string[])[];

/** So many numbers that stand twice are wanted, and so large a share of all. */
const PAIRS_WANTED = 2;
const SHARE_WANTED = 0.6;
/** `3101-A`, `3101/2`. The mark of an end, behind a separator. */
const MARKED = /^(.*[^\s\p{Pd}_/.])[\s\p{Pd}_/.]\s?([AB]|[12]|from|to)$/iu;
const END_TITLE = /^(end|side|a b|cable end|ende|extremite)$/;
/** What only a list of jacks says. */
const OF_JACKS = /^(direction|dir|tip|ring|legend|strip|strip text|normal|normalled to)$/;

/** `3101-A`: the number, and the letter of its end. */
export function splitEndMark(number: string): { label: string; mark: string } {
  const [, label = number, mark = ''] = MARKED.exec(number.trim()) ?? [];
  return { label, mark };
}

/** The columns of such a list; null where the sheet is none. `marked`: its numbers end in the letter of the end. */
export function endColumns(rows: Rows, header: number | null): { columns: Columns; marked: boolean } | null {
  const candidates = header === null ? rows.slice(0, SEARCHED_ROWS).map((_, i) => i) : [header];
  for (const i of candidates) {
    const columns = columnsByTitles(rows[i] ?? [], i);
    const found = columns && isByEnds(rows, columns);
    if (columns && found) return { columns, marked: found.marked };
  }
  return null;
}

function columnsByTitles(titles: readonly string[], header: number): Columns | null {
  const keys = titles.map(titleToKey);
  if (keys.some((key) => OF_JACKS.test(key))) return null;
  const at = columnsAs('cables', titles);
  if ([...at.keys()].some((meaning) => /^(from|to)/.test(meaning)) || !at.has('number')) return null;
  const number = at.get('number') ?? -1;
  const jacks = columnsAs(
    'jacks',
    titles.map((title, column) => (column === number ? '' : title)),
  );
  const [unit, jack] = [jacks.get('unit'), jacks.get('jack')];
  if (unit === undefined || jack === undefined) return null;
  const parts = new Map([
    ['fromUnit', unit],
    ['fromJack', jack],
  ]);
  const place = jacks.get('room');
  if (place !== undefined)
    parts.set(/^(rack|bay|cabinet)/.test(keys[place] ?? '') ? 'fromRack' : 'fromLocation', place);
  const connector = jacks.get('connector');
  if (connector !== undefined && at.get('cableType') !== connector) parts.set('fromConnector', connector);
  const mark = keys.findIndex((key) => END_TITLE.test(key));
  if (mark >= 0) parts.set('endMark', mark);
  const taken = new Set(parts.values());
  for (const [meaning, column] of at) if (taken.has(column)) at.delete(meaning);
  for (const [meaning, column] of parts) at.set(meaning, column);
  return { kind: 'cables', header, at, titles: [...titles] };
}

/** Do nearly all numbers stand twice, at two places? */
function isByEnds(rows: Rows, { at, header }: Columns): { marked: boolean } | null {
  const cell = (row: readonly string[], meaning: string) => row[at.get(meaning) ?? -1]?.trim() ?? '';
  const items = rows.slice(header + 1).filter((row) => cell(row, 'number') !== '' && cell(row, 'fromUnit') !== '');
  for (const marked of [false, true]) {
    const places = new Map<string, string[]>();
    for (const row of items) {
      const { label, mark } = marked ? splitEndMark(cell(row, 'number')) : { label: cell(row, 'number'), mark: '' };
      if (marked && mark === '') continue;
      const key = nameToKey(label);
      const place = `${nameToKey(cell(row, 'fromUnit'))}/${nameToKey(cell(row, 'fromJack'))}`;
      places.set(key, [...(places.get(key) ?? []), place]);
    }
    const pairs = [...places.values()].filter((at) => at.length === 2 && at[0] !== at[1]).length;
    if (pairs >= PAIRS_WANTED && pairs >= SHARE_WANTED * places.size && 2 * pairs >= SHARE_WANTED * items.length)
      return { marked };
  }
  return null;
}
