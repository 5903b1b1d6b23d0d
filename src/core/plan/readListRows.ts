// The rows of unit, jack and rack lists as the sheet says them. Defaults are not filled in here unless the sheet gives
// a reason; what a whole unit needs is settled in buildUnits.ts.
import { textToSignal } from '../trade/signals.ts';
import type { Columns } from './columns.ts';
import { type ListRow, orAside, orBlank, splitMark, splitNote, tableToRows, textToLabels } from './readCells.ts';
import { textToPlace } from './readEnds.ts';
import type { Notebook, RawJack, RawRack, RawUnit, Table } from './readTypes.ts';
import {
  isNothing,
  isUnknown,
  looksLikeRack,
  saysThrough,
  saysYes,
  textToDirection,
  textToLeg,
  textToU,
  toMicrophone,
  toOnOff,
} from './words.ts';

export interface ListResult<T> {
  items: T[];
  rows: number;
  blank: number;
  skipped: number;
}

function readList<T>(
  table: Table,
  columns: Columns,
  notebook: Notebook,
  read: (row: ListRow) => T | string,
): ListResult<T> {
  const rows = tableToRows(table, columns, notebook);
  const result: ListResult<T> = { items: [], rows: rows.length, blank: 0, skipped: 0 };
  for (const row of rows) {
    notebook.row();
    if (row.blank) {
      result.blank += 1;
      continue;
    }
    const item = row.remark ? row.remark.readAs : read(row);
    if (typeof item === 'string') {
      result.skipped += 1;
      notebook.guess(table.name, row.row, undefined, row.remark?.said ?? row.first, item);
    } else result.items.push(item);
  }
  return result;
}

/** A cell of few possible words; a text that is none of them is asked about, never left out unsaid. */
function readWord<T>(
  table: Table,
  row: ListRow,
  meaning: string,
  notebook: Notebook,
  toWord: (text: string) => T | undefined,
): T | undefined {
  const text = row.get(meaning);
  const word = isNothing(text) ? undefined : toWord(text);
  if (text !== '' && word === undefined && !isNothing(text)) {
    notebook.ask(table.name, row.row, row.title(meaning), text, 'What is meant by this?');
  }
  return word;
}

const NO_NAMES = { units: new Set<string>(), loose: new Set<string>(), racks: new Set<string>() };

export function readUnitRows(table: Table, columns: Columns, notebook: Notebook): ListResult<RawUnit> {
  return readList(table, columns, notebook, (row) => {
    const { label, note } = row.literal('unit')
      ? { label: row.get('unit'), note: '' }
      : splitMark(orAside(row.get('unit')));
    if (label === '') return 'a heading or remark, not a unit';
    if (note !== '')
      notebook.guess(table.name, row.row, row.title('unit'), row.get('unit'), `${label}, with the note ${note}`);
    const place = textToPlace(orBlank(row.get('room')), NO_NAMES);
    let rack = orBlank(row.get('rack')) || place.rack;
    const u = textToU(row.get('u')) ?? place.u;
    if (rack === '' && u !== null && place.room === '') {
      rack = row.above('rack') || (looksLikeRack(table.name) ? table.name : '');
      const readAs = row.above('rack') ? `${rack}, as in the row above` : `${rack}, as the sheet is called`;
      if (rack !== '') notebook.guess(table.name, row.row, row.title('rack'), '', readAs);
    }
    if (orBlank(row.get('u')) !== '' && u === null)
      notebook.ask(table.name, row.row, row.title('u'), row.get('u'), 'At which U is this?');
    for (const meaning of ['room', 'rack', 'u', 'height', 'jacks', 'address', 'serial', 'mac']) {
      if (isUnknown(row.get(meaning)))
        notebook.ask(table.name, row.row, row.title(meaning), row.get(meaning), 'What belongs here?');
    }
    const height = /(\d+)/.exec(row.get('height'));
    const layoutText = row.get('layout');
    const description = row.get('description');
    const through = saysThrough(layoutText) || saysThrough(description);
    if (through) {
      const said = saysThrough(layoutText) ? layoutText : description;
      notebook.guess(table.name, row.row, row.title('layout') ?? row.title('description'), said, 'a through-panel');
    }
    const layout = textToLayout(layoutText);
    const onlyThrough =
      layoutText.replace(/[\s,;-]*(patch ?panel|patch ?bay|panel|through|feed-?through)[\s,;-]*/gi, '') === '';
    if (layoutText !== '' && layout === null && !onlyThrough) {
      notebook.ask(table.name, row.row, row.title('layout'), layoutText, 'How are the jacks arranged?');
    }
    const settings = ['address', 'serial', 'mac'].flatMap((name) => {
      const value = orBlank(row.get(name));
      return value === '' ? [] : [{ name, value }];
    });
    return {
      label,
      room: place.rack === '' ? place.room : '',
      rack,
      u,
      heightU: Math.min(Math.max(Number(height?.[1] ?? 1), 1), 60),
      mounted: /^(rear|back|r)$/i.test(row.get('mounted')) ? 'rear' : 'front',
      jacks: orBlank(row.get('jacks')) === '' ? [] : jackCellToLabels(row.get('jacks')),
      layout,
      jackFace: /rear|back/i.test(row.get('jackFace')) ? 'rear' : /front/i.test(row.get('jackFace')) ? 'front' : null,
      through,
      description,
      serial: orBlank(row.get('serial')),
      mac: orBlank(row.get('mac')),
      settings,
      sheet: table.name,
      row: row.row,
    };
  });
}

