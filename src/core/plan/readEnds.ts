// One end of a cable out of the cells of its side: location, rack, room, U, unit and jack, merged in one cell or apart.
import { nameToKey, nameToLoose } from './identity.ts';
import {
  isAside,
  isDoubtful,
  type ListRow,
  orAside,
  orBlank,
  splitMark,
  splitNote,
  textToJackPair,
} from './readCells.ts';
import type { Notebook, RawEnd } from './readTypes.ts';
import { eatenName, isSpareWord, isUnknown, looksLikeRack, saysBothLegs, textToU } from './words.ts';

export interface KnownNames {
  /** Keys of units and racks that a list names. */
  units: ReadonlySet<string>;
  /** The same units without the separators beside letters, for names that rows spell another way. */
  loose: ReadonlySet<string>;
  racks: ReadonlySet<string>;
}

export interface Place {
  location: string;
  rack: string;
  room: string;
  u: number | null;
}

/** `R2`, `STA`, `R2 U30`, `Studio A`: rack or room, and a U where one is written. */
export function textToPlace(text: string, known: KnownNames): Place {
  const location = text.trim();
  const withU = /^(.*?)\s*\b(?:R?U)\s?(\d{1,2})$/i.exec(location);
  const name = withU ? (withU[1] ?? '') : location;
  const u = withU ? Number(withU[2]) : null;
  const isRack = known.racks.has(nameToKey(name)) || looksLikeRack(name);
  if (isRack) return { location, rack: name, room: '', u };
  // `Studio A R3`: the rack stands behind the room.
  const words = name.split(/\s+/);
  const last = words.at(-1) ?? '';
  if (words.length > 1 && (known.racks.has(nameToKey(last)) || looksLikeRack(last))) {
    return { location, rack: last, room: words.slice(0, -1).join(' '), u };
  }
  return { location, rack: '', room: name, u };
}

/** Splits `R2 AIO21` or `R2 AIO21 I1`: by a known unit's name, else the last word is the unit (or the jack). */
export function splitUnit(
  text: string,
  withJack: boolean,
  known: KnownNames,
): { location: string; unit: string; jack: string } {
  const words = text.trim().split(/\s+/);
  for (let length = known.units.size === 0 ? 0 : words.length; length >= 1; length -= 1) {
    for (let start = 0; start + length <= words.length; start += 1) {
      const name = words.slice(start, start + length).join(' ');
      if (!known.units.has(nameToKey(name)) && !known.loose.has(nameToLoose(name))) continue;
      const rest = words.slice(start + length).join(' ');
      if (!withJack && rest !== '') continue;
      return { location: words.slice(0, start).join(' '), unit: name, jack: rest };
    }
  }
  const jack = withJack && words.length > 1 ? (words.pop() ?? '') : '';
  const only = words.length === 1 ? (words[0] ?? '') : '';
  if (only !== '' && (looksLikeRack(only) || known.racks.has(nameToKey(only))))
    return { location: only, unit: '', jack };
  return { location: words.slice(0, -1).join(' '), unit: words.at(-1) ?? '', jack };
}

const PLACE_PARTS = ['Location', 'Rack', 'Room', 'U', 'Connector'] as const;

/**
 * Reads one side of a row. Two numbered jacks (`J1/J2`) are two ends.
 * @param toldTexts Cell texts whose reading was written down already: once per text, not once per row.
 * @param addNote Takes what stood behind the jack.
 */
