// What the cells of each column look like, counted once over the first rows of a list. Which column means what is judged
// by whoever reads the counts; no title is read here.
//
// Limits: the rows below the first few hundred are not looked at.
import { textToMetres } from '../../trade/lengths.ts';
import { nameToKey } from '../../trade/names.ts';
import { textToSignal } from '../../trade/signals.ts';
import { isDitto, isNothing, isSpareWord, isUnknown, looksLikeRack } from '../words.ts';

/** Rows that are looked at. */
const ROWS_SEARCHED = 300;

/** What a cell may look like; one cell may look like several. */
export type Look =
  | 'digits'
  | 'number'
  | 'code'
  | 'unit'
  | 'jack'
  | 'short'
  | 'rack'
  | 'placed'
  | 'u'
  | 'length'
  | 'signal'
  | 'type'
  | 'colour'
  | 'connector'
  | 'date'
  | 'status'
  | 'sentence';

export interface Profile {
  column: number;
  /** Share of the rows in which something stands that is no ditto and no word for nothing. */
  filled: number;
  /** Share of the filled cells that look like this. */
  share(look: Look): number;
  /** Share of the filled cells that differ from all others. */
  distinct: number;
  /** Keys of the texts in the order of the rows; '' where nothing stands. */
  keys: readonly string[];
  /** The texts that stand, by key. */
  values: ReadonlySet<string>;
  /** 1, 2, 3 … down the rows: the rows are counted. */
  counter: boolean;
  /** Words in a cell, on the average. */
  words: number;
}

const COLOURS =
  /^(light |dark |hell|dunkel)?(black|brown|red|orange|yellow|green|blue|violet|purple|grey|gray|white|pink|turquoise|slate|schwarz|braun|rot|gelb|grun|grün|blau|violett|grau|weiss|weiß|rosa|noir|marron|rouge|jaune|vert|bleu|gris|blanc|negro|rojo|amarillo|verde|azul|blanco)(\/.*)?$/i;
/** Names of connectors that a cell holds alone, with a gender or a count. Common practice, no source. */
const CONNECTORS =
  /^(\d ?x ?)?(xlr|rj-?45|8p8c|trs|ts|jack|bnc|rca|cinch|phono|db-?\d{1,2}|de-?9|d-?sub|lc|sc|st|sfp\+?|speakon|tiny ?jack|iec|edac|elco|kll?inke|phoenix|euroblock|usb|hdmi|toslink|krone|66|110)\b.{0,8}$/i;
const JACK_WORD =
  '(?:in|out|input|output|i\\/?o|mic|line|aes|ana|port|jack|pin|ch|chan|channel|pr|pair|net|eth|lan|aux|pgm|mon|cue|send|return|rtn|gpio|gpi|gpo|com|sfp|tx|rx|main|ausgang|eingang|ein|aus|sortie|entree|entrée|salida|entrada|wan|mgmt|dante|ref|wc|sync|gi|ge|te|fa|rj)';
/** `P01`, `OUT 3`, `1-4`, `Mic 2 L`, `Gi0/1`: jacks as units print them. Common practice, no source. */
const JACK = new RegExp(
  `^(?:[a-z]?\\d{1,3}[a-z]?|${JACK_WORD}(?:[ .:_-]*(?:${JACK_WORD}|\\d{1,3}[a-z]?|[lrab]|l[/+&]r))*|\\p{L}[ .-]?\\d{1,3}|(?:[a-z]{0,3}[ .-]?)\\d{1,3}(?:[/:.-]\\d{1,3}){1,3}|[lr]|l[/+&]r)$`,
  'iu',
);
/** What a jack may be called in any language: a short word and a figure or one letter. Units are called so too. */
const SHORT = /^\p{L}{1,4}[ .-]?(\d{1,3}\p{L}?|\p{L})$/u;
const TYPES =
  /\b(cat ?\d\w?|\d+ ?awg|awg ?\d+|pairs?|coax\w*|cores?|rg ?-?\d\w*|o[ms]\d|[usf]+\/?[uf]tp|quad|lszh|\d{3,4}r|\d+x\d+x?[\d.,]*|duplex|simplex)\b|^\d{3,5}[a-z]{0,2}$/i;
