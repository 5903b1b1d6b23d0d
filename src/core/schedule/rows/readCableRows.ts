// The rows of a cable list to cables as the sheet says them. Every reading that is not word for word is written down.
import { textToMetres } from '../../trade/lengths.ts';
import { textToSignal } from '../../trade/signals.ts';
import type { Columns } from '../columns.ts';
import { saysGone } from '../goneWords.ts';
import { isAside, type ListRow, orBlank, tableToRows } from '../readCells.ts';
import { splitEndMark } from '../shapes/ends.ts';
import { joinEnds, type MarkedEnd } from '../shapes/joinEnds.ts';
import type { RowShape } from '../shapes/rowShape.ts';
import { furtherViews, rowToViews, stationsOf, textsOf } from '../shapes/rowViews.ts';
import { underMother } from '../shapes/underMother.ts';
import { viewRow } from '../shapes/viewRow.ts';
import {
  isSpareWord,
  isUnknown,
  saysMult,
  saysOnAir,
  saysYes,
  textToLeg,
  textToSettings,
  textToStatus,
  toMicrophone,
  toPhantom,
} from '../words.ts';
import { expandNumbers, hasDashedNames } from './cableNumbers.ts';
import type { KnownNames } from './endText.ts';
import { rowToEnds } from './readEnds.ts';
import type { GuessKind, Notebook, QuestionKind, RawCable, Table } from './readTypes.ts';

interface CableRows {
  cables: RawCable[];
  rows: number;
  blank: number;
  skipped: number;
}

export function readCableRows(table: Table, columns: Columns, known: KnownNames, notebook: Notebook): CableRows {
  const rows = tableToRows(table, columns, notebook);
  const cables: RawCable[] = [];
  const toldTexts = new Set<string>();
  const isDashed = hasDashedNames(rows.map((row) => row.get('number')));
  const { at, shapes = [] } = columns;
  const stations = stationsOf(at);
  const texts = textsOf(shapes, at);
  const numbers = shapes.some(({ kind }) => kind === 'under-mother') ? numbersUnder(rows) : null;
  const byEnd = shapes.find((shape): shape is EndShape => shape.kind === 'end');
  const ends: MarkedEnd[] = [];
  let blank = 0;
  let skipped = 0;
  for (const [i, row] of rows.entries()) {
    notebook.row();
    if (row.blank) {
      blank += 1;
      continue;
    }
    if (row.remark || row.filled === 1 || !hasAnyEnd(row, stations)) {
      skipped += 1;
      const { said, readAs, isSaid } = row.remark ?? { said: row.first, readAs: 'a heading or remark, not a cable' };
      notebook.guess(isSaid ? 'by-hand' : 'no-item', table.name, row.row, undefined, said, readAs);
      continue;
    }
    const number = numbers?.[i];
    const given = number ? { ...texts, number } : texts;
    const views = byEnd ? [endView(row, byEnd, given)] : rowToViews(row, at, shapes, given);
    if (views.length === 0) {
      skipped += 1;
      notebook.guess('no-item', table.name, row.row, undefined, row.first, NOTHING_HERE);
      continue;
    }
    const told = views.length > 1 ? onceEach(notebook) : notebook;
    const made = views.flatMap((view) =>
      rowToCables(table.name, view, known, told, toldTexts, isDashed, furtherViews(view, at)),
    );
    if (!notebook.made('cables', made.length, table.name, row.row)) break;
    for (const cable of made) {
      if (byEnd) ends.push({ cable: { ...cable, to: [] }, mark: endMark(row, byEnd) });
      else cables.push(cable);
    }
  }
  for (const cable of joinEnds(ends, notebook)) cables.push(cable);
  return { cables, rows: rows.length, blank, skipped };
}

const END_PARTS = ['', 'Unit', 'Jack', 'Location', 'Rack', 'Room'];

const NOTHING_HERE = 'no cable here: neither a number nor a far end';

type EndShape = Extract<RowShape, { kind: 'end' }>;

/** A row that is one end, with the number of its cable. */
function endView(row: ListRow, { marked }: EndShape, texts: Readonly<Record<string, string>>): ListRow {
  const number = marked ? splitEndMark(row.get('number')).label : '';
  return viewRow(row, (meaning) => meaning, number === '' ? texts : { ...texts, number });
}

function endMark(row: ListRow, { marked }: EndShape): string {
  return marked ? splitEndMark(row.get('number')).mark : row.get('endMark');
}

/** Of a row that makes several cables each thing is said once. */
function onceEach(notebook: Notebook): Notebook {
  const told = new Set<string>();
  const isNew = (...parts: unknown[]) => told.size !== told.add(JSON.stringify(parts)).size;
  return {
    ...notebook,
    guess: (...one) => isNew('guess', ...one) && notebook.guess(...one),
    ask: (...one) => isNew('ask', ...one) && notebook.ask(...one),
  };
}

