// Jacks in one line of the trade's own notation, and back: `8 x XLR in, 1 x RJ45 NET, J1-J24/J25-J48, IN L/R`. A name
// in quotes is taken as it stands. What cannot be read is told with its place in the line; nothing is dropped.

import { expandRange } from '../plan/identity.ts';
import type { Direction } from '../trade/kinds.ts';
import { nameToKey } from '../trade/names.ts';
import type { DescribedJack } from './describedEvents.ts';
import { readQuoted, splitOutsideQuotes, toQuoted } from './quoted.ts';

export interface NotedJacks {
  jacks: DescribedJack[];
  /** Labels in rows from the top, as the notation wrote them; one row unless a `/` between ranges made more. */
  rows: string[][];
  problems: { at: number; said: string; why: string }[];
}

/** Connectors as they are called in the trade; the first word of each line is the one kept. Common practice, no source. */
const CONNECTORS: readonly (readonly string[])[] = [
  ['XLR'],
  ['RJ45', 'RJ-45', '8P8C'],
  ['BNC'],
  ['TRS', '1/4"', '6.35'],
  ['TT', 'bantam'],
  ['mini-jack', 'minijack', '3.5'],
  ['RCA', 'cinch', 'phono'],
  ['D-sub 25', 'DB25', 'D-25', 'DB-25'],
  ['D-sub 15', 'DA15', 'DE15'],
  ['D-sub 9', 'DE9', 'DB9'],
  ['terminal', 'terminals', 'screw'],
  ['IDC', 'punch'],
  ['LC'],
  ['SC'],
  ['ST'],
  ['IEC', 'mains'],
  ['USB'],
  ['TOSLINK'],
  ['DIN'],
  ['N'],
];
export const CONNECTOR_NAMES = CONNECTORS.map(([name]) => name!);

/** A map, so that a jack called `constructor` has no direction. */
const DIRECTIONS = new Map<string, Direction>([
  ['in', 'in'],
  ['ins', 'in'],
  ['input', 'in'],
  ['inputs', 'in'],
  ['out', 'out'],
  ['outs', 'out'],
  ['output', 'out'],
  ['outputs', 'out'],
  ['both', 'both'],
  ['in/out', 'both'],
  ['io', 'both'],
  ['i/o', 'both'],
]);
const NOT_CLOSED = 'The quote is not closed.';
const MOST = 512;

export function parseJacks(text: string): NotedJacks {
  const noted: NotedJacks = { jacks: [], rows: [[]], problems: [] };
  for (const { at, said } of splitOutsideQuotes(text)) {
    const trouble = parseItem(said, noted);
    if (trouble) noted.problems.push({ at, said, why: trouble });
  }
  noted.rows = noted.rows.filter((row) => row.length > 0);
  return noted;
}

/** @returns why it could not be read; null when it was. */
function parseItem(item: string, noted: NotedJacks): string | null {
  const counted = /^(\d{1,4})\s*[x×*]\s*(.+)$/isu.exec(item);
  const count = counted ? Number(counted[1]) : null;
  const words = takeWords(counted ? counted[2]! : item, count !== null);
  if (words === null) return NOT_CLOSED;
  const { connector, direction, rest } = words;
  if (count !== null && (count < 1 || count > MOST)) return `Between 1 and ${MOST} at once.`;
  const made = labelsOf(rest, count, { connector, direction });
  if (typeof made === 'string') return made;
  const taken = new Set(noted.jacks.map(({ label }) => nameToKey(label)));
  const twice = made.flat().find((label) => taken.has(nameToKey(label)));
  if (twice !== undefined) return `${twice} is there already.`;
  if (new Set(made.flat().map(nameToKey)).size !== made.flat().length) return 'Two of these would bear the same name.';
  for (const [row, found] of made.entries()) noted.rows[row] = [...(noted.rows[row] ?? []), ...found];
  for (const label of made.flat()) {
    noted.jacks.push({ label, ...(connector ? { connector } : {}), ...(direction ? { direction } : {}) });
  }
  return null;
}

interface Words {
  connector: string | null;
  direction: Direction | null;
  rest: string;
}

/**
 * Takes the connector in front and a direction beside it; a direction in front of a number is part of the label. Null
 * when a quote is not closed.
 */
