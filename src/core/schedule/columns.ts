// Which row names the columns, and which column means what, by their titles; no cell below them is read here.
import { takeNearEnd } from './columnsNearEnd.ts';
import {
  CABLE_WORDS,
  CIRCUIT_WORDS,
  IN_TITLE,
  JACK_WORDS,
  NUMBER_FALLBACK,
  NUMBER_TITLE,
  OUT_TITLE,
  RACK_WORDS,
  SIDE_PARTS,
  SIDES,
  UNIT_WORDS,
} from './columnWords.ts';
import type { ListKind } from './meanings.ts';
import type { Shaped } from './shapes/rowShape.ts';

export interface Columns extends Shaped<Columns> {
  kind: ListKind;
  /** Index into the table's rows of the (last) header row. */
  header: number;
  /** Column index by meaning. A Map, since headers are hostile text too. */
  at: Map<string, number>;
  /** The header texts as they stand. */
  titles: string[];
  /** Columns that no title named and that are taken for this by their cells; doubtful where another reading is likely. */
  inferred?: readonly { meaning: string; column: number; doubtful: boolean }[];
}

/** Rows from the top in which a header is looked for. */
export const SEARCHED_ROWS = 20;

/** Folds a header: accents, case, signs and runs of blanks do not count; `#` is a number. */
export function titleToKey(title: string): string {
  return title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/#/g, ' no ')
    .replace(/n[°º]/g, ' no ')
    .replace(/[^\p{L}\p{N}+]+/gu, ' ')
    .trim();
}

function byWords(keys: readonly string[], words: readonly [string, RegExp][]): Map<string, number> {
  const at = new Map<string, number>();
  keys.forEach((key, column) => {
    if (key === '') return;
    for (const [meaning, word] of words) {
      if (!word.test(key)) continue;
      if (!at.has(meaning)) at.set(meaning, column);
      return;
    }
  });
  return at;
}

/** The end that a title names, by its key. */
export function sideOf(key: string): 'from' | 'to' | null {
  return SIDES.find(([, words]) => words.test(key))?.[0] ?? null;
}

function cableColumns(keys: readonly string[]): Map<string, number> {
  // `Da | A`, `De | A`: to, as people say it who write so; elsewhere A is the near end.
  const isTo = keys.some((key) => /^(da|de)$/.test(key));
  const rest = [...keys];
  const at = new Map<string, number>();
  keys.forEach((written, column) => {
    const key = isTo && written === 'a' ? 'to' : written;
    for (const [side, words] of SIDES) {
      const match = words.exec(key);
      if (!match) continue;
      const part = `${key.slice(0, match.index)} ${key.slice(match.index + match[0].length)}`.trim();
      const meaning = part === '' ? '' : SIDE_PARTS.find(([, word]) => word.test(part))?.[0];
      if (meaning === undefined) continue;
      // `From Conn` beside `Conn A`: the second is the plug.
      if (!at.has(side + meaning)) at.set(side + meaning, column);
      else if (meaning === 'Conn' && !at.has(`${side}Connector`)) at.set(`${side}Connector`, column);
      rest[column] = '';
      return;
    }
  });
  takeUnsided(keys, rest, at);
  takeNearEnd(rest, at, SIDE_PARTS, (key) => NUMBER_TITLE.test(key) || NUMBER_FALLBACK.test(key));
  for (const side of ['from', 'to']) {
    // `Conn` is the jack where no other column is, else the kind of plug.
    const conn = at.get(`${side}Conn`);
    at.delete(`${side}Conn`);
    if (conn !== undefined) at.set(at.has(`${side}Jack`) ? `${side}Connector` : `${side}Jack`, conn);
    // `From` beside `From Unit` is the location.
    const whole = at.get(side);
    if (whole !== undefined && at.has(`${side}Unit`)) {
      at.delete(side);
      if (!at.has(`${side}Location`)) at.set(`${side}Location`, whole);
    }
  }
  const named = byWords(rest, CABLE_WORDS);
  if (!named.has('number')) {
    const column = rest.findIndex((key) => NUMBER_FALLBACK.test(key));
    if (column >= 0) {
      named.set('number', column);
      if (named.get('circuit') === column) named.delete('circuit');
    }
  }
  if (!named.has('cableType')) {
    const column = rest.findIndex((key, i) => /^(cable|wire)$/.test(key) && named.get('number') !== i);
    if (column >= 0) named.set('cableType', column);
  }
  for (const [meaning, column] of named) if (!at.has(meaning)) at.set(meaning, column);
  return at;
}

/**
 * Titles that stand twice without saying which end (`Equip, Jack, Equip, Jack`): the first is the from end. `Output`
 * beside `Input` are the jacks of the two.
 */
function takeUnsided(keys: readonly string[], rest: string[], at: Map<string, number>): void {
  const isFree = (column: number) => column >= 0 && rest[column] !== '';
  const take = (meaning: string, column: number) => {
    at.set(meaning, column);
    rest[column] = '';
  };
  for (const [part, word] of SIDE_PARTS) {
    const columns = rest.flatMap((key, column) => (key !== '' && word.test(key) ? [column] : []));
    const [from, to] = columns;
    const isTwice = columns.length === 2 && keys[from ?? -1] === keys[to ?? -1];
    if (!isTwice || from === undefined || to === undefined || at.has(`from${part}`) || at.has(`to${part}`)) continue;
    take(`from${part}`, from);
    take(`to${part}`, to);
  }
  const [output, input] = [OUT_TITLE, IN_TITLE].map((word) => rest.findIndex((key) => word.test(key)));
  if (isFree(output ?? -1) && isFree(input ?? -1) && !at.has('fromJack') && !at.has('toJack')) {
    take('fromJack', output ?? -1);
    take('toJack', input ?? -1);
  }
}