const DATE =
  /^(\d{1,2}[./-]\d{1,2}[./-]\d{2,4}|\d{4}-\d{2}-\d{2}|\d{1,2}[- ]\p{L}{3,9}[- ]\d{2,4}|\p{L}{3,9} \d{1,2},? \d{4})\b/u;
const STATUS =
  /^(in|ok|done|in[ -]?use|active|live|installed|pulled|terminated|tested|new|existing|ex|planned|future|spare|removed|yes|no|y|n|x|✓|✔|ja|nein|oui|non|si|sí|neu|alt|frei|libre|nouveau|aktiv|belegt)$/i;
/** A name with letters and as a rule a figure, of one or a few short words: no number, no jack. */
const UNIT = /^(?=.*\p{L}{2})[\p{L}\p{N}][\p{L}\p{N} ._/+&-]{1,23}$/u;
const CODE = /^(?=.*\d)\p{L}{0,5}[ ._/-]?\p{L}{0,3}[ ._/-]?\d{2,7}\p{L}?$/u;

/** Looks of a text; asked once for each text of a list. */
function looksOf(text: string): ReadonlySet<Look> {
  const looks = new Set<Look>();
  const add = (look: Look, is: boolean) => is && looks.add(look);
  const isDigits = /^\d+$/.test(text);
  const isJack = JACK.test(text);
  const metres = textToMetres(text);
  const isType = TYPES.test(text);
  const signal = textToSignal(text) !== null;
  const rack = looksLikeRack(text);
  add('digits', /\d/.test(text));
  add('number', isDigits);
  add('code', CODE.test(text) && !(metres?.unitSaid ?? false));
  add('jack', isJack);
  add('short', isJack || SHORT.test(text));
  add('rack', rack);
  add('placed', isPlaced(text));
  add('u', /^(r?u ?)?\d{1,2}$/i.test(text));
  add('length', metres?.unitSaid === true || /^\d{1,3}[.,]\d{1,2}$/.test(text));
  add('type', isType);
  add('signal', signal && !isType && !(isJack && /\d/.test(text)));
  add('colour', COLOURS.test(text));
  add('connector', CONNECTORS.test(text));
  add('date', DATE.test(text));
  add('status', STATUS.test(text));
  add('sentence', text.length > 24 && text.split(/\s+/).length > 3);
  add('unit', UNIT.test(text) && !isJack && !rack && !metres?.unitSaid && !DATE.test(text) && !COLOURS.test(text));
  return looks;
}

/** `R2 AIO21`, `Rack 4 SW1`: a rack in front of what stands in it. */
function isPlaced(text: string): boolean {
  const words = text.split(/\s+/);
  return words.length > 1 && [1, 2].some((n) => words.length > n && looksLikeRack(words.slice(0, n).join(' ')));
}

/** One profile for each column. @param header Index of the header row; −1 where there is none. */
export function profilesOf(rows: readonly (readonly string[])[], header: number): Profile[] {
  const body = rows
    .slice(header + 1, header + 1 + 2 * ROWS_SEARCHED)
    .filter((row) => row.some((cell) => cell.trim() !== ''))
    .slice(0, ROWS_SEARCHED);
  const width = body.reduce((most, row) => Math.max(most, row.length), 0);
  const known = new Map<string, ReadonlySet<Look>>();
  const look = (text: string) => {
    const looks = known.get(text) ?? looksOf(text);
    known.set(text, looks);
    return looks;
  };
  return Array.from({ length: width }, (_, column) =>
    toProfile(
      column,
      body.map((row) => (row[column] ?? '').trim()),
      look,
    ),
  );
}