function takeWords(text: string, isCounted: boolean): Words | null {
  let rest = text.trim();
  let connector: string | null = null;
  const quoted = readQuoted(rest);
  if (quoted === 'open') return null;
  if (quoted) {
    const after = quoted.after.trim();
    // Two names one after the other: the first is a connector that the trade has no word for.
    if (after === '' || rangeEnd(after) !== null) return { connector, direction: null, rest };
    connector = quoted.text;
    rest = after;
  }
  for (const [name, ...others] of connector === null ? CONNECTORS : []) {
    const known = [name!, ...others].find((one) => startsWithWord(rest, one));
    if (known === undefined) continue;
    connector = name!;
    rest = rest.slice(known.length).trim();
    break;
  }
  const [first = ''] = /^\S*/.exec(rest) ?? [];
  const after = rest.slice(first.length).trim();
  const isExact = readQuoted(after) !== null;
  const direction = DIRECTIONS.get(first.toLowerCase()) ?? (isExact && /^none$/i.test(first) ? 'none' : null);
  // `IN 1` and `IN L/R` are names; `4 x in P01` says what P01 and the rest are.
  const isName = after !== '' && !isExact && (/^\d|^L\s*[/+]\s*R$/i.test(after) || (connector === null && !isCounted));
  if (readQuoted(rest) !== null) return { connector, direction: null, rest };
  if (direction === null || isName) return { connector, direction: directionOf(rest), rest };
  return { connector, direction, rest: after };
}

/** What stands behind the sign of a range in front of another name in quotes; null when it is none. */
function rangeEnd(text: string): string | null {
  const [sign] = /^(?:-|–|\.\.|to|thru)\s*/i.exec(text) ?? [];
  return sign !== undefined && readQuoted(text.slice(sign.length)) !== null ? text.slice(sign.length) : null;
}

function startsWithWord(text: string, word: string): boolean {
  return (
    text.toLowerCase().startsWith(word.toLowerCase()) && (text.length === word.length || /\s/.test(text[word.length]!))
  );
}

/** `IN 1` is an input by its name. */
function directionOf(label: string): Direction | null {
  const first = /^[a-z/]+/i.exec(label)?.[0].toLowerCase() ?? '';
  return DIRECTIONS.get(first) ?? null;
}

/** Rows of labels, or why not. */
function labelsOf(pattern: string, count: number | null, about: Omit<Words, 'rest'>): string[][] | string {
  if (pattern === '') {
    if (count === null) return 'How many? Write for example 8 x XLR in.';
    return [numbered(about.direction === 'in' ? 'IN ' : about.direction === 'out' ? 'OUT ' : 'J', 1, count, 1)];
  }
  const quoted = readQuoted(pattern);
  if (quoted !== null) return quoted === 'open' ? NOT_CLOSED : quotedLabels(quoted, pattern, count);
  const rows = rowsOf(pattern);
  if (rows !== null) {
    const total = rows.flat().length;
    if (count !== null && total === 1 && count > 1) return from(pattern, count);
    return count === null || count === total ? rows : `${count} were said, ${pattern} names ${total}.`;
  }
  return count === null ? 'This range cannot be counted out.' : from(pattern, count);
}

/** `"XLR 1"` one jack, or counted on from it; `"XLR 1"-"XLR 8"` a range. */
function quotedLabels(
  first: { text: string; after: string },
  pattern: string,
  count: number | null,
): string[][] | string {
  if (nameToKey(first.text) === '') return 'There is no name between the quotes.';
  const after = first.after.trim();
  if (after === '') return count === null || count === 1 ? [[first.text]] : from(first.text, count);
  const last = readQuoted(rangeEnd(after) ?? '');
  if (last === 'open') return NOT_CLOSED;
  if (last === null || last.after.trim() !== '') return 'After a name in quotes only a range may follow: "A 1"-"A 8".';
  const range = expandRange(first.text, last.text);
  if (range === null) return 'This range cannot be counted out.';
  return count === null || count === range.length ? [range] : `${count} were said, ${pattern} names ${range.length}.`;
}

/** `IN L/R` two legs, `J1-J24/J25-J48` rows from the top, `P01-P24` one; a name without a range is one jack. */
function rowsOf(pattern: string): string[][] | null {
  const legs = /^(.*?)\s*\bL\s*[/+]\s*R$/i.exec(pattern);
  if (legs) {
    const before = legs[1]!.trim();
    return [[`${before} L`.trim(), `${before} R`.trim()]];
  }
  const ranges = pattern.split('/').map(rangeOf);
  if (ranges.length > 1 && ranges.every((range) => range !== null)) return ranges;
  const range = rangeOf(pattern);
  if (range) return [range];
  return /\d\s*(?:-|–|\.\.|to|thru)\s*\S*\d$/i.test(pattern) ? null : [[pattern]];
}