function jackColumns(keys: readonly string[]): Map<string, number> {
  const at = byWords(keys, JACK_WORDS);
  // A block sheet says `Pair` twice: of the block, and behind the cable of the cable.
  const cable = at.get('cable');
  const pair = keys.findLastIndex((key) => /^(pair|pair no|pr|cable pair)$/.test(key));
  if (cable !== undefined && pair > cable && pair !== at.get('pair')) at.set('cablePair', pair);
  for (const meaning of ['input', 'pair', 'legend']) {
    const column = at.get(meaning);
    if (at.has('jack') || column === undefined) continue;
    at.delete(meaning);
    at.set('jack', column);
  }
  return at;
}

function readKeys(keys: readonly string[]): { kind: ListKind; at: Map<string, number>; score: number } | null {
  const cables = cableColumns(keys);
  const hasSide = (side: string) => ['', 'Unit', 'Jack', 'Rack'].some((part) => cables.has(side + part));
  if (hasSide('from') && hasSide('to') && (cables.has('number') || cables.size >= 4)) {
    return { kind: 'cables', at: cables, score: cables.size + 10 };
  }
  const units = byWords(keys, UNIT_WORDS);
  const jacks = jackColumns(keys);
  const circuits = byWords(keys, CIRCUIT_WORDS);
  const racks = byWords(keys, RACK_WORDS);
  const found: { kind: ListKind; at: Map<string, number>; score: number }[] = [];
  if (jacks.has('unit') && jacks.has('jack') && jacks.size >= 3)
    found.push({ kind: 'jacks', at: jacks, score: jacks.size + 1 });
  if (units.has('unit') && units.size >= 3) found.push({ kind: 'units', at: units, score: units.size });
  if (racks.has('rack') && racks.size >= 2 && !jacks.has('unit'))
    found.push({ kind: 'racks', at: racks, score: racks.size });
  if (circuits.has('circuit') && circuits.has('hops') && !jacks.has('unit') && !units.has('rack'))
    found.push({ kind: 'circuits', at: circuits, score: circuits.size + 1 });
  return found.sort((a, b) => b.score - a.score)[0] ?? null;
}

/** The columns of a list that is known to be of this kind, by the titles of its header row. */
export function columnsAs(kind: ListKind, titles: readonly string[]): Map<string, number> {
  const keys = titles.map(titleToKey);
  if (kind === 'cables') return cableColumns(keys);
  if (kind === 'jacks') return jackColumns(keys);
  return byWords(keys, { units: UNIT_WORDS, racks: RACK_WORDS, circuits: CIRCUIT_WORDS }[kind]);
}

type Scored = Columns & { score: number };

/** Finds the header within the first rows of a sheet; null when no row names a list that is known. */
export function findColumns(rows: readonly (readonly string[])[]): Columns | null {
  let best: Scored | null = null;
  for (let i = 0; i < Math.min(rows.length, SEARCHED_ROWS); i += 1) {
    const found = headerAt(rows, i);
    if (found && (!best || found.score > best.score)) best = found;
  }
  return best;
}

/** The list whose (last) header row this is, alone or with the row above; null when it names none that is known. */
export function headerAt(rows: readonly (readonly string[])[], i: number): Scored | null {
  const row = rows[i] ?? [];
  const above = rows[i - 1];
  const variants = [row.map(titleToKey)];
  if (above) variants.push(...joinHeaders(above, row));
  let best: Scored | null = null;
  variants.forEach((keys, variant) => {
    const read = readKeys(keys);
    if (!read) return;
    // A second header row only counts when it clearly says more.
    const score = read.score - (variant > 0 ? 1.5 : 0);
    if (best && score <= best.score) return;
    const titles = variant > 0 && above ? joinTitles(above, row) : [...row];
    best = { kind: read.kind, header: i, at: read.at, titles, score };
  });
  return best;
}

/**
 * Two header rows: the group title above reaches to the right until the next one. A title that means something only
 * without it (Notes, right of a group To) is tried without.
 */
function joinHeaders(above: readonly string[], row: readonly string[]): string[][] {
  const joined = joinTitles(above, row).map(titleToKey);
  const used = new Set(readKeys(joined)?.at.values());
  return [joined, joined.map((key, column) => (used.has(column) ? key : titleToKey(row[column] ?? '') || key))];
}

/** Titles below group titles, each of which reaches to the right until the next one. */
export function joinTitles(above: readonly string[], row: readonly string[]): string[] {
  let group = '';
  const width = Math.max(above.length, row.length);
  return Array.from({ length: width }, (_, column) => {
    if ((above[column] ?? '').trim() !== '') group = (above[column] ?? '').trim();
    const title = (row[column] ?? '').trim();
    return group === title ? title : `${group} ${title}`.trim();
  });
}
