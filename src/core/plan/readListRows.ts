// The rows of unit, jack and rack lists as the sheet says them. Defaults are not filled in here unless the sheet gives
// a reason; what a whole unit needs is settled in buildUnits.ts.
import { textToSignal } from '../trade/signals.ts';
import type { Columns } from './columns.ts';
import { type ListRow, orBlank, splitNote, tableToRows, textToLabels } from './readCells.ts';
import { textToPlace } from './readEnds.ts';
import type { Notebook, RawJack, RawRack, RawUnit, Table } from './readTypes.ts';
import { saysThrough, saysYes, textToDirection, textToLeg, textToU, toMicrophone, toOnOff } from './words.ts';

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
  read: (row: ListRow) => T | null,
): ListResult<T> {
  const rows = tableToRows(table, columns, notebook);
  const result: ListResult<T> = { items: [], rows: rows.length, blank: 0, skipped: 0 };
  for (const row of rows) {
    if (row.blank) {
      result.blank += 1;
      continue;
    }
    const item = read(row);
    if (item) result.items.push(item);
    else result.skipped += 1;
  }
  return result;
}

const NO_RACKS = { units: new Set<string>(), racks: new Set<string>() };

export function readUnitRows(table: Table, columns: Columns, notebook: Notebook): ListResult<RawUnit> {
  return readList(table, columns, notebook, (row) => {
    const label = orBlank(row.get('unit'));
    if (label === '') {
      notebook.guess(table.name, row.row, row.title('unit'), '', 'a heading or remark, not a unit');
      return null;
    }
    const place = textToPlace(orBlank(row.get('room')), NO_RACKS);
    const rack = orBlank(row.get('rack')) || place.rack;
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
      u: textToU(row.get('u')) ?? place.u,
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
    const split = splitNote(row.get('jack'));
    if (unit === '' && split.label !== '' && row.above) {
      unit = row.above.get('unit');
      if (unit !== '') notebook.guess(table.name, row.row, row.title('unit'), '', `${unit}, as in the row above`);
    }
    if (unit === '' || orBlank(split.label) === '') return null;
    const signalText = row.get('signal');
    const signal = textToSignal(signalText) ?? undefined;
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
      direction: textToDirection(row.get('direction')),
      signal,
      leg: textToLeg(row.get('leg')),
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
    if (label === '') return null;
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
