// A column called Type in a list of cables holds the type of cable or the signal; its cells tell which. Decides that
// alone, and only where nobody said it.
//
// Limits: At two cells or a mixture a person says it in the preview.
import { textToSignal } from '../trade/signals.ts';
import { type Columns, titleToKey } from './columns.ts';

/** Cells that are looked at. */
const CELLS_SEARCHED = 200;
/** So many cells that name a signal are wanted, and so large a share of those that are filled. */
const CELLS_WANTED = 3;
const SHARE_WANTED = 0.8;

/** Words of the jacket, which some signals share: `Cat6`, `audio pair`, `110R AES cable`. Common practice, no source. */
export const CABLE_WORDS =
  /\d{3}|\b(cat ?\d\w?|awg|pairs?|coax\w*|cores?|multi\w*|rg ?-?\d\w*|o[ms]\d|[usf]+\/?[uf]tp|cable|cord|lead|quad|jacket|plenum|lszh|shield\w*|screened|fib(re|er))\b/i;

/** The same columns, with Type as the signal where its cells name signals and no other column is the signal. */
export function typeAsSignal(columns: Columns, rows: readonly (readonly string[])[]): Columns {
  const column = columns.at.get('cableType');
  if (columns.kind !== 'cables' || column === undefined || columns.at.has('signal')) return columns;
  if (!isType(columns.titles[column])) return columns;
  const cells = rows
    .slice(columns.header + 1, columns.header + 1 + CELLS_SEARCHED)
    .map((row) => (row[column] ?? '').trim())
    .filter((text) => text !== '');
  const named = cells.filter((text) => textToSignal(text) !== null && !CABLE_WORDS.test(text)).length;
  if (named < CELLS_WANTED || named < cells.length * SHARE_WANTED) return columns;
  const at = new Map(columns.at);
  at.delete('cableType');
  at.set('signal', column);
  return { ...columns, at };
}

/** The title of a Type column that is read as the signal, which has to be told as a guess; null where there is none. */
export function typeReadAsSignal({ kind, at, titles }: Columns): string | null {
  const title = kind === 'cables' ? titles[at.get('signal') ?? -1] : undefined;
  return title !== undefined && isType(title) ? title : null;
}

function isType(title: string | undefined): boolean {
  return titleToKey(title ?? '') === 'type';
}
