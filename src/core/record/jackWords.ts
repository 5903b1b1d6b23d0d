// The words of the one-line notation of jacks: connectors, directions and counts as the trade writes them, on whichever
// side of the name they stand. It takes words off a text and says what is left; names are read in jackNotation.ts.
import { expandRange } from '../plan/identity.ts';
import type { Direction } from '../trade/kinds.ts';
import { readQuoted } from './quoted.ts';

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
/** Terminals and punch blocks take bare wires, which are landed; everything else takes a plug. */
export function takesWires(connector: string | undefined): boolean {
  return connector !== undefined && /^(terminal|screw|solder|idc|punch)/i.test(connector.trim());
}

/** Behind a name these are more often a part of it: `REF N`, `LEVEL 3.5`. */
const NOT_BEHIND: ReadonlySet<string> = new Set(['N', '3.5', '6.35', '1/4"']);

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

const toDirection = (word: string) => DIRECTIONS.get(word.toLowerCase()) ?? null;

export interface Words {
  connector: string | null;
  direction: Direction | null;
  /** What is left: the name, names or range; empty when only a count was said. */
  rest: string;
}

/** `8 x XLR` is sure; `8 XLR` is a count only if the words behind it are known; `24-port` names what is counted. */
interface Counted {
  count: number;
  rest: string;
  how: 'times' | 'noun' | 'bare';
}

const NOUN = /^(\d+)(?:\s*-\s*|\s*)(?:ports?|ways?|jacks?|channels?|ch|off|pcs)(?:\s+|$)(?!\d)(.*)$/isu;
/** A number with its unit is a name: `10 MHz`, `48 V`. */
const MEASURE = /^\d+\s+(?:[kM]?Hz|k?V|V|dBu?|PPS|ohms?|Ω)(?![\p{L}\p{N}])/iu;
const BARE = /^(\d+)\s+(?![-–/.]|to\s|thru\s)(\S.*)$/isu;
/** The letter is a sign only where it stands apart or hangs on the number: `16 XLR` is no 16 times LR. */
const TIMES = /^(\d+)(?:\s*[×*]\s*|\s*[xX]\s+|x)(\S.*)$/su;
const TIMES_BEHIND = /^(.*\S)\s*[x×*]\s*(\d+)$/isu;

/** The count that a part begins with, or ends with as in `XLR in x 8`; null when it has none. */
export function takeCount(item: string): Counted | null {
  const [digits = ''] = /^\d+/.exec(item) ?? [];
  const close = digits === '' ? '' : item.slice(digits.length);
  if (close !== '' && connectorBefore(close)) return { count: Number(digits), rest: close, how: 'bare' };
  const times = TIMES.exec(item);
  if (times) return { count: Number(times[1]), rest: times[2]!, how: 'times' };
  const noun = NOUN.exec(item);
  if (noun) return { count: Number(noun[1]), rest: noun[2]!.trim(), how: 'noun' };
  const behind = TIMES_BEHIND.exec(item);
  if (behind && isWordsOnly(behind[1]!)) return { count: Number(behind[2]), rest: behind[1]!, how: 'times' };
  const bare = MEASURE.test(item) ? null : BARE.exec(item);
  return bare ? { count: Number(bare[1]), rest: bare[2]!.trim(), how: 'bare' } : null;
}

function isWordsOnly(text: string): boolean {
  return readQuoted(text) === null && takeWords(text, true)?.rest === '';
}

/**
 * Takes connector and direction off both sides, in any order; a direction in front of a number is part of the label.
 * Null when a quote is not closed.
 */
export function takeWords(text: string, isCounted: boolean): Words | null {
  const words: Words = { connector: null, direction: null, rest: text.trim() };
  const quoted = readQuoted(words.rest);
  if (quoted === 'open') return null;
  if (quoted) {
    const after = quoted.after.trim();
    if (after === '' || rangeEnd(after) !== null) return words;
    // Behind a name in quotes the words say what it is; before another name it is a connector that the trade has no
    // word for.
    const behind = takeFront({ ...words, rest: after }, true);
    if (behind.rest === '') return { ...behind, rest: words.rest.slice(0, words.rest.length - quoted.after.length) };
    Object.assign(words, { connector: quoted.text, rest: after });
  }
  const front = takeFront(words, isCounted);
  return readQuoted(front.rest) === null ? takeBack(front) : front;
}