/** `I1-I4, O1-O4, NET` and `P01-P24 (RJ45)`; a repeated label counts once. */
function jackCellToLabels(text: string): string[] {
  return [...new Set(textToLabels(text.replace(/\([^)]*\)/g, '')))];
}

function textToLayout(text: string): RawUnit['layout'] {
  if (/odd\s*(over|above|top|\/)\s*even|odd.*top/i.test(text)) return 'odd-over-even';
  if (/\b(two|2)\s*rows?\b/i.test(text)) return 'two-rows';
  if (/\b(one|1|single)\s*row\b/i.test(text)) return 'one-row';
  return null;
}

export function readJackRows(table: Table, columns: Columns, notebook: Notebook): ListResult<RawJack> {
  const toldSignals = new Set<string>();
  return readList(table, columns, notebook, (row) => {
    let unit = orBlank(row.get('unit'));
    const split = row.literal('jack') ? { label: row.get('jack'), note: '' } : splitNote(row.get('jack'));
    if (unit === '' && split.label !== '' && !row.literal('unit')) {
      unit = row.above('unit');
      if (unit !== '') notebook.guess(table.name, row.row, row.title('unit'), '', `${unit}, as in the row above`);
    }
    if (unit === '' || orBlank(split.label) === '') return 'a heading or remark, not a jack';
    const signalText = row.get('signal');
    const signal = row.literal('signal') ? undefined : (textToSignal(signalText) ?? undefined);
    if (signal && !toldSignals.has(signalText)) {
      toldSignals.add(signalText);
      notebook.guess(table.name, row.row, row.title('signal'), signalText, `signal ${signal}`);
    }
    const settings = [
      { name: 'phantom', value: toOnOff(row.get('phantom')) },
      { name: 'gain', value: row.get('gain') },
      { name: 'microphone', value: toMicrophone(row.get('microphone')) },
      { name: 'name', value: row.get('name') },
      { name: 'channel', value: row.get('channel') },
    ].filter(({ value }) => value !== '');
    return {
      room: orBlank(row.get('room')),
      unit,
      jack: split.label,
      connector: orBlank(row.get('connector')),
      direction: readWord(table, row, 'direction', notebook, textToDirection),
      signal,
      leg: readWord(table, row, 'leg', notebook, textToLeg),
      mult: saysYes(row.get('mult')),
      spare: saysYes(row.get('spare')) || /\bspare\b/i.test(split.note),
      settings,
      sheet: table.name,
      row: row.row,
    };
  });
}

export function readRackRows(table: Table, columns: Columns, notebook: Notebook): ListResult<RawRack> {
  return readList(table, columns, notebook, (row) => {
    const label = orBlank(row.get('rack'));
    if (label === '') return 'a heading or remark, not a rack';
    const height = /(\d+)/.exec(row.get('height'));
    const numbering = row.get('numbering');
    return {
      label,
      room: orBlank(row.get('room')),
      heightU: height ? Math.min(Math.max(Number(height[1]), 1), 99) : null,
      numbering: /top|no\b/i.test(numbering) ? 'top-down' : /bottom|yes/i.test(numbering) ? 'bottom-up' : null,
    };
  });
}
