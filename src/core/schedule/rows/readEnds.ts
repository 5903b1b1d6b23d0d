// One end of a cable out of the cells of its side: location, rack, room, U, unit and jack, merged in one cell or apart.

import {
  isAside,
  isDoubtful,
  type ListRow,
  orAside,
  orBlank,
  splitMark,
  splitNote,
  textToJackPair,
} from '../readCells.ts';
import { eatenName, isReserved, isSpareWord, isUnknown, textToU } from '../words.ts';
import { type KnownNames, slotKey, splitUnit, textToPlace } from './endText.ts';
import type { GuessKind, Notebook, QuestionKind, RawEnd } from './readTypes.ts';

const PLACE_PARTS = ['Location', 'Rack', 'Room', 'U', 'Connector'] as const;

/** One side of a row: its cells, and whom to tell what was made of them. */
type Side = {
  row: ListRow;
  name: 'from' | 'to';
  cell: (part: string) => string;
  title: (part: string) => string | undefined;
  /** Place, unit and jack stand in one cell. */
  merged: boolean;
  column: string | undefined;
  ask: (kind: QuestionKind, part: string, said: string, question: string) => void;
  guess: (kind: GuessKind, part: string, said: string, readAs: string) => void;
  /** Once per text, not once per row. */
  isNew: (text: string) => boolean;
  addNote: (note: string, title: string | undefined) => void;
};

/** Texts of one end, as far as they are apart. */
type Cells = {
  whole: string;
  unit: string;
  jack: string;
  location: string;
  rack: string;
  room: string;
  u: string;
  /** Written as it is meant, so that no word of it is read. */
  isLiteral: boolean;
};

/**
 * Reads one side of a row. Two numbered jacks (`J1/J2`) are two ends.
 * @param toldTexts Cell texts whose reading was written down already: once per text, not once per row.
 * @param addNote Takes what stood behind the jack.
 */
export function rowToEnds(
  sheet: string,
  row: ListRow,
  name: 'from' | 'to',
  known: KnownNames,
  notebook: Notebook,
  toldTexts: Set<string>,
  addNote: (note: string, title: string | undefined) => void,
): RawEnd[] {
  const title = (part: string) => row.title(name + part);
  const column = title('') ?? title('Unit');
  const side: Side = {
    row,
    name,
    cell: (part) => row.get(name + part),
    title,
    merged: title('') !== undefined,
    column,
    ask: (kind, part, said, question) => notebook.ask(kind, sheet, row.row, title(part) ?? column, said, question),
    guess: (kind, part, said, readAs) => notebook.guess(kind, sheet, row.row, title(part) ?? column, said, readAs),
    isNew: (text) => !toldTexts.has(text) && toldTexts.add(text) !== undefined,
    addNote,
  };
  const cells = splitWhole(side, withoutMark(side, filledFromAbove(side)), known);
  tellWords(side, cells);
  return jackToEnds(side, cells.jack, endWithoutJack(side, cells, known));
}

/** The jack with the slot of its card in front, in the words of the titles where the cells are numbers alone. */
function withSlot(cell: Side['cell'], title: Side['title']): string {
  const [slot, jack] = [cell('Slot'), cell('Jack')];
  if (slot === '' || jack === '' || isAside(jack) || isAside(slot)) return jack;
  const named = (text: string, word: string | undefined) =>
    /^\d+$/.test(text) && word ? `${/(\p{L}+)\W*$/u.exec(word)?.[1] ?? word} ${text}` : text;
  return `${named(slot, title('Slot'))} ${upperFirst(named(jack, title('Jack')))}`;
}

// A word in small letters behind a number would be a note.
const upperFirst = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** A unit's name that stands only on the first of its rows: merged cells. */
function filledFromAbove({ row, name, cell, title, merged, guess }: Side): Cells {
  const cells: Cells = {
    whole: cell(''),
    unit: cell('Unit'),
    // A punch block's landing is a row of the block and a pair in it.
    jack: withSlot(cell, title) || [cell('Row'), cell('Pair')].filter((text) => text !== '').join(' '),
    location: cell('Location'),
    rack: cell('Rack'),
    room: cell('Room'),
    u: cell('U'),
    isLiteral: row.literal(name + (merged ? '' : 'Unit')),
  };
  const fill = (part: string) => {
    const filled = row.literal(name + part) ? '' : row.above(name + part);
    if (filled !== '') guess('from-above', part, '', `${filled}, as in the row above`);
    return filled;
  };
  const isJack = cells.jack !== '' && !isSpareWord(cells.jack);
  if (isJack && merged && cells.whole === '') cells.whole = fill('');
  if (isJack && !merged && cells.unit === '' && title('Unit') !== undefined) {
    cells.unit = fill('Unit');
    if (cells.unit !== '') {
      cells.location ||= row.above(`${name}Location`);
      cells.rack ||= row.above(`${name}Rack`);
      cells.room ||= row.above(`${name}Room`);
      cells.u ||= row.above(`${name}U`);
    }
  } else if (cells.rack === '' && cells.u !== '' && title('Rack') !== undefined) {
    cells.rack = fill('Rack');
  }
  return cells;
}