function takeFront(words: Words, isCounted: boolean): Words {
  const now = { ...words };
  for (let more = true; more && now.rest !== ''; ) {
    more = false;
    const known = now.connector === null ? connectorBefore(now.rest) : null;
    if (known) {
      now.connector = known.name;
      now.rest = now.rest.slice(known.length).trim();
      more = true;
      continue;
    }
    const [first = ''] = /^\S*/.exec(now.rest) ?? [];
    const after = now.rest.slice(first.length).trim();
    const isExact = readQuoted(after) !== null;
    const direction = toDirection(first) ?? (isExact && /^none$/i.test(first) ? 'none' : null);
    // `IN 1` and `IN L/R` are names; `4 x in P01` says what P01 and the rest are.
    const isName =
      after !== '' &&
      !isExact &&
      connectorBefore(after) === null &&
      (/^\d|^L\s*[/+]\s*R$/i.test(after) || (now.connector === null && !isCounted));
    if (now.direction !== null || direction === null || isName) continue;
    now.direction = direction;
    now.rest = after;
    more = true;
  }
  return now;
}

/** `P01-P24 RJ45`, `REF BNC`, `P01-P08 XLR in`. */
function takeBack(words: Words): Words {
  const now = { ...words };
  for (let more = true; more; ) {
    more = false;
    const known = now.connector === null ? connectorBehind(now.rest) : null;
    if (known) {
      now.connector = known.name;
      now.rest = now.rest.slice(0, -known.length).trim();
      more = true;
      continue;
    }
    const [, before = '', last = ''] = /^(.*\S)\s+(\S+)$/s.exec(now.rest) ?? [];
    const direction = now.direction === null ? toDirection(last) : null;
    // Behind a name it is part of the name, `MIC IN`; behind a range or a connector it says what they are.
    if (direction === null || !(isSeries(before) || (now.connector === null && connectorBehind(before)))) continue;
    now.direction = direction;
    now.rest = before;
    more = true;
  }
  return now.direction === null ? { ...now, direction: directionOf(now.rest) } : now;
}

function connectorBefore(text: string): { name: string; length: number } | null {
  for (const names of CONNECTORS) {
    for (const one of names) {
      for (const word of [one, `${one}s`]) {
        const isWord = text.length === word.length || /[\s(]/.test(text[word.length] ?? '');
        if (isWord && text.toLowerCase().startsWith(word.toLowerCase()))
          return { name: names[0]!, length: word.length };
      }
    }
  }
  return null;
}

function connectorBehind(text: string): { name: string; length: number } | null {
  for (const names of CONNECTORS) {
    for (const one of names) {
      if (NOT_BEHIND.has(one)) continue;
      for (const word of [one, `${one}s`]) {
        const before = text[text.length - word.length - 1] ?? '';
        if (/[\s)]/.test(before) && text.toLowerCase().endsWith(word.toLowerCase()))
          return { name: names[0]!, length: word.length };
      }
    }
  }
  return null;
}

/** A range or a list in brackets: more than one jack by name. */
function isSeries(text: string): boolean {
  return /^\(.*\)$/s.test(text) || text.split('/').every((part) => rangeOf(part) !== null);
}

/** `IN 1` is an input by its name, `MIC IN` and `MIC IN 4` too. */
function directionOf(label: string): Direction | null {
  const first = /^[a-z/]+/i.exec(label)?.[0] ?? '';
  const last = /\s([a-z]+)(?:\s+\d+)?$/i.exec(label)?.[1] ?? '';
  return toDirection(first) ?? toDirection(last);
}

/** What stands behind the sign of a range in front of another name in quotes; null when it is none. */
export function rangeEnd(text: string): string | null {
  const [sign] = /^(?:-|–|\.\.|to|thru)\s*/i.exec(text) ?? [];
  return sign !== undefined && readQuoted(text.slice(sign.length)) !== null ? text.slice(sign.length) : null;
}

/** `P01-P24`, `1 to 8`; null when it is no range that can be counted through. */
export function rangeOf(text: string): string[] | null {
  const match = /^(.*?\d+)\s*(?:-|–|\.\.|to|thru)\s*(.*\d+)$/i.exec(text.trim());
  return match ? expandRange(match[1]!, match[2]!) : null;
}
