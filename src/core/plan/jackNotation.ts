// Jacks in one line of the trade's own notation, and back: `8 x XLR in, 1 x RJ45 NET, J1-J24/J25-J48, IN L/R`. What
// cannot be read is told with its place in the line; nothing is dropped.
import type { DescribedJack } from '../audit/describedEvents.ts';
import { expandRange, nameToKey } from './identity.ts';
import type { Direction } from './model.ts';

export interface NotedJacks {
  jacks: DescribedJack[];
  /** Labels in rows from the top, as the notation wrote them; one row unless a `/` between ranges made two. */
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

const DIRECTIONS: Record<string, Direction> = {
  in: 'in',
  ins: 'in',
  input: 'in',
  inputs: 'in',
  out: 'out',
  outs: 'out',
  output: 'out',
  outputs: 'out',
  both: 'both',
  'in/out': 'both',
  io: 'both',
  'i/o': 'both',
};
const MOST = 512;

export function parseJacks(text: string): NotedJacks {
  const noted: NotedJacks = { jacks: [], rows: [[]], problems: [] };
  let at = 0;
  for (const part of text.split(/([,;\n])/)) {
    if (/^[,;\n]$/.test(part) || part.trim() === '') {
      at += part.length;
      continue;
    }
    const start = at + (part.length - part.trimStart().length);
    const trouble = parseItem(part.trim(), noted);
    if (trouble) noted.problems.push({ at: start, said: part.trim(), why: trouble });
    at += part.length;
  }
  noted.rows = noted.rows.filter((row) => row.length > 0);
  return noted;
}

/** @returns why it could not be read; null when it was. */
function parseItem(item: string, noted: NotedJacks): string | null {
  const counted = /^(\d{1,4})\s*[x×*]\s*(.+)$/iu.exec(item);
  const count = counted ? Number(counted[1]) : null;
  const { connector, direction, rest } = takeWords(counted ? counted[2]! : item, count !== null);
  if (count !== null && (count < 1 || count > MOST)) return `Between 1 and ${MOST} at once.`;
  const made = labelsOf(rest, count, { connector, direction });
  if (typeof made === 'string') return made;
  const taken = new Set(noted.jacks.map(({ label }) => nameToKey(label)));
  const twice = made.flat().find((label) => taken.has(nameToKey(label)));
  if (twice !== undefined) return `${twice} is there already.`;
  if (new Set(made.flat().map(nameToKey)).size !== made.flat().length) return 'Two of these would bear the same name.';
  const [upper = [], lower = []] = made;
  noted.rows[0] = [...(noted.rows[0] ?? []), ...upper];
  if (lower.length > 0) noted.rows[1] = [...(noted.rows[1] ?? []), ...lower];
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

/** Takes the connector in front and a direction beside it; a direction in front of a number is part of the label. */
function takeWords(text: string, isCounted: boolean): Words {
  let rest = text.trim();
  let connector: string | null = null;
  for (const [name, ...others] of CONNECTORS) {
    const known = [name!, ...others].find((one) => startsWithWord(rest, one));
    if (known === undefined) continue;
    connector = name!;
    rest = rest.slice(known.length).trim();
    break;
  }
  const [first = '', ...after] = rest.split(/\s+/);
  const direction = DIRECTIONS[first.toLowerCase()] ?? null;
  // `IN 1` and `IN L/R` are names; `4 x in P01` says what P01 and the rest are.
  const isName =
    after.length > 0 && (/^\d|^L\s*[/+]\s*R$/i.test(after.join(' ')) || (connector === null && !isCounted));
  if (direction === null || isName) {
    return { connector, direction: directionOf(rest), rest };
  }
  return { connector, direction, rest: after.join(' ') };
}

function startsWithWord(text: string, word: string): boolean {
  return (
    text.toLowerCase().startsWith(word.toLowerCase()) && (text.length === word.length || /\s/.test(text[word.length]!))
  );
}

/** `IN 1` is an input by its name. */
function directionOf(label: string): Direction | null {
  const first = /^[a-z/]+/i.exec(label)?.[0].toLowerCase() ?? '';
  return DIRECTIONS[first] ?? null;
}

/** One or two rows of labels, or why not. */
function labelsOf(pattern: string, count: number | null, about: Omit<Words, 'rest'>): string[][] | string {
  if (pattern === '') {
    if (count === null) return 'How many? Write for example 8 x XLR in.';
    return [numbered(about.direction === 'in' ? 'IN ' : about.direction === 'out' ? 'OUT ' : 'J', 1, count, 1)];
  }
  const rows = rowsOf(pattern);
  if (rows !== null) {
    const total = rows.flat().length;
    if (count !== null && total === 1 && count > 1) return from(pattern, count);
    return count === null || count === total ? rows : `${count} were said, ${pattern} names ${total}.`;
  }
  return count === null ? 'This range cannot be counted out.' : from(pattern, count);
}

/** `IN L/R` two legs, `J1-J24/J25-J48` two rows, `P01-P24` one; a name without a range is one jack. */
function rowsOf(pattern: string): string[][] | null {
  const legs = /^(.*?)\s*\bL\s*[/+]\s*R$/i.exec(pattern);
  if (legs) {
    const before = legs[1]!.trim();
    return [[`${before} L`.trim(), `${before} R`.trim()]];
  }
  const halves = pattern.split('/');
  if (halves.length === 2 && halves.every((half) => rangeOf(half) !== null)) {
    const [a, b] = halves.map((half) => rangeOf(half)!);
    return a!.length === b!.length ? [a!, b!] : null;
  }
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

/** The same jacks in a line that reads back to them. Labels with separators of the notation are told one by one. */
export function jacksToNotation(jacks: readonly DescribedJack[]): string {
  const items: string[] = [];
  for (let i = 0; i < jacks.length; ) {
    const { connector, direction, label } = jacks[i]!;
    let last = i;
    while (isNext(jacks[last]!, jacks[last + 1])) last += 1;
    const labels = last === i ? label : `${label}-${jacks[last]!.label}`;
    const told = direction === 'both' ? 'in/out' : direction === 'none' ? '' : (direction ?? '');
    items.push([`${last - i + 1} x`, connector ?? '', told, labels].filter(Boolean).join(' '));
    i = last + 1;
  }
  return items.join(', ');
}

function isNext(a: DescribedJack, b: DescribedJack | undefined): boolean {
  if (!b || a.connector !== b.connector || a.direction !== b.direction) return false;
  const range = expandRange(a.label, b.label);
  return range?.length === 2 && range[1] === b.label;
}

export type FaceRows = 'one' | 'odd-over-even' | 'one-after-the-other';

/** Labels of one face in rows: all in one, odd over even, or the first half over the second. */
export function labelsToRows(labels: readonly string[], how: FaceRows): string[][] {
  if (how === 'one' || labels.length < 4) return [[...labels]];
  const upper =
    how === 'odd-over-even' ? labels.filter((_, i) => i % 2 === 0) : labels.slice(0, Math.ceil(labels.length / 2));
  const lower = how === 'odd-over-even' ? labels.filter((_, i) => i % 2 === 1) : labels.slice(upper.length);
  return [upper, lower];
}