function withoutMark({ merged, column, guess, addNote }: Side, cells: Cells): Cells {
  const text = merged ? cells.whole : cells.unit;
  const { label, note } = cells.isLiteral ? { label: '', note: '' } : splitMark(text);
  if (note === '' || label === '') return cells;
  guess('note', merged ? '' : 'Unit', text, `${label}, with the note ${note}`);
  addNote(note, column);
  return merged ? { ...cells, whole: label } : { ...cells, unit: label };
}

/** A cell that names place, unit and jack in one, taken apart. */
function splitWhole({ merged, title, ask, guess, isNew }: Side, cells: Cells, known: KnownNames): Cells {
  const { whole, isLiteral } = cells;
  if (!merged) return cells;
  if (isLiteral) return { ...cells, unit: whole };
  if (isUnknown(whole)) ask('end', '', whole, 'Where does this end go?');
  else if (whole !== '' && !isAside(whole)) {
    const split = splitUnit(whole, title('Jack') === undefined, known);
    const location = split.location || cells.location;
    if (split.unit !== '' && whole !== split.unit && isNew(`end ${whole}`)) {
      guess('taken-apart', '', whole, [location, split.unit, split.jack].filter((part) => part !== '').join(' · '));
    }
    return { ...cells, location, unit: split.unit, jack: cells.jack === '' ? split.jack : cells.jack };
  }
  return cells;
}

/** Words that are no names: what nobody knows is asked about, and a word such as `spare` or `x` names nothing. */
function tellWords({ row, name, merged, cell, ask, guess }: Side, { whole, unit, jack, isLiteral }: Cells): void {
  if (!merged && !isLiteral && isUnknown(unit)) ask('end', 'Unit', unit, 'Where does this end go?');
  for (const part of PLACE_PARTS) {
    const text = cell(part);
    if (text !== '' && isUnknown(text)) ask('word', part, text, 'What belongs here?');
  }
  for (const [part, text] of [
    ['', merged ? whole : ''],
    ['Unit', merged ? '' : unit],
    ['Jack', jack],
  ] as const) {
    if (isAside(text) && !row.literal(name + part)) guess('nothing-here', part, text, 'nothing is connected here');
  }
}

type EndWithoutJack = Omit<RawEnd, 'jack' | 'sure' | 'literal'>;

function endWithoutJack(side: Side, cells: Cells, known: KnownNames): EndWithoutJack {
  const { title, merged, column } = side;
  const place = textToPlace(orAside(cells.location), known);
  const rack = orAside(cells.rack) || place.rack;
  const room = orAside(cells.room) || place.room;
  const u = textToU(cells.u) ?? place.u;
  return {
    location: place.location || [rack, rack ? '' : room].filter((part) => part !== '').join(' '),
    rack,
    room,
    u,
    unit: unitName(side, cells, rack, u, known),
    connector: orBlank(side.cell('Connector')),
    ...(side.cell('Passage') === '' ? {} : { passage: true }),
    column,
    jackColumn: title('Jack'),
    placeColumn: title(cells.room !== '' ? 'Room' : cells.rack !== '' ? 'Rack' : merged ? '' : 'Location') ?? column,
  };
}

function unitName(
  { merged, guess, isNew }: Side,
  { whole, unit, u: uText, isLiteral }: Cells,
  rack: string,
  u: number | null,
  known: KnownNames,
): string {
  if (unit !== '' || rack === '' || u === null || isAside(whole)) return isLiteral ? unit : orAside(unit);
  // Nobody names the unit: it is the one that the list has there, or the place stands for it.
  const listed = known.slots.get(slotKey(rack, u));
  const name = listed ?? `${rack} U${u}`;
  if (isNew(`slot ${rack} ${u}`))
    guess(
      'unit',
      merged ? '' : 'U',
      merged ? whole : uText,
      listed ? `${listed}, which the list of units has there` : `${name}, a unit without a name`,
    );
  return name;
}

function jackToEnds({ row, name, title, ask, guess, addNote }: Side, jack: string, base: EndWithoutJack): RawEnd[] {
  if (row.literal(`${name}Jack`)) return [{ ...base, jack, sure: true, literal: true }];
  if (jack !== '' && isDoubtful(jack)) {
    ask('jack', 'Jack', jack, 'Which jack is it?');
    return [{ ...base, jack, sure: false }];
  }
  if (isReserved(jack)) {
    guess('nothing-here', 'Jack', jack, 'nothing is connected here; the words are kept as a note');
    addNote(jack, title('Jack'));
    return [{ ...base, jack: '', sure: false }];
  }
  const split = splitNote(jack);
  if (split.note !== '') {
    guess('note', 'Jack', jack, `${split.label}, with the note ${split.note}`);
    addNote(split.note, title('Jack'));
  }
  const label = orAside(split.label);
  const eaten = eatenName(label);
  if (eaten && !row.noted(`${name}Jack`))
    guess(
      eaten === 'a date' ? 'date' : 'number-changed',
      'Jack',
      label,
      `${label}; a spreadsheet may have made ${eaten} of a name`,
    );
  const pair = textToJackPair(label);
  if (!pair) {
    if (isAside(split.label)) return [{ ...base, jack: '', sure: false }];
    return [{ ...base, jack: label, sure: true }];
  }
  guess('several-jacks', 'Jack', label, `${pair.length} ends: ${pair.join(', ')}`);
  return pair.map((each) => ({ ...base, jack: each, sure: true }));
}
