// What the reader made of a fixture, held against what an engineer reads: right, asked, refused, or wrong in silence. A
// difference counts as asked only where an open question or guess names the row and the column concerned and speaks of
// that very thing.
import type { Cable, Plan } from '../../../src/core/plan/model.ts';
import { readTables } from '../../../src/core/schedule/readTables.ts';
import type { Question, ReadCounts, SortedGuess, Table } from '../../../src/core/schedule/rows/readTypes.ts';
import { nameToKey } from '../../../src/core/trade/names.ts';
import { type Fixture, fixtureToTables, fixtureToWanted, type Wanted, type WantedEnd } from './fixture.ts';

export interface Verdict {
  verdict: 'right' | 'asked' | 'refused' | 'wrong';
  /** Kinds of open guesses and of questions: answers that a person has to give. */
  decisions: number;
  cables: number;
  /** What is wrong in silence, one line each. */
  wrong: string[];
  /** What is not as the engineer reads it and asked about, with the words that do. */
  asked: string[];
}

const TOPICS = ['cable', 'ends', 'signal', 'status', 'length', 'other'] as const;
type Topic = (typeof TOPICS)[number];

/** One thing that is not as the engineer reads it. */
interface Difference {
  topic: Topic;
  what: string;
  sheet: string;
  row: number;
  /** Texts that stand in the cells concerned: what the engineer reads, and what the reader read. */
  wanted: string[];
  got: string[];
}

/** A question, or a guess that nobody has agreed to yet. */
interface Said {
  sheet: string;
  row: number;
  column: string | undefined;
  said: string;
  words: string;
  kind: string;
  isQuestion: boolean;
  /** Rows that one question stands for, where it is asked once for many. */
  rows: readonly number[];
}

export async function judge(fixture: Fixture): Promise<Verdict> {
  const tables = await fixtureToTables(fixture);
  return judgeTables(tables, fixtureToWanted(fixture), fixture.anyOrder === true);
}

/**
 * @param tables A text: why the file could not be read.
 * @param anyOrder The sheet does not say which end is from and which is to.
 */
export function judgeTables(tables: readonly Table[] | string, wanted: readonly Wanted[], anyOrder: boolean): Verdict {
  const none = { decisions: 0, cables: 0, wrong: [], asked: [] };
  // Refusing what lists no cable is right.
  const refused: Verdict = { verdict: wanted.length === 0 ? 'right' : 'refused', ...none };
  if (typeof tables === 'string') return refused;
  const read = readTables(tables, { name: 'sheet' });
  if (read.type !== 'plan') return refused;
  const said = [...read.questions.map(questionToSaid), ...read.guesses.map(guessToSaid)];
  const differences = findDifferences(read.plan, wanted, anyOrder);
  const judged = differences.map((difference) => ({
    difference,
    by: said.find((one) => covers(one, difference, tables, read.counts)),
  }));
  const wrong = judged.filter(({ by }) => !by).map(({ difference }) => toLine(difference));
  const asked = judged.flatMap(({ difference, by }) => (by ? [`${toLine(difference)}: ${by.said} ${by.words}`] : []));
  return {
    verdict: wrong.length > 0 ? 'wrong' : asked.length > 0 ? 'asked' : 'right',
    decisions: countDecisions(read.guesses, read.questions),
    cables: read.plan.cables.length,
    wrong,
    asked,
  };
}

const toLine = ({ sheet, row, what, wanted, got }: Difference) =>
  `${sheet} row ${row}: ${what} is ${wanted.join(' ') || 'nothing'}, read as ${got.join(' ') || 'nothing'}`;

/** A kind of guess is agreed to at once; a question is answered for its column. */
function countDecisions(guesses: readonly SortedGuess[], questions: readonly Question[]): number {
  const asked = questions.map(({ kind, sheet, column = '' }) => [kind, sheet, column].join('\t'));
  return new Set(guesses.map(({ kind }) => kind)).size + new Set(asked).size;
}