const numbersUnder = (rows: readonly ListRow[]) =>
  underMother(rows.map((row) => ({ number: row.get('number'), part: row.get('leg') })));

function hasAnyEnd(row: ListRow, stations: readonly string[]): boolean {
  return stations.some((side) => END_PARTS.some((part) => row.get(side + part) !== ''));
}

const SETTINGS: readonly [string, (text: string) => string][] = [
  ['phantom', toPhantom],
  ['gain', orBlank],
  ['microphone', toMicrophone],
  ['name', orBlank],
  ['channel', orBlank],
];

type IsNew = (kind: string, text: string) => boolean;
type Tell<Kind> = (kind: Kind, meaning: string, said: string, words: string) => void;

/** Where a word of status may stand: in its own column, in place of a name, or alone among the notes. */
const STATUS_WORDS = [
  'status',
  'signal',
  'circuit',
  'number',
  'from',
  'fromUnit',
  'fromJack',
  'to',
  'toUnit',
  'toJack',
  'notes',
];

/** The status, out of its own column or of a word that stands in place of a signal or a name. */
function readStatus(row: ListRow, isNew: IsNew, guess: Tell<GuessKind>): RawCable['status'] {
  const said = STATUS_WORDS.find((meaning, i) => {
    const text = row.literal(meaning) ? '' : row.get(meaning);
    if (i < 3) return textToStatus(text) !== null;
    // `--` in place of a number says that there is none; in place of a name, that nothing is connected.
    return meaning === 'number' || meaning === 'notes' ? isSpareWord(text) : isAside(text);
  });
  const text = row.get(said ?? 'status');
  // `Installed: no` says that it is not there yet.
  if (
    said === undefined &&
    !row.literal('status') &&
    /^(n|no|not yet|false|✗|✘|✕|☐|nein|noch nicht|non|nee|nej)$/i.test(text) &&
    /instal|pull/i.test(row.title('status') ?? '')
  ) {
    guess('status', 'status', text, 'status future');
    return 'future';
  }
  const status = textToStatus(text) ?? (said === undefined ? 'in-use' : 'spare');
  const isPlain =
    text === '' || row.literal(said ?? 'status') || text.toLowerCase() === status || isUnknown(text) || saysGone(text);
  if (!isPlain && (said !== undefined || isNew('status', text)))
    guess('status', said ?? 'status', text, `status ${status}`);
  return status;
}

/** What a column for legs and pairs says beside left and right: `pair 3` of a multicore. */
function readPart(row: ListRow): string {
  const text = orBlank(row.get('leg'));
  if (text === '' || textToLeg(text) !== undefined) return '';
  const title = row.title('leg') ?? '';
  if (/^(core|cond)/i.test(title)) return `core ${text}`;
  return `${/^pin/i.test(title) ? 'pin' : /^p/i.test(title) ? 'pair' : /^ch/i.test(title) ? 'channel' : 'leg'} ${text}`;
}

/** What a list of landings says of the jack beside the ends, by meaning, and what it is called in a note. */
const OF_JACK = [
  ['tip', 'tip'],
  ['ring', 'ring'],
  ['designation', 'strip'],
  ['normalled', 'normalled to'],
  ['normal', 'normal'],
] as const;

function jackNotes(row: ListRow): string[] {
  const parts = OF_JACK.map(([meaning, word]) => [word, orBlank(row.get(meaning))] as const);
  return parts.filter(([, text]) => text !== '').map(([word, text]) => `${word} ${text}`);
}

/** The length as it is written; a unit that only the column's title names is put behind it. */
function readLength(row: ListRow, isNew: IsNew, guess: Tell<GuessKind>, ask: Tell<QuestionKind>): string {
  const text = orBlank(row.get('length'));
  const read = textToMetres(text);
  if (!read && /\d/.test(text) && !row.literal('length') && isNew('length', text))
    ask('length', 'length', text, 'How long is this?');
  if (!read || read.unitSaid) return text;
  const isFeet = /\b(ft|feet)\b/i.test(row.title('length') ?? '');
  if (isNew('unit of length', ''))
    guess('length-unit', 'length', text, `${isFeet ? 'feet' : 'metres'}, where no unit is written`);
  return isFeet ? `${text} ft` : text;
}

