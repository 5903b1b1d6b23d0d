// The rows of a cable list to cables as the sheet says them. Every reading that is not word for word is written down.
import { textToSignal } from '../trade/signals.ts';
import type { Columns } from './columns.ts';
import { type ListRow, orBlank, tableToRows, textToLabels, textToRange } from './readCells.ts';
import { type KnownNames, rowToEnds } from './readEnds.ts';
import type { Notebook, RawCable, RawEnd, Table } from './readTypes.ts';
import {
  isUnknown,
  saysMult,
  saysOnAir,
  textToLeg,
  textToSettings,
  textToStatus,
  toMicrophone,
  toOnOff,
} from './words.ts';

export interface CableRows {
  cables: RawCable[];
  rows: number;
  blank: number;
  skipped: number;
}

export function readCableRows(table: Table, columns: Columns, known: KnownNames, notebook: Notebook): CableRows {
  const rows = tableToRows(table, columns, notebook);
  const cables: RawCable[] = [];
  const toldTexts = new Set<string>();
  let blank = 0;
  let skipped = 0;
  for (const row of rows) {
    if (row.blank) {
      blank += 1;
      continue;
    }
    if (row.filled === 1 || !hasAnyEnd(row)) {
      skipped += 1;
      const said = row.get('number') || row.get('notes') || row.get('circuit');
      notebook.guess(table.name, row.row, undefined, said, 'a heading or remark, not a cable');
      continue;
    }
    cables.push(...rowToCables(table.name, row, known, notebook, toldTexts));
  }
  return { cables, rows: rows.length, blank, skipped };
}

const END_PARTS = ['', 'Unit', 'Jack', 'Location', 'Rack', 'Room'];

function hasAnyEnd(row: ListRow): boolean {
  return ['from', 'to'].some((side) => END_PARTS.some((part) => row.get(side + part) !== ''));
}

function rowToCables(
  sheet: string,
  row: ListRow,
  known: KnownNames,
  notebook: Notebook,
  toldTexts: Set<string>,
): RawCable[] {
  const guess = (meaning: string, said: string, readAs: string) =>
    notebook.guess(sheet, row.row, row.title(meaning), said, readAs);
  const notes = [row.get('notes'), row.get('via') && `via ${row.get('via')}`].filter((text) => text !== '');
  const settings: RawCable['settings'] = [];
  const addNote = (note: string) => notes.push(note);
  const from = rowToEnds(sheet, row, 'from', known, notebook, toldTexts, addNote);
  const to = rowToEnds(sheet, row, 'to', known, notebook, toldTexts, addNote);

  const signalText = row.get('signal');
  const signal = textToSignal(signalText) ?? undefined;
  if (signalText !== '' && !toldTexts.has(signalText)) {
    toldTexts.add(signalText);
    if (signal) guess('signal', signalText, `signal ${signal}`);
    else if (textToStatus(signalText) === null) {
      notebook.ask(sheet, row.row, row.title('signal'), signalText, 'Which signal is this?');
    }
  }

  const statusText = [row.get('status'), signalText, row.get('circuit')].find((text) => textToStatus(text) !== null);
  const status = textToStatus(statusText ?? '') ?? 'in-use';
  if (statusText !== undefined && statusText.toLowerCase() !== status) guess('status', statusText, `status ${status}`);

  const airText = [row.get('status'), row.get('notes'), signalText, row.get('circuit')].find(saysOnAir);
  if (airText !== undefined) guess('notes', airText, 'on air');

  const told = (name: string, value: string, meaning: string, said: string, inWords = false) => {
    if (value === '' || settings.some((setting) => setting.name === name)) return;
    settings.push({ name, value });
    if (inWords || said !== value) guess(meaning, said, `${name} ${value}`);
  };
  told('phantom', toOnOff(row.get('phantom')), 'phantom', row.get('phantom'));
  told('gain', row.get('gain'), 'gain', row.get('gain'));
  told('microphone', toMicrophone(row.get('microphone')), 'microphone', row.get('microphone'));
  told('name', row.get('name'), 'name', row.get('name'));
  told('channel', row.get('channel'), 'channel', row.get('channel'));
  if (signal === 'microphone') {
    for (const text of [...notes, signalText]) {
      for (const found of textToSettings(text)) told(found.name, found.value, 'notes', found.said, true);
    }
  }
  if (/\b\d{1,2}\/\d{1,2}\/\d{2,4}\b/.test(notes.join(' '))) {
    guess('notes', row.get('notes'), 'a date whose day and month may be exchanged; kept as text');
  }

  const typeText = [row.get('cableType'), row.get('colour')].filter((text) => text !== '').join(' ');
  const base: Omit<RawCable, 'label' | 'from' | 'to'> = {
    signal,
    signalText,
    circuit: row.get('circuit'),
    cableType: orBlank(typeText),
    length: isUnknown(row.get('length')) ? '' : row.get('length'),
    leg: textToLeg(row.get('leg')),
    status,
    onAir: airText !== undefined,
    notes: notes.join('; '),
    settings,
    mult: saysMult(notes.join(' ')),
    sheet,
    row: row.row,
  };
  return expandNumbers(sheet, row, from, to, notebook).map((cable) => ({ ...base, ...cable }));
}

type Numbered = Pick<RawCable, 'label' | 'from' | 'to'>;

/** `2008-2009` with equal ranges of jacks is two cables; a single number keeps its range of jacks as one place. */
function expandNumbers(sheet: string, row: ListRow, from: RawEnd[], to: RawEnd[], notebook: Notebook): Numbered[] {
  const number = orBlank(row.get('number'));
  const title = row.title('number');
  const whole = { label: number, from, to };
  const labels = number === '' ? [] : textToLabels(number);
  const sides = [from, to].map(sideToList);
  if (labels.length <= 1) {
    for (const [i, list] of sides.entries()) {
      if (list.length <= 1 || (i === 0 ? from : to).length > 1) continue;
      const text = (i === 0 ? from : to)[0]?.jack ?? '';
      if (!textToRange(text)) continue;
      const column = row.title(i === 0 ? 'fromJack' : 'toJack');
      notebook.guess(sheet, row.row, column, text, `one end at ${text}, since there is one number`);
    }
    return [whole];
  }
  const [fromList = [], toList = []] = sides;
  const n = labels.length;
  if (fromList.length !== n && toList.length !== n) {
    notebook.ask(sheet, row.row, title, number, `Is this one number, or ${n} cables? The jacks do not tell.`);
    return [whole];
  }
  notebook.guess(sheet, row.row, title, number, `${n} cables: ${labels[0]} to ${labels.at(-1)}`);
  const at = (list: RawEnd[], i: number): RawEnd[] => {
    const end = list[i];
    if (list.length === n && end) return [end];
    const only = list[0];
    return only ? [{ ...only, sure: false }] : [];
  };
  if (fromList.length !== n || toList.length !== n) {
    const side = fromList.length === n ? 'to' : 'from';
    const said = (side === 'to' ? to : from)[0]?.jack ?? '';
    notebook.ask(sheet, row.row, row.title(`${side}Jack`), said, `Which ${n} jacks does this end go to?`);
  }
  return labels.map((label, i) => ({ label, from: at(fromList, i), to: at(toList, i) }));
}

/** The ends that one side names when its jack cell is a range or a list. */
function sideToList(ends: RawEnd[]): RawEnd[] {
  const [only] = ends;
  if (ends.length !== 1 || !only || !only.sure || only.jack === '') return ends;
  return textToLabels(only.jack).map((jack) => ({ ...only, jack }));
}