const rowsOf = (one: object): readonly number[] => ('rows' in one && Array.isArray(one.rows) ? one.rows : []);

const questionToSaid = (one: Question): Said => ({
  sheet: one.sheet,
  row: one.row,
  column: one.column,
  said: one.said,
  words: one.question,
  kind: one.kind,
  isQuestion: true,
  rows: rowsOf(one),
});

const guessToSaid = (one: SortedGuess): Said => ({
  sheet: one.sheet,
  row: one.row,
  column: one.column,
  said: one.said,
  words: one.readAs,
  kind: one.kind,
  isQuestion: false,
  rows: rowsOf(one),
});

// What is different.

const same = (names: readonly string[], name: string) => names.some((one) => nameToKey(one) === nameToKey(name));

/** An end of the plan as the engineer would write it; null where it goes nowhere. */
function toRead({ ends }: Cable): { unit: string; jack: string | null }[] {
  return ends.map(({ unit, jack, place }) => ({ unit, jack: place === null || jack === '' ? null : jack }));
}

function isSameEnd(wanted: WantedEnd | null | undefined, read: { unit: string; jack: string | null } | undefined) {
  if (!wanted || !read) return (!wanted && !read) || (!wanted && read?.unit === '' && read.jack === null);
  if (!same(wanted.unit, read.unit)) return false;
  return read.jack === null ? wanted.jack.includes('?') : same(wanted.jack, read.jack);
}

function endsDiffer(wanted: Wanted, cable: Cable, anyOrder: boolean): number[] {
  const compare = (read: ReturnType<typeof toRead>) => {
    const n = Math.max(wanted.ends.length, read.length);
    return Array.from({ length: n }, (_, i) => i).filter((i) => !isSameEnd(wanted.ends[i], read[i]));
  };
  const straight = compare(toRead(cable));
  const turned = anyOrder ? compare(toRead(cable).reverse()) : straight;
  return turned.length < straight.length ? turned : straight;
}

function compareCable(wanted: Wanted, cable: Cable, anyOrder: boolean): Difference[] {
  const found: Difference[] = [];
  const add = (topic: Topic, what: string, right: (string | undefined)[], got: (string | undefined)[]) => {
    const filled = (texts: (string | undefined)[]) => texts.filter((text): text is string => !!text);
    const { sheet, row } = wanted;
    found.push({
      topic,
      what: `${wanted.label[0]} ${what}`.trim(),
      sheet,
      row,
      wanted: filled(right),
      got: filled(got),
    });
  };
  if (!same(wanted.label, cable.label)) add('cable', 'number', [wanted.label[0]], [cable.label]);
  for (const i of endsDiffer(wanted, cable, anyOrder)) {
    const [end, read] = [wanted.ends[i], toRead(cable)[i]];
    const isUnit = !end || !read || !same(end.unit, read.unit);
    if (isUnit) add('ends', `unit ${i + 1}`, [end?.unit[0]], [read?.unit]);
    if (end && read && !isSameEnd({ ...end, unit: [read.unit] }, read))
      add('ends', `jack ${i + 1}`, [end.jack[0]], [read.jack ?? undefined]);
  }
  if (wanted.signal && wanted.signal !== cable.signal)
    add('signal', 'signal', [wanted.signal], [cable.signal, cable.signalText]);
  if (wanted.status !== cable.status) add('status', 'status', [wanted.status], [cable.status]);
  if (wanted.onAir !== cable.onAir) add('status', 'on air', [String(wanted.onAir)], [String(cable.onAir)]);
  if (wanted.length && wanted.length !== cable.length) add('length', 'length', [wanted.length], [cable.length]);
  if (wanted.type && wanted.type !== cable.type) add('other', 'type', [wanted.type], [cable.type]);
  if (wanted.note && !cable.notes?.includes(wanted.note)) add('other', 'note', [wanted.note], [cable.notes]);
  return found;
}

