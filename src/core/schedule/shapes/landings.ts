// Lists of the jacks of a block, bay or panel with the cable at each: the row's own jack is one end, the column that says
// where the cable comes from or goes to is the other. A jack with two sides has a cable on each.
//
// Limits: The far end stands in one cell or in columns that say which end they are; two sides are told by the first
// words of their titles.
import { type Columns, columnsAs, titleToKey } from '../columns.ts';

type Rows = readonly (readonly string[])[];

const JACK = /^(jack|jack no|port|port no|pair|pair no|position|pos|no|hole|pin|terminal)$/;
const UNIT = /^(block|block id|panel|bay|patch ?bay|switch|unit|equip|equipment|device)$/;
const NUMBER = /^((patch|house|rear|front) )?(cable|cbl|wire|tag|line|lead|kabel)( ?(no|id|number|tag))?$/;
/** `Rear goes to`, `House from`, `Top from`, `Goes to`, `Connected to`. */
const FAR =
  /^(.*?) ?\b(goes to|comes from|connected to|connected (unit|device)|from|to|far end|source|dest|destination)$/;

interface FarColumns {
  side: string;
  far: number;
  number: number | null;
}

/** A list of landings as cables; null where the titles do not say so. `sides`: of each jack, empty where it has one. */
export function landingColumns(
  titles: readonly string[],
  header: number,
): { columns: Columns; sides: string[] } | null {
  return bySides(titles, header) ?? byFarEnd(titles, header);
}

/** One cable for each side of the jack: `House cable, House from, Jumper cable, Jumper to`. */
function bySides(titles: readonly string[], header: number): { columns: Columns; sides: string[] } | null {
  const keys = titles.map(titleToKey);
  const jack = keys.findIndex((key) => JACK.test(key));
  const fars = keys.flatMap((key, far): FarColumns[] => {
    const side = FAR.exec(key)?.[1];
    return side === undefined || /^normal/.test(side) ? [] : [{ side, far, number: null }];
  });
  if (jack < 0 || fars.length === 0 || new Set(fars.map(({ side }) => side)).size !== fars.length) return null;
  const taken = new Set([jack, ...fars.map(({ far }) => far)]);
  for (const [i, one] of fars.entries()) {
    // One side alone may have its number anywhere.
    const isOwn = (key: string) =>
      fars.length === 1
        ? NUMBER.test(key)
        : key.startsWith(`${one.side} `) && NUMBER.test(key.slice(one.side.length + 1));
    const own = keys.findIndex((key, at) => !taken.has(at) && isOwn(key));
    // A bare Cable is of the side whose columns it stands among.
    const end = fars[i + 1]?.far ?? keys.length;
    const near = keys.findIndex((key, at) => !taken.has(at) && at > one.far && at < end && NUMBER.test(key));
    const column = own >= 0 ? own : near;
    if (column < 0) continue;
    one.number = column;
    taken.add(column);
  }
  if (fars.every(({ number }) => number === null) || fars.length > 2) return null;
  const unit = keys.findIndex((key, at) => !taken.has(at) && UNIT.test(key));
  if (unit >= 0) taken.add(unit);
  const at = columnsAs(
    'cables',
    titles.map((title, column) => (taken.has(column) ? '' : title)),
  );
  for (const meaning of [...at.keys()]) if (/^(from|to|number)/.test(meaning)) at.delete(meaning);
  for (const [meaning, word] of SAID) {
    const column = keys.findIndex((key, i) => !taken.has(i) && word.test(key));
    if (column >= 0) at.set(meaning, column);
  }
  at.set('fromJack', jack);
  if (unit >= 0) at.set('fromUnit', unit);
  for (const [i, { far, number }] of fars.entries()) {
    const station = i === 0 ? 'to' : 'side2';
    const farJack = !taken.has(far + 1) && /(^| )(jack|port|pin|terminal)$/.test(keys[far + 1] ?? '') ? far + 1 : null;
    at.set(farJack === null ? station : `${station}Unit`, far);
    if (farJack !== null) at.set(`${station}Jack`, farJack);
    if (number !== null) at.set(i === 0 ? 'number' : 'side2Number', number);
  }
  const sides = fars.length > 1 ? fars.map(({ side }) => side) : [];
  return { columns: { kind: 'cables', header, at, titles: [...titles] }, sides };
}

/** What a row says of the jack itself, kept as a note of the cable. */
const SAID: readonly [string, RegExp][] = [
  ['designation', /^(designation|strip|strip text|legend)$/],
  ['normalled', /^(normalled to|normal to|normals to|normalled)$/],
  ['normal', /^(normal|normal kind|normalling|norm|full half|half full)$/],
];

/** One end by its titles, the other is the block, row and pair of the row itself. */
function byFarEnd(titles: readonly string[], header: number): { columns: Columns; sides: string[] } | null {
  const keys = titles.map(titleToKey);
  const at = columnsAs('cables', titles);
  const has = (side: string) => ['', 'Unit'].some((part) => at.has(side + part));
  if (!at.has('number') || has('from') === has('to')) return null;
  const here = has('from') ? 'to' : 'from';
  const taken = new Set(
    [...at].flatMap(([meaning, column]) => (/^(from|to)/.test(meaning) || meaning === 'number' ? [column] : [])),
  );
  const find = (word: RegExp) => keys.findIndex((key, column) => !taken.has(column) && word.test(key));
  const parts: [string, number][] = [
    ['Unit', find(UNIT)],
    ['Row', find(/^(row|block row)$/)],
    ['Pair', find(/^(pair|pair no|pr)$/)],
    ['Jack', find(/^(jack|jack no|port|port no|position|pos|terminal)$/)],
  ];
  const found = parts.filter(([, column]) => column >= 0);
  if (!found.some(([part]) => part !== 'Unit' && part !== 'Row')) return null;
  const isPair = found.some(([part]) => part === 'Pair') && !found.some(([part]) => part === 'Jack');
  for (const [meaning, column] of at) if (found.some(([, one]) => one === column)) at.delete(meaning);
  for (const [part, column] of found) {
    if (isPair || (part !== 'Row' && part !== 'Pair')) at.set(here + part, column);
  }
  for (const [meaning, word] of WIRES) {
    const column = find(word);
    if (column >= 0) at.set(meaning, column);
  }
  return { columns: { kind: 'cables', header, at, titles: [...titles] }, sides: [] };
}

/** Colours of the two wires of a pair. */
const WIRES: readonly [string, RegExp][] = [
  ['tip', /^(tip|tip colou?r|a wire)$/],
  ['ring', /^(ring|ring colou?r|b wire)$/],
];

/** Does the list name where its cables go in so many rows as to be one of cables? */
export function hasFarEnds(rows: Rows, { at, header }: Columns): boolean {
  const far = ['to', 'toUnit', 'from', 'fromUnit'].flatMap((meaning) => at.get(meaning) ?? []);
  const items = rows.slice(header + 1, header + 201).filter((row) => row.some((cell) => cell.trim() !== ''));
  const number = at.get('number') ?? -1;
  const full = items.filter(
    (row) => (row[number] ?? '').trim() !== '' && far.some((column) => (row[column] ?? '').trim() !== ''),
  );
  return full.length > 0 && full.length * 2 >= items.length;
}
