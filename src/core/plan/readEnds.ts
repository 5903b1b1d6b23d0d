// One end of a cable out of the cells of its side: location, rack, room, U, unit and jack, merged in one cell or apart.
import { nameToKey } from './identity.ts';
import { isDoubtful, type ListRow, orBlank, splitNote, textToJackPair } from './readCells.ts';
import type { Notebook, RawEnd } from './readTypes.ts';
import { isUnknown, looksLikeRack, textToU } from './words.ts';

export interface KnownNames {
  /** Keys of units and racks that a list names. */
  units: ReadonlySet<string>;
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
      if (!known.units.has(nameToKey(name))) continue;
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
  let whole = cell('');
  let unit = cell('Unit');
  let jack = cell('Jack');
  let location = cell('Location');
  const merged = title('') !== undefined;
  // A unit's name that stands only on the first of its rows: merged cells.
  if (jack !== '' && !merged && unit === '' && title('Unit') !== undefined && row.above) {
    unit = row.above.get(`${side}Unit`);
    if (unit !== '') notebook.guess(sheet, row.row, title('Unit'), '', `${unit}, as in the row above`);
    if (location === '') location = row.above.get(`${side}Location`);
  }
  if (jack !== '' && merged && whole === '' && row.above) {
    whole = row.above.get(side);
    if (whole !== '') notebook.guess(sheet, row.row, title(''), '', `${whole}, as in the row above`);
  }
  if (merged) {
    if (isUnknown(whole)) {
      notebook.ask(sheet, row.row, title(''), whole, 'Where does this end go?');
    } else if (whole !== '') {
      const split = splitUnit(whole, title('Jack') === undefined, known);
      location = split.location || location;
      unit = split.unit;
      if (jack === '') jack = split.jack;
      if (unit !== '' && whole !== unit && !toldTexts.has(`end ${whole}`)) {
        toldTexts.add(`end ${whole}`);
        const parts = [location, unit, split.jack].filter((part) => part !== '').join(' · ');
        notebook.guess(sheet, row.row, title(''), whole, parts);
      }
    }
  }
  const place = textToPlace(orBlank(location), known);
  const rack = orBlank(cell('Rack')) || place.rack;
  const room = orBlank(cell('Room')) || place.room;
  const u = textToU(cell('U')) ?? place.u;
  const shown = place.location || [rack, rack ? '' : room].filter((part) => part !== '').join(' ');
  const base = { location: shown, rack, room, u, unit: orBlank(unit), connector: orBlank(cell('Connector')) };
  if (jack !== '' && isDoubtful(jack)) {
    notebook.ask(sheet, row.row, title('Jack'), jack, 'Which jack is meant?');
    return [{ ...base, jack, sure: false }];
  }
  const split = splitNote(jack);
  if (split.note !== '') {
    notebook.guess(sheet, row.row, title('Jack') ?? title(''), jack, `${split.label}, with the note ${split.note}`);
    addNote(split.note, title('Jack'));
  }
  const label = orBlank(split.label);
  const pair = textToJackPair(label);
  if (!pair) return [{ ...base, jack: label, sure: true }];
  notebook.guess(sheet, row.row, title('Jack') ?? title(''), label, `${pair.length} ends: ${pair.join(', ')}`);
  return pair.map((each) => ({ ...base, jack: each, sure: true }));
}