/** Pairs each cable that is wanted with the one read that fits best; what is left over on either side is a difference. */
function findDifferences({ cables: all }: Plan, wanted: readonly Wanted[], anyOrder: boolean): Difference[] {
  // A cable that the plan knows to be removed is none that an engineer looks for.
  const cables = all.filter(({ status }) => `${status}` !== 'removed');
  const left = new Set(cables);
  const pairs = new Map<Wanted, Cable>();
  const isHere = (one: Wanted, { origin }: Cable) => origin?.sheet === one.sheet && origin.row === one.row;
  const matches: ((one: Wanted, cable: Cable) => boolean)[] = [
    (one, cable) => isHere(one, cable) && compareCable(one, cable, anyOrder).length === 0,
    (one, cable) => compareCable(one, cable, anyOrder).length === 0,
    (one, cable) => isHere(one, cable) && same(one.label, cable.label),
    isHere,
    (one, cable) => cable.label !== '' && same(one.label, cable.label),
  ];
  for (const isMatch of matches) {
    for (const one of wanted) {
      if (pairs.has(one)) continue;
      const found = [...left].find((cable) => isMatch(one, cable));
      if (!found) continue;
      pairs.set(one, found);
      left.delete(found);
    }
  }
  const missing = wanted.filter((one) => !pairs.has(one) && !one.isOptional);
  return [
    ...[...pairs].flatMap(([one, cable]) => compareCable(one, cable, anyOrder)),
    ...missing.map(
      ({ sheet, row, label }): Difference => ({
        topic: 'cable',
        what: 'a cable',
        sheet,
        row,
        wanted: [label[0] || 'without a number'],
        got: [],
      }),
    ),
    ...[...left].flatMap(extraCable),
  ];
}

/** Where there is no cable, each name that one was made of is wrong. */
function extraCable(cable: Cable): Difference[] {
  const { sheet = '', row = 0 } = cable.origin ?? {};
  const names: [Topic, string, string][] = [
    ['cable', 'a number where there is no cable', cable.label],
    ...cable.ends.map((end): [Topic, string, string] => ['ends', 'an end where there is no cable', end.unit]),
  ];
  const found = names.filter(([, , text]) => text !== '');
  return found.map(([topic, what, text]) => ({ topic, what, sheet, row, wanted: [], got: [text] }));
}

// What was said about it.

const GONE = /removed|no longer|not there|gone|struck|taken out|still there|superseded|void|dead|does not show/i;

/** What each kind speaks of; one that is not named here may speak of any. */
const SPOKEN: Readonly<Record<string, readonly Topic[]>> = {
  end: ['ends'],
  jack: ['ends'],
  length: ['length'],
  'length-unit': ['length'],
  'no-item': [],
  'nothing-here': ['ends', 'status'],
  number: ['cable'],
  'on-air': ['status'],
  setting: ['other'],
  several: ['cable'],
  signal: ['signal'],
  status: ['status'],
  unit: ['ends'],
};
const NAMES: ReadonlySet<string> = new Set([
  'date',
  'ditto',
  'from-above',
  'note',
  'number-cell',
  'number-changed',
  'taken-apart',
]);

function topicsOf({ kind, words }: Said): readonly Topic[] {
  if (GONE.test(words)) return TOPICS;
  return SPOKEN[kind] ?? (NAMES.has(kind) ? ['cable', 'ends', 'other'] : TOPICS);
}

