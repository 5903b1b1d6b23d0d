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
import type { Notebook, RawEnd } from './readTypes.ts';

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
  const isNew = (text: string) => !toldTexts.has(text) && toldTexts.add(text) !== undefined;
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
    if (unit !== '' && whole !== unit && isNew(`end ${whole}`)) {
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
  let name = isLiteral ? unit : orAside(unit);
  if (unit === '' && rack !== '' && u !== null && !isAside(whole)) {
    // Nobody names the unit: it is the one that the list has there, or the place stands for it.
    const listed = known.slots.get(slotKey(rack, u));
    name = listed ?? `${rack} U${u}`;
    const said = merged ? whole : uText;
    if (isNew(`slot ${rack} ${u}`))
      guess(
        merged ? '' : 'U',
        said,
        listed ? `${listed}, which the list of units has there` : `${name}, a unit without a name`,
      );
  }
  const base = {
    location: shown,
    rack,
    room,
    u,
    unit: name,
    connector: orBlank(cell('Connector')),
    column,
    placeColumn: title(roomText !== '' ? 'Room' : rackText !== '' ? 'Rack' : merged ? '' : 'Location') ?? column,
  };
  if (row.literal(`${side}Jack`)) return [{ ...base, jack, sure: true, literal: true }];
  if (jack !== '' && isDoubtful(jack)) {
    ask('Jack', jack, 'Which jack is meant?');
    return [{ ...base, jack, sure: false }];
  }
  if (isReserved(jack)) {
    guess('Jack', jack, 'nothing is connected here; the words are kept as a note');
    addNote(jack, title('Jack'));
    return [{ ...base, jack: '', sure: false }];
  }
  const split = splitNote(jack);
  if (split.note !== '') {
    guess('Jack', jack, `${split.label}, with the note ${split.note}`);
    addNote(split.note, title('Jack'));
  }
  const label = orAside(split.label);
  const eaten = eatenName(label);
  if (eaten && !row.noted(`${side}Jack`))
    guess('Jack', label, `${label}; a spreadsheet may have made ${eaten} of a name`);
  const pair = textToJackPair(label);
  if (!pair) {
    if (isAside(split.label)) return [{ ...base, jack: '', sure: false }];
    return [{ ...base, jack: label, sure: true }];
  }
  guess('Jack', label, `${pair.length} ends: ${pair.join(', ')}`);
  return pair.map((each) => ({ ...base, jack: each, sure: true }));
}
