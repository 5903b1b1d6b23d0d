// What the columns of a list mean: by their titles where these say it, else by what stands in the cells and beside them.
// What the titles say stays, but for a count of the rows that would be the cable's number.
//
// Limits: only lists of cables are read by their cells; other lists need their titles.
import { derived } from '../../plan/derived.ts';
import { type Columns, columnsAs, findColumns, joinTitles, sideOf, titleToKey } from '../columns.ts';
import type { Table } from '../rows/readTypes.ts';
import { findEnds } from './ends.ts';
import { findHeaderRow } from './headerRow.ts';
import { type Profile, profilesOf } from './profile.ts';
import { bestNumber, findSingles, numberScore } from './singles.ts';

/** Words of a title after which the numbers below are those of the cables. */
const NAMES_A_CABLE = /^(cable|cbl|wire|run|line|tag|circuit|kabel|label|cn|repere|lead)/;

type Rows = readonly (readonly string[])[];

/** The columns of a table; null when it is no list that is known. */
export const columnsByContent = derived((table: Table): Columns | null => {
  const isUnit = (key: string) => table.unitNames?.has(key) ?? false;
  const titled = findColumns(table.rows);
  if (titled?.kind === 'cables') return fillIn(titled, table.rows, isUnit);
  if (titled) return (namesCables(titled) && cablesAtUnits(titled, table.rows, isUnit)) || titled;
  return withoutTitles(table.rows, isUnit);
});

/** Does a list that reads as one of units or jacks have a column for the number of a cable? */
function namesCables({ kind, titles }: Columns): boolean {
  const isNumber = (title: string) => /^(cable|wire|cbl|kabel)( (no|id|nr|number))?$/.test(titleToKey(title));
  return (kind === 'units' || kind === 'jacks') && titles.some(isNumber);
}

/**
 * What reads as a list of units or jacks (`Cable, Device, IP, Switch, Port`), where its cells name both ends of a cable,
 * one of them in a column that such a list has no use for.
 */
function cablesAtUnits(titled: Columns, rows: Rows, isUnit: (key: string) => boolean): Columns | null {
  const found = withoutTitles(rows, isUnit);
  if (!found || !['number', 'fromJack', 'toJack'].every((meaning) => found.at.has(meaning))) return null;
  const read = new Set(titled.at.values());
  const units = ['fromUnit', 'toUnit'].flatMap((meaning) => found.at.get(meaning) ?? []);
  return units.length === 2 && units.some((column) => !read.has(column)) ? found : null;
}

/** A list of cables with the columns that its titles leave open. */
export function fillIn(titled: Columns, rows: Rows, isUnit: (key: string) => boolean): Columns {
  const profiles = profilesOf(rows, titled.header);
  const at = withoutCounter(titled, profiles);
  const found = new Map<string, number>();
  const doubtful = new Set<number>();
  const isOpen = (side: string) => !at.has(`${side}Jack`) || !(at.has(side) || at.has(`${side}Unit`));
  const sides = titled.titles.map((title) => sideOf(titleToKey(title)));
  const ends = ['from', 'to'].some(isOpen)
    ? findEnds({ profiles, titled: at, sides: profiles.map((_, column) => sides[column] ?? null), isUnit })
    : null;
  for (const [meaning, column] of ends?.at ?? []) {
    found.set(meaning, column);
    if (ends?.doubtful) doubtful.add(column);
  }
  const taken = new Set([...at.values(), ...found.values()]);
  const free = profiles.filter((p) => p.filled > 0 && !taken.has(p.column));
  for (const [meaning, column] of findSingles(free, (one) => at.has(one))) found.set(meaning, column);
  if (found.size === 0 && at.size === titled.at.size) return titled;
  // Nothing else can be the number: the count of the rows is it after all.
  const number = titled.at.get('number');
  if (!at.has('number') && !found.has('number') && number !== undefined) at.set('number', number);
  const inferred = [...found]
    .map(([meaning, column]) => ({ meaning, column, doubtful: doubtful.has(column) }))
    .sort((a, b) => a.column - b.column);
  return { ...titled, at: new Map([...at, ...found]), ...(inferred.length > 0 ? { inferred } : {}) };
}

/** What the titles say, without a number that only counts the rows where another column is better as one. */
function withoutCounter({ at, titles }: Columns, profiles: readonly Profile[]): Map<string, number> {
  const kept = new Map(at);
  const number = at.get('number');
  if (number === undefined || !profiles[number]?.counter) return kept;
  // `Cable No` may well count: what else looks like numbers is asked about.
  if (NAMES_A_CABLE.test(titleToKey(titles[number] ?? ''))) return kept;
  // A column called Cable alone is the type only while another is the number.
  const type = at.get('cableType');
  const isBare = type !== undefined && /^(cable|wire|cbl|kabel)$/.test(titleToKey(titles[type] ?? ''));
  const read = new Set([...at].filter(([meaning]) => meaning !== 'cableType' || !isBare).map(([, column]) => column));
  const better = bestNumber(profiles.filter(({ column, counter }) => !read.has(column) && !counter));
  if (!better) return kept;
  kept.delete('number');
  if (isBare && better.column === type) kept.delete('cableType');
  return kept;
}

/** A list whose titles nobody knows, or that has none: taken only where two ends are found. */
function withoutTitles(rows: Rows, isUnit: (key: string) => boolean): Columns | null {
  const where = findHeaderRow(rows);
  if (!where) return null;
  const { header, titled, groups } = where;
  const own = titled ? (rows[header] ?? []).map((cell) => cell.trim()) : [];
  const titles = groups === null ? own : joinTitles(rows[groups] ?? [], own);
  const hints = columnsAs('cables', titles);
  const profiles = profilesOf(rows, header);
  const number = profiles[hints.get('number') ?? -1];
  if (number && numberScore(number) === 0) hints.delete('number');
  const columns = fillIn({ kind: 'cables', header, at: hints, titles }, rows, isUnit);
  const has = (meaning: string) => columns.at.has(meaning);
  const isEnd = (side: string) => has(side) || has(`${side}Unit`);
  const hasJacks = has('fromJack') && has('toJack');
  return isEnd('from') && isEnd('to') && (has('number') || hasJacks) ? columns : null;
}