function rangeOf(text: string): string[] | null {
  const match = /^(.*?\d+)\s*(?:-|–|\.\.|to|thru)\s*(.*\d+)$/i.exec(text.trim());
  return match ? expandRange(match[1]!, match[2]!) : null;
}

/** So many, counted on from a name that ends in a number; else the name with 1, 2, 3 behind it. */
function from(name: string, count: number): string[][] {
  const match = /^(.*?)(\d+)$/.exec(name);
  return match ? [numbered(match[1]!, Number(match[2]), count, match[2]!.length)] : [numbered(`${name} `, 1, count, 1)];
}

function numbered(before: string, first: number, count: number, digits: number): string[] {
  return Array.from({ length: count }, (_, i) => before + String(first + i).padStart(digits, '0'));
}

/** The same jacks in a line that reads back to them. A name that the notation would take for something else is quoted. */
export function jacksToNotation(jacks: readonly DescribedJack[]): string {
  const items: string[] = [];
  for (let i = 0; i < jacks.length; ) {
    let end = i + 1;
    while (end - i < MOST && isNext(jacks[end - 1]!, jacks[end])) end += 1;
    const run = jacks.slice(i, end);
    const item = runToItem(run);
    if (item === null) items.push(...run.map((jack) => runToItem([jack])!));
    else items.push(item);
    i = end;
  }
  return items.join(', ');
}

/** One counted item, plain where that reads back to the same jacks, else with quotes; null when a run has to be told one by one. */
function runToItem(run: readonly DescribedJack[]): string | null {
  const [{ connector, direction, label }] = run as [DescribedJack];
  const last = run.length > 1 ? run.at(-1)!.label : null;
  const told = direction === 'both' ? 'in/out' : (direction ?? '');
  const write = (kind: string, name: (text: string) => string) =>
    [`${run.length} x`, kind, told, last === null ? name(label) : `${name(label)}-${name(last)}`]
      .filter(Boolean)
      .join(' ');
  const plain = write(connector ?? '', (text) => text);
  const exact = write(connector ?? '', toQuoted);
  const sure = write(connector ? toQuoted(connector) : '', toQuoted);
  return [plain, exact, sure].find((item) => readsBack(item, run)) ?? (run.length === 1 ? sure : null);
}

function readsBack(item: string, run: readonly DescribedJack[]): boolean {
  const { jacks, problems, rows } = parseJacks(item);
  // A quote left open would take in whatever is written behind it.
  const ends = splitOutsideQuotes(`${item},x`).length === 2;
  return (
    ends &&
    problems.length === 0 &&
    rows.length === 1 &&
    jacks.length === run.length &&
    jacks.every(
      (one, i) =>
        one.label === run[i]!.label && one.connector === run[i]!.connector && one.direction === run[i]!.direction,
    )
  );
}

function isNext(a: DescribedJack, b: DescribedJack | undefined): boolean {
  if (!b || a.connector !== b.connector || a.direction !== b.direction) return false;
  const range = expandRange(a.label, b.label);
  return range?.length === 2 && range[1] === b.label;
}

/** All in one row; counted down each column (odd over even); or along each row (half over half). */
export type FaceRows = 'one' | 'odd-over-even' | 'one-after-the-other';

/** Labels of one face in so many rows. */
export function labelsToRows(labels: readonly string[], how: FaceRows, count = 2): string[][] {
  if (how === 'one' || labels.length === 0) return [[...labels]];
  const length = Math.ceil(labels.length / count);
  const rows = Array.from({ length: count }, (_, row) =>
    how === 'odd-over-even'
      ? labels.filter((__, i) => i % count === row)
      : labels.slice(row * length, (row + 1) * length),
  );
  return rows.filter((row) => row.length > 0);
}

/** The way in which these rows were laid out from these labels; null when it is none of them. */
export function rowsToHow(
  labels: readonly string[],
  rows: readonly (readonly string[])[],
): { how: FaceRows; count: number } | null {
  const said = JSON.stringify(rows);
  const ways: FaceRows[] = rows.length === 1 ? ['one'] : ['odd-over-even', 'one-after-the-other'];
  const how = ways.find((way) => JSON.stringify(labelsToRows(labels, way, rows.length)) === said);
  return how ? { how, count: Math.max(2, rows.length) } : null;
}