function rowToCables(
  sheet: string,
  row: ListRow,
  known: KnownNames,
  notebook: Notebook,
  toldTexts: Set<string>,
  isDashed: boolean,
  further: readonly ListRow[] = [],
): RawCable[] {
  const guess: Tell<GuessKind> = (kind, meaning, said, readAs) =>
    notebook.guess(kind, sheet, row.row, row.title(meaning), said, readAs);
  const ask: Tell<QuestionKind> = (kind, meaning, said, question) =>
    notebook.ask(kind, sheet, row.row, row.title(meaning), said, question);
  /** True the first time: a text that means the same in every row is written down once. */
  const isNew = (kind: string, text: string) => {
    const known = toldTexts.has(`${kind} ${text}`);
    toldTexts.add(`${kind} ${text}`);
    return !known;
  };
  const told = ['notes', 'number', 'fromJack', 'toJack', 'signal'].map((meaning) => ({
    meaning,
    text: row.literal(meaning) ? '' : row.get(meaning),
  }));
  const notes = [row.get('notes'), row.get('via') && `via ${row.get('via')}`, row.sign?.note ?? ''].filter(
    (text) => text !== '',
  );
  const part = readPart(row);
  if (part !== '') {
    notes.push(part);
    if (isNew('part', '')) guess('note', 'leg', row.get('leg'), `${part}, kept as a note`);
  }
  const hop = row.get('hop');
  notes.push(...jackNotes(row), ...(hop === '' ? [] : [`hop ${hop}`]));
  const settings: RawCable['settings'] = [];
  const addNote = (note: string) => notes.push(note);
  const from = rowToEnds(sheet, row, 'from', known, notebook, toldTexts, addNote);
  const to = [row, ...further].flatMap((one) => rowToEnds(sheet, one, 'to', known, notebook, toldTexts, addNote));

  const signalText = row.get('signal');
  const signal = row.literal('signal') ? undefined : (textToSignal(signalText, notebook.signalWords) ?? undefined);
  if (signalText !== '' && !row.literal('signal') && isNew('signal', signalText)) {
    if (signal) guess('signal', 'signal', signalText, `signal ${signal}`);
    else if (textToStatus(signalText) === null) ask('signal', 'signal', signalText, 'Which signal is this?');
  }

  const status = row.sign?.status ?? readStatus(row, isNew, guess);
  for (const meaning of ['status', 'length', 'cableType', 'colour', 'circuit', 'leg']) {
    if (isUnknown(row.get(meaning)) && !row.literal(meaning))
      ask('word', meaning, row.get(meaning), 'What belongs here?');
  }

  const air = ['status', 'notes', 'signal', 'circuit'].find(
    (meaning) => !row.literal(meaning) && saysOnAir(row.get(meaning)),
  );
  if (air !== undefined) guess('on-air', air, row.get(air), 'on air');
  const isFlagged = saysYes(row.get('onAir'));
  if (isFlagged) guess('on-air', 'onAir', row.get('onAir'), 'on air');

  const set = (name: string, value: string, meaning: string, said: string, inWords = false) => {
    if (value === '' || settings.some((setting) => setting.name === name)) return;
    settings.push({ name, value });
    if (inWords || said !== value) guess('setting', meaning, said, `${name} ${value}`);
  };
  for (const [name, toValue] of SETTINGS) set(name, toValue(row.get(name)), name, row.get(name));
  // Where no column says what it is, a note of phantom or of a ribbon tells a microphone too.
  const hidden = told.flatMap(({ meaning, text }) => textToSettings(text).map((found) => ({ ...found, meaning })));
  const isMicrophone =
    signal === 'microphone' ||
    (signalText === '' && hidden.some(({ name, value }) => name === 'phantom' || value === 'ribbon'));
  if (isMicrophone) for (const { name, value, meaning, said } of hidden) set(name, value, meaning, said, true);
  if (/\b\d{1,2}\/\d{1,2}\/\d{2,4}\b/.test(notes.join(' '))) {
    guess('note', 'notes', row.get('notes'), 'a date whose day and month may be exchanged; kept as text');
  }

  const numbered = expandNumbers(sheet, row, from, to, notebook, { addNote, isDashed, isNew });
  const typeText = [row.get('cableType'), row.get('colour')]
    .map(orBlank)
    .filter((text) => text !== '')
    .join(' ');
  const base: Omit<RawCable, 'label' | 'from' | 'to'> = {
    signal,
    signalText,
    // A chain with one number is one circuit of several cables.
    circuit: orBlank(row.get('circuit')) || (hop === '' ? '' : orBlank(row.get('number'))),
    cableType: typeText,
    length: readLength(row, isNew, guess, ask),
    leg: textToLeg(row.get('leg')),
    status,
    onAir: air !== undefined || isFlagged,
    notes: notes.join('; '),
    settings,
    mult: saysMult(notes.join(' ')),
    sheet,
    row: row.row,
  };
  return numbered.map((cable) => ({ ...base, ...cable }));
}