export function rowToEnds(
  sheet: string,
  row: ListRow,
  side: 'from' | 'to',
  known: KnownNames,
  notebook: Notebook,
  toldTexts: Set<string>,
  addNote: (note: string, title: string | undefined) => void,
): RawEnd[] {
  const cell = (part: string) => row.get(side + part);
  const title = (part: string) => row.title(side + part);
  const merged = title('') !== undefined;
  const column = title('') ?? title('Unit');
  const ask = (part: string, said: string, question: string) =>
    notebook.ask(sheet, row.row, title(part) ?? column, said, question);
  const guess = (part: string, said: string, readAs: string) =>
    notebook.guess(sheet, row.row, title(part) ?? column, said, readAs);
  let whole = cell('');
  let unit = cell('Unit');
  // A punch block's landing is a row of the block and a pair in it.
  let jack = cell('Jack') || [cell('Row'), cell('Pair')].filter((text) => text !== '').join(' ');
  let location = cell('Location');
  let rackText = cell('Rack');
  let roomText = cell('Room');
  let uText = cell('U');
  // A unit's name that stands only on the first of its rows: merged cells.
  const fill = (part: string) => {
    const filled = row.literal(side + part) ? '' : row.above(side + part);
    if (filled !== '') guess(part, '', `${filled}, as in the row above`);
    return filled;
  };
  if (jack !== '' && !isSpareWord(jack) && merged && whole === '') whole = fill('');
  if (jack !== '' && !isSpareWord(jack) && !merged && unit === '' && title('Unit') !== undefined) {
    unit = fill('Unit');
    if (unit !== '') {
      location ||= row.above(`${side}Location`);
      rackText ||= row.above(`${side}Rack`);
      roomText ||= row.above(`${side}Room`);
      uText ||= row.above(`${side}U`);
    }
  } else if (rackText === '' && uText !== '' && title('Rack') !== undefined) {
    rackText = fill('Rack');
  }
  const isLiteral = row.literal(side + (merged ? '' : 'Unit'));
  const unitNote = isLiteral ? { label: '', note: '' } : splitMark(merged ? whole : unit);
  if (unitNote.note !== '' && unitNote.label !== '') {
    guess(merged ? '' : 'Unit', merged ? whole : unit, `${unitNote.label}, with the note ${unitNote.note}`);
    addNote(unitNote.note, column);
    if (merged) whole = unitNote.label;
    else unit = unitNote.label;
  }
  if (merged && isLiteral) unit = whole;
  else if (merged && isUnknown(whole)) ask('', whole, 'Where does this end go?');
  else if (merged && whole !== '' && !isAside(whole)) {
    const split = splitUnit(whole, title('Jack') === undefined, known);
    location = split.location || location;
    unit = split.unit;
    if (jack === '') jack = split.jack;
    if (unit !== '' && whole !== unit && !toldTexts.has(`end ${whole}`)) {
      toldTexts.add(`end ${whole}`);
      guess('', whole, [location, unit, split.jack].filter((part) => part !== '').join(' · '));
    }
  }
  if (!merged && !isLiteral && isUnknown(unit)) ask('Unit', unit, 'Where does this end go?');
  for (const part of PLACE_PARTS) {
    const text = cell(part);
    if (text !== '' && isUnknown(text)) ask(part, text, 'What belongs here?');
  }
  // A word such as `spare` or `x` in place of a name: nothing is connected, and no unit is called that.
  for (const [part, text] of [
    ['', merged ? whole : ''],
    ['Unit', merged ? '' : unit],
    ['Jack', jack],
  ] as const) {
    if (isAside(text) && !row.literal(side + part)) guess(part, text, 'nothing is connected here');
  }
  const place = textToPlace(orAside(location), known);
  const rack = orAside(rackText) || place.rack;
  const room = orAside(roomText) || place.room;
  const u = textToU(uText) ?? place.u;
  const shown = place.location || [rack, rack ? '' : room].filter((part) => part !== '').join(' ');
  const base = {
    location: shown,
    rack,
    room,
    u,
    unit: isLiteral ? unit : orAside(unit),
    connector: orBlank(cell('Connector')),
    column,
  };
  if (row.literal(`${side}Jack`)) return [{ ...base, jack, sure: true, literal: true }];
  if (jack !== '' && isDoubtful(jack)) {
    ask('Jack', jack, 'Which jack is meant?');
    return [{ ...base, jack, sure: false }];
  }
  const split = splitNote(jack);
  if (split.note !== '') {
    guess('Jack', jack, `${split.label}, with the note ${split.note}`);
    addNote(split.note, title('Jack'));
  }
  const label = orAside(split.label);
  const eaten = eatenName(label);
  if (eaten) guess('Jack', label, `${label}; a spreadsheet may have made ${eaten} of a name`);
  const pair = textToJackPair(label);
  if (!pair) {
    if (isAside(split.label)) return [{ ...base, jack: '', sure: false }];
    if (saysBothLegs(label)) guess('Jack', label, 'one place with two legs, left and right');
    return [{ ...base, jack: label, sure: true }];
  }
  guess('Jack', label, `${pair.length} ends: ${pair.join(', ')}`);
  return pair.map((each) => ({ ...base, jack: each, sure: true }));
}
