// The two ends of a cable list whose titles do not say them, or not all: two columns of names that are like each other,
// each with what belongs to it beside it in the same order. Profiles and sides in, columns out.
//
// Limits: where no title tells the ends apart, the left one is from. Parts further than four columns from their unit are
// not found.
import { alike, type Profile, pairsApart, shared, tells } from './profile.ts';

export type SideName = 'from' | 'to';

export interface EndsGiven {
  profiles: readonly Profile[];
  /** What the titles say: meaning to column. */
  titled: ReadonlyMap<string, number>;
  /** The end that a column's title names, if it does. */
  sides: readonly (SideName | null)[];
  /** Does a list of the file have a unit of this key? */
  isUnit: (key: string) => boolean;
}

export interface Ends {
  at: Map<string, number>;
  score: number;
  /** Which jack belongs to which unit is no more than likely. */
  doubtful: boolean;
}

/** Columns beside a unit in which its parts are looked for. */
const REACH = 4;
/** So much of a column has to look like a part for it to be one. */
const MOST = 0.6;
/** A pair of columns of names that scores less is no pair of ends. */
const ENDS_WANTED = 2.4;

/** Rows that are wanted to tell columns without a word of doubt. */
const ROWS_WANTED = 4;

type Part = 'Jack' | 'Rack' | 'Location' | 'U' | 'Connector';

/** The most likely ends; null where no two columns can be them. */
export function findEnds(given: EndsGiven): Ends | null {
  const [froms, tos] = [anchorsOf(given, 'from'), anchorsOf(given, 'to')];
  let best: Ends | null = null;
  for (const a of froms) {
    for (const b of tos) {
      const isTold = given.sides[a] !== null && given.sides[b] !== null;
      if (a === b || (b < a && !isTold && !isTitled(given, a) && !isTitled(given, b))) continue;
      const found = endsAt(given, a, b);
      if (found && (!best || found.score > best.score)) best = found;
    }
  }
  return best;
}

/** Column that the titles call this end. */
function titledAnchor({ titled }: EndsGiven, side: SideName): number | undefined {
  return titled.get(`${side}Unit`) ?? titled.get(side);
}

function isTitled(given: EndsGiven, column: number): boolean {
  return titledAnchor(given, 'from') === column || titledAnchor(given, 'to') === column;
}

function anchorsOf(given: EndsGiven, side: SideName): number[] {
  const titled = titledAnchor(given, side);
  if (titled !== undefined) return [titled];
  return given.profiles
    .filter((p) => isFree(given, p.column) && (given.sides[p.column] ?? side) === side && unitness(given, p) >= 0.5)
    .map(({ column }) => column);
}

function isFree({ titled, profiles }: EndsGiven, column: number): boolean {
  return (profiles[column]?.filled ?? 0) > 0 && ![...titled.values()].includes(column);
}

/** How much a column looks like names of units. */
function unitness({ isUnit }: EndsGiven, p: Profile): number {
  const listed = p.values.size === 0 ? 0 : [...p.values].filter(isUnit).length / p.values.size;
  const others = Math.max(p.share('signal'), p.share('type'), p.share('status'), p.share('sentence'), p.share('date'));
  // Numbers of cables differ in every row, names of units seldom do.
  const isNumbers = p.share('code') > 0.9 && p.distinct > 0.9 && p.keys.length > 4;
  return Math.max(listed, p.share('unit') - (others > 0.7 ? others : 0) - (isNumbers ? 0.4 : 0));
}

function endsAt(given: EndsGiven, a: number, b: number): Ends | null {
  const [from, to] = [given.profiles[a], given.profiles[b]];
  if (!from || !to) return null;
  const isTold = isTitled(given, a) && isTitled(given, b);
  const told = (['from', 'to'] as const).filter((side, i) => given.sides[i === 0 ? a : b] === side).length;
  const names = unitness(given, from) + unitness(given, to) + alike(from, to) + shared(from, to) + told;
  let best: { parts: Map<string, number>; score: number } | null = null;
  const apart = Math.abs(b - a);
  const width = Math.min(apart, REACH + 1);
  for (let start = 1 - width; start <= 0; start += 1) {
    const found = partsIn(given, a, b, start, start + width - 1);
    if (!best || found.score > best.score) best = found;
  }
  const parts = best?.parts ?? new Map<string, number>();
  // So few rows show hardly what belongs together.
  let doubtful = !isTold && told < 2 && from.keys.length < ROWS_WANTED;
  if (!hasJacks(given, parts)) {
    const apartJacks = jacksApart(given, a, b, parts);
    doubtful ||= apartJacks !== null;
    for (const [meaning, column] of apartJacks ?? []) parts.set(meaning, column);
  }
  const score = names + (best?.score ?? 0);
  const isLikely = isTold || ((shared(from, to) >= 0.15 || hasJacks(given, parts)) && score >= ENDS_WANTED);
  if (!isLikely) return null;
  const at = new Map(parts);
  for (const [side, p] of [
    ['from', from],
    ['to', to],
  ] as const) {
    if (isTitled(given, p.column)) continue;
    const isWhole = !at.has(`${side}Location`) && !at.has(`${side}Rack`) && p.share('placed') >= 0.3;
    const hasJack = at.has(`${side}Jack`) || given.titled.has(`${side}Jack`);
    at.set(isWhole || !hasJack ? side : `${side}Unit`, p.column);
  }
  return { at, score, doubtful };
}

