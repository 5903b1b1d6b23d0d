// Jacks in one line of the trade's own notation, and back: `8 x XLR in, 1 x RJ45 NET, J1-J24/J25-J48, IN L/R`. A name
// in quotes is taken as it stands. What cannot be read is told with its place in the line; nothing is dropped.

import { expandRange } from '../plan/identity.ts';
import type { Direction } from '../trade/kinds.ts';
import { nameToKey } from '../trade/names.ts';
import type { DescribedJack } from './describedEvents.ts';
import { rangeEnd, rangeOf, takeCount, takeWords, type Words } from './jackWords.ts';
import { readQuoted, splitOutsideQuotes, toQuoted } from './quoted.ts';

export interface NotedJacks {
  jacks: DescribedJack[];
  /** Labels in rows from the top, as the notation wrote them; one row unless a `/` between ranges made more. */
  rows: string[][];
  problems: { at: number; said: string; why: string }[];
}

const NOT_CLOSED = 'The quote is not closed.';
/** So many in one part, and so many on one unit: what is more does not fit the entry that describes it. */
const MOST = 512;
const MOST_OF_UNIT = 1024;
/** No part that a person writes is longer; the ways to read it are tried on no more than this. */
const LONGEST = 400;

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
  if (item.length > LONGEST) return 'This is too long to be read as one part. Put commas between the parts.';
  const counted = takeCount(item);
  const count = counted?.count ?? null;
  const words = takeWords(counted?.rest ?? item, counted !== null);
  if (words === null) return NOT_CLOSED;
  const { connector, direction, rest } = words;
  if (counted?.how === 'bare' && connector === null && direction === null) {
    return `Is ${counted.count} a count? Write ${counted.count} x ${counted.rest}. For one jack of that name write it in quotes: "${item}".`;
  }
  if (count !== null && (count < 1 || count > MOST)) return `Between 1 and ${MOST} at once.`;
  const made = labelsOf(rest, count, { connector, direction }, noted);
  if (typeof made === 'string') return made;
  const labels = made.flat();
  if (labels.length === 0) return 'This range cannot be counted out.';
  if (labels.length > MOST || noted.jacks.length + labels.length > MOST_OF_UNIT)
    return `No more than ${MOST} jacks in one part and ${MOST_OF_UNIT} on one unit.`;
  const taken = new Set(noted.jacks.map(({ label }) => nameToKey(label)));
  const twice = labels.find((label) => taken.has(nameToKey(label)));
  if (twice !== undefined) return `${twice} is there already.`;
  if (new Set(labels.map(nameToKey)).size !== labels.length) return 'Two of these would bear the same name.';
  for (const [row, found] of made.entries()) noted.rows[row] = [...(noted.rows[row] ?? []), ...found];
  for (const label of labels) {
    noted.jacks.push({ label, ...(connector ? { connector } : {}), ...(direction ? { direction } : {}) });
  }
  return null;
}

/** Like jacks side by side, as a person checks them before they are made: `IN 1` to `IN 8`, XLR, in. */
export interface JackGroup {
  labels: string[];
  connector: string | null;
  direction: Direction | null;
}

/** What will be made, in its order; joined together again it is the list of jacks. */
export function jacksToGroups(jacks: readonly DescribedJack[]): JackGroup[] {
  const groups: JackGroup[] = [];
  for (const [i, jack] of jacks.entries()) {
    const last = groups.at(-1);
    if (last && isNext(jacks[i - 1]!, jack)) last.labels.push(jack.label);
    else groups.push({ labels: [jack.label], connector: jack.connector ?? null, direction: jack.direction ?? null });
  }
  return groups;
}

/** Rows of labels, or why not. */
function labelsOf(
  pattern: string,
  count: number | null,
  about: Omit<Words, 'rest'>,
  { jacks }: NotedJacks,
): string[][] | string {
  if (pattern === '') {
    if (count === null) return 'How many? Write for example 8 x XLR in.';
    const before = about.direction === 'in' ? 'IN ' : about.direction === 'out' ? 'OUT ' : 'J';
    return [numbered(before, highest(jacks, before) + 1, count, 1)];
  }
  const bracketed = /^(.*?)\(([^()]*)\)$/s.exec(pattern);
  if (bracketed && (bracketed[1] === '' || count !== null)) return listed(bracketed[1]!, bracketed[2]!, count);
  const quoted = readQuoted(pattern);
  if (quoted !== null) return quoted === 'open' ? NOT_CLOSED : quotedLabels(quoted, pattern, count);
  const rows = rowsOf(pattern);
  if (rows !== null) {
    const total = rows.flat().length;
    if (count !== null && total === 1 && count > 1) {
      const names = namesIn(pattern);
      return names.length === count ? [names] : from(pattern, count);
    }
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

/** Names in brackets behind a connector or a count: `(A/B)`, `NET (PRI, SEC)`. */
function listed(before: string, inside: string, count: number | null): string[][] | string {
  const names = inside.split(/[/,;+]/).flatMap((part) => rangeOf(part) ?? (part.trim() === '' ? [] : [part.trim()]));
  if (names.length === 0) return 'There is no name between the brackets.';
  if (count !== null && count !== names.length) return `${count} were said, (${inside}) names ${names.length}.`;
  return [names.map((name) => `${before.trim()} ${name}`.trim())];
}

/** `A/B`, `PRI/SEC`: a name for each of those that were counted. */
function namesIn(pattern: string): string[] {
  return pattern.split('/').flatMap((part) => (part.trim() === '' ? [] : [part.trim()]));
}

/** Unnamed groups of one kind count on: the highest number that such a name bears so far. */
function highest(jacks: readonly DescribedJack[], before: string): number {
  let most = 0;
  for (const { label } of jacks) {
    const [, name = '', digits] = /^(.*?)(\d{1,6})$/s.exec(label) ?? [];
    if (digits !== undefined && nameToKey(`${name}1`) === nameToKey(`${before}1`))
      most = Math.max(most, Number(digits));
  }
  return most;
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
  const { connector, direction, label } = run[0]!;
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
  // A quote or a bracket left open would take in whatever is written behind it.
  const ends = splitOutsideQuotes(`${item},x)`).length === 2;
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