function toProfile(column: number, cells: readonly string[], look: (text: string) => ReadonlySet<Look>): Profile {
  const counts = new Map<Look, number>();
  const values = new Map<string, number>();
  const keys: string[] = [];
  let filled = 0;
  let words = 0;
  for (const text of cells) {
    const isName = text !== '' && text.length < 120 && !isDitto(text) && !isNothing(text) && !isUnknown(text);
    const key = isName && !isSpareWord(text) ? nameToKey(text) : '';
    keys.push(key);
    if (!isName) continue;
    filled += 1;
    words += text.split(/\s+/).length;
    if (key !== '') values.set(key, (values.get(key) ?? 0) + 1);
    for (const one of look(text)) counts.set(one, (counts.get(one) ?? 0) + 1);
  }
  return {
    column,
    filled: cells.length === 0 ? 0 : filled / cells.length,
    share: (one) => (filled === 0 ? 0 : (counts.get(one) ?? 0) / filled),
    distinct: filled === 0 ? 0 : [...values.values()].filter((n) => n === 1).length / filled,
    keys,
    values: new Set(values.keys()),
    counter: isCounter(cells),
    words: filled === 0 ? 0 : words / filled,
  };
}

/** Counted rows: each figure is one more than the one above it, from 1, and almost every row has one. */
function isCounter(cells: readonly string[]): boolean {
  const numbers = cells.filter((text) => /^\d{1,5}\.?$/.test(text)).map(Number.parseFloat);
  if (numbers.length < 3 || numbers.length < cells.length * 0.8 || (numbers[0] ?? 9) > 1) return false;
  const steps = numbers.filter((n, i) => i > 0 && n === (numbers[i - 1] ?? 0) + 1).length;
  return steps >= (numbers.length - 1) * 0.9;
}

/**
 * How much two columns look alike, from 0 to 1: by the looks of their cells, and by names that stand in both.
 */
export function alike(a: Profile, b: Profile): number {
  if (a.values.size === 0 || b.values.size === 0) return a.values.size === b.values.size ? 0.5 : 0;
  const looks: Look[] = ['number', 'unit', 'jack', 'rack', 'length', 'signal', 'type', 'colour', 'connector', 'status'];
  const apart = looks.reduce((sum, look) => sum + Math.abs(a.share(look) - b.share(look)), 0);
  return Math.max(0, 1 - apart / 2) * 0.7 + shared(a, b) * 0.3;
}

/** Share of the smaller column's texts that stand in the other too. */
export function shared(a: Profile, b: Profile): number {
  const [small, large] = a.values.size <= b.values.size ? [a, b] : [b, a];
  let both = 0;
  for (const key of small.values) if (large.values.has(key)) both += 1;
  return small.values.size === 0 ? 0 : both / small.values.size;
}

/** How far a text of the first column tells what stands in the second: 1 where each always stands beside one. */
export function tells(a: Profile, b: Profile): number {
  const beside = new Map<string, Map<string, number>>();
  let rows = 0;
  a.keys.forEach((key, i) => {
    const other = b.keys[i] ?? '';
    if (key === '' || other === '') return;
    rows += 1;
    const counts = beside.get(key) ?? new Map<string, number>();
    counts.set(other, (counts.get(other) ?? 0) + 1);
    beside.set(key, counts);
  });
  let usual = 0;
  for (const counts of beside.values()) usual += Math.max(...counts.values());
  return rows === 0 ? 0 : usual / rows;
}

/** Share of the rows in which the two texts stand together for the only time. */
export function pairsApart(a: Profile, b: Profile): number {
  const pairs = new Map<string, number>();
  a.keys.forEach((key, i) => {
    const other = b.keys[i] ?? '';
    if (key !== '' && other !== '') pairs.set(`${key}\t${other}`, (pairs.get(`${key}\t${other}`) ?? 0) + 1);
  });
  const counts = [...pairs.values()];
  const rows = counts.reduce((sum, n) => sum + n, 0);
  return rows === 0 ? 0 : counts.filter((n) => n === 1).length / rows;
}