function hasJacks({ titled }: EndsGiven, parts: ReadonlyMap<string, number>): boolean {
  return ['fromJack', 'toJack'].every((meaning) => parts.has(meaning) || titled.has(meaning));
}

/** Which parts stand between `first` and `last` columns from the two units, where both ends have them alike. */
function partsIn(
  given: EndsGiven,
  a: number,
  b: number,
  first: number,
  last: number,
): { parts: Map<string, number>; score: number } {
  const taken = new Map<Part, { offset: number; score: number }>();
  for (const part of ['Rack', 'Location', 'Connector', 'Jack', 'U'] as const) {
    if (given.titled.has(`from${part}`) && given.titled.has(`to${part}`)) continue;
    for (let offset = first; offset <= last; offset += 1) {
      if (offset === 0 || [...taken.values()].some((one) => one.offset === offset)) continue;
      const score = partScore(given, part, a, b, offset) - Math.abs(offset) * 0.05 - (offset < 0 ? 0.05 : 0);
      if (score >= MOST - 0.2 && score > (taken.get(part)?.score ?? 0)) taken.set(part, { offset, score });
    }
  }
  // A bare number beside a unit is its jack unless a rack stands there for it to be the place in.
  if (taken.has('U') && !taken.has('Rack')) taken.delete('U');
  const parts = new Map<string, number>();
  let score = 0;
  for (const [part, one] of taken) {
    score += one.score;
    for (const [side, unit] of [
      ['from', a],
      ['to', b],
    ] as const) {
      const column = unit + one.offset;
      if (isUsable(given, column, unit, side) && !given.titled.has(side + part)) parts.set(side + part, column);
    }
  }
  return { parts, score };
}

/** May this column be a part of the end whose unit stands in `unit`? Nothing with another meaning stands between. */
function isUsable(given: EndsGiven, column: number, unit: number, side: SideName): boolean {
  if (!isFree(given, column) || (given.sides[column] ?? side) !== side) return false;
  const step = Math.sign(unit - column);
  for (let between = column + step; between !== unit; between += step) {
    const meaning = [...given.titled].find(([, at]) => at === between)?.[0];
    if (meaning !== undefined && !meaning.startsWith(side)) return false;
  }
  return true;
}

/** How well the columns so far from the two units are this part of them: 0 where one of them cannot be. */
function partScore(given: EndsGiven, part: Part, a: number, b: number, offset: number): number {
  const scores = [];
  for (const [side, unit] of [
    ['from', a],
    ['to', b],
  ] as const) {
    if (given.titled.has(side + part)) continue;
    const [own, p] = [given.profiles[unit], given.profiles[unit + offset]];
    if (!own || !p || !isUsable(given, unit + offset, unit, side)) return 0;
    // A place stands in front of what is in it; behind it only where it has several.
    scores.push(part === 'Location' && offset > 0 && tells(p, own) >= 0.9 ? 0 : looksLike(part, own, p));
  }
  return scores.length === 0 ? 0 : Math.min(...scores);
}

function looksLike(part: Part, unit: Profile, p: Profile): number {
  switch (part) {
    case 'Jack':
      if (p.counter && p.column === 0) return 0;
      // A word that is no jack's elsewhere may be one where it differs beside each unit.
      return Math.max(p.share('jack'), pairsApart(unit, p) >= 0.95 ? p.share('short') * 0.9 : 0) - p.share('length');
    case 'Rack':
      return tells(unit, p) >= 0.9 ? p.share('rack') : 0;
    case 'Location':
      // Each unit is in one place, and a place has several units as a rule.
      return tells(unit, p) >= 0.95 && p.values.size <= unit.values.size && p.share('sentence') < 0.3
        ? Math.max(p.share('rack'), p.share('unit') * 0.9) - Math.max(p.share('signal'), p.share('connector'))
        : 0;
    case 'U':
      return tells(unit, p) >= 0.9 ? p.share('u') : 0;
    case 'Connector':
      return p.share('connector');
  }
}

/** Two columns of jacks that stand beside each other, away from their units. */
function jacksApart(
  given: EndsGiven,
  a: number,
  b: number,
  parts: ReadonlyMap<string, number>,
): [string, number][] | null {
  const used = new Set(parts.values());
  const columns = given.profiles
    .filter((p) => isFree(given, p.column) && !used.has(p.column) && p.column !== a && p.column !== b)
    .filter((p) => p.share('jack') >= 0.8 && !p.counter && p.share('rack') < 0.5)
    .map(({ column }) => column);
  const wanted = (['from', 'to'] as const).map((side) => `${side}Jack`).filter((meaning) => !given.titled.has(meaning));
  if (wanted.length === 0 || columns.length !== wanted.length) return null;
  return wanted.map((meaning, i): [string, number] => [meaning, columns[i] ?? -1]);
}