function covers(one: Said, difference: Difference, tables: readonly Table[], counts: ReadCounts): boolean {
  const { topic, what, sheet, row, wanted, got } = difference;
  const table = tables.find(({ name }) => name === sheet);
  if (one.sheet !== sheet || !table) return false;
  const headers = counts.lists.filter((list) => list.sheet === sheet).map(({ headerRow }) => headerRow);
  const columns = columnsNamed(one, table, headers);
  const cells = table.rows[row - (table.firstRow ?? 1)] ?? [];
  const isHere = one.row === row || one.rows.includes(row);
  const isSameText = one.said !== '' && columns.some((column) => (cells[column] ?? '').trim() === one.said.trim());
  const isColumn = speaksOfColumn(one) && headers.some((header) => one.row === header || one.row === header + 1);
  if (!isHere && !isSameText && !isColumn) return false;
  // That a row lists nothing, or nothing any more, may be said at any of its cells.
  const isMissing = wanted.length > 0 && what === 'a cable';
  const isGone = GONE.test(`${one.words} ${one.said}`);
  if ((isMissing || wanted.length === 0) && (one.kind === 'no-item' || isGone)) return true;
  if (!topicsOf(one).includes(topic)) return false;
  if (topic === 'status' && isGone) return true;
  if (isElsewhere(one, difference)) return false;
  const isSpoken =
    one.isQuestion || speaksOfColumn(one) || one.kind === 'nothing-here' || got.some((text) => holds(one.words, text));
  if (one.column === undefined) return isSpoken && !isMissing;
  const title = topic === 'status' ? STATUS_TITLE : topic === 'signal' ? SIGNAL_TITLE : null;
  if (title) return one.kind !== 'column-unread' || title.test(one.column);
  if (topic === 'ends' && one.kind === 'end') return true;
  // The cells that hold what is wanted or what was read; a name that stands in none of them came from above or beside.
  const concerned = cells.flatMap((cell, i) => ([...wanted, ...got].some((text) => holds(cell, text)) ? [i] : []));
  const isConcerned = columns.some((column) => concerned.includes(column)) || (concerned.length === 0 && !isMissing);
  return isSpoken && (isConcerned || (one.said === '' && got.some((text) => holds(one.words, text))));
}

/** Titles of columns that tell of a status or of a signal, where they are not read. */
const STATUS_TITLE = /stat|instal|pulled|note|remark|etat|état|estado|bemerk|opmerk|observ|прим/i;
const SIGNAL_TITLE = /sig|señ|segn|sinal|type|tipo|kind|soort|art|сигн|σήμ/i;

/** Does it ask about something else than what is wrong here? */
function isElsewhere({ kind, words }: Said, { what, wanted, got }: Difference): boolean {
  const [right = ''] = wanted;
  // Zeros in front are no zeros at the end.
  const withoutZeros = (text: string) => text.replace(/(?<!\d)0+(?=\d)/g, '');
  if (/zeros in front/.test(words)) return !got.some((text) => withoutZeros(right) === withoutZeros(text));
  // Which jack it is says nothing of another unit; that a name is none, or holds the jack too, is plain from it.
  if (kind === 'jack' && what.includes('unit')) return right !== '' && !got.some((text) => holds(text, right));
  return false;
}

/** What was inferred of a column as a whole, or that it is not read. */
function speaksOfColumn({ kind }: Said): boolean {
  return kind.startsWith('column');
}

/** Does the name stand in the text? A short one has to be a word of it. */
function holds(text: string, name: string): boolean {
  const [all, part] = [nameToKey(text), nameToKey(name)];
  if (part === '') return false;
  return part.length > 2 ? all.includes(part) : all === part || `-${all}-`.includes(`-${part}-`);
}

/** Columns that a title, or a letter, names. */
function columnsNamed({ column }: Said, table: Table, headers: readonly number[]): number[] {
  if (column === undefined) return [];
  const first = table.firstRow ?? 1;
  const titles = headers.flatMap((header) => [header - first, header - first - 1]).map((row) => table.rows[row] ?? []);
  const width = Math.max(0, ...table.rows.map((cells) => cells.length));
  const key = nameToKey(column);
  const found = Array.from({ length: width }, (_, i) => i).filter((i) =>
    titles.some(
      (row) =>
        (row[i] ?? '') !== '' && (nameToKey(row[i] ?? '') === key || key.endsWith(`-${nameToKey(row[i] ?? '')}`)),
    ),
  );
  const letter = /^(?:column )?([A-Z])$/i.exec(column.trim())?.[1];
  if (found.length > 0) return found;
  if (letter) return [letter.toUpperCase().charCodeAt(0) - 65];
  return key === '' ? Array.from({ length: width }, (_, i) => i).filter((i) => titles.every((row) => !row[i])) : [];
}
