// The rows of unit, jack and rack lists as the sheet says them. Defaults are not filled in here unless the sheet gives
// a reason; what a whole unit needs is settled in buildUnits.ts.

import { saysThrough } from '../../plan/passive.ts';
import type { Columns } from '../columns.ts';
import { type ListRow, orAside, orBlank, splitMark, tableToRows, textToLabels } from '../readCells.ts';
import { isNothing, isUnknown, looksLikeRack, textToU } from '../words.ts';
import { textToPlace } from './endText.ts';
import type { Notebook, RawCircuit, RawRack, RawUnit, Table } from './readTypes.ts';

export interface ListResult<T> {
  items: T[];
  rows: number;
  blank: number;
  skipped: number;
}

/** @param read Items of a row, or why there are none. */
/** Jacks or hops that an item names in one cell. */
const namedIn = (item: object): number =>
  'jacks' in item && Array.isArray(item.jacks)
    ? item.jacks.length
    : 'hops' in item && Array.isArray(item.hops)
      ? item.hops.length
      : 1;

export function readList<T extends object>(
  table: Table,
  columns: Columns,
  notebook: Notebook,
  read: (row: ListRow) => T | T[] | string,
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
      notebook.guess(
        row.remark?.isSaid ? 'by-hand' : 'no-item',
        table.name,
        row.row,
        undefined,
        row.remark?.said ?? row.first,
        item,
      );
      continue;
    }
    const made = Array.isArray(item) ? item : [item];
    const named = made.reduce((sum, one) => sum + namedIn(one), 0);
    if (!notebook.made('jacks', named, table.name, row.row)) break;
    for (const one of made) result.items.push(one);
  }
  return result;
}

/** A cell of few possible words; a text that is none of them is asked about, never left out unsaid. */
export function readWord<T>(
  table: Table,
  row: ListRow,
  meaning: string,
  notebook: Notebook,
  toWord: (text: string) => T | undefined,
): T | undefined {
  const text = row.get(meaning);
  const word = isNothing(text) ? undefined : toWord(text);
  if (text !== '' && word === undefined && !isNothing(text)) {
    notebook.ask('word', table.name, row.row, row.title(meaning), text, 'What does this mean?');
  }
  return word;
}

const NO_NAMES = { racks: new Set<string>() };

/** Columns of a unit list that a unit's page or plate shows, and what each is called in a plan. */
const UNIT_SETTINGS = [
  ['address', 'address'],
  ['serial', 'serial'],
  ['mac', 'mac'],
  ['mask', 'mask'],
  ['gateway', 'gateway'],
  ['host', 'host name'],
  ['firmware', 'firmware'],
] as const;

/** The lowest U and the height: `30`, `U30`, `30-31`, or the top U of a list that counts from there. */
function readHeight(
  table: Table,
  row: ListRow,
  placed: number | null,
  notebook: Notebook,
): { u: number | null; heightU: number } {
  const guess = (meaning: string, readAs: string) =>
    notebook.guess('unit', table.name, row.row, row.title(meaning), row.get(meaning), readAs);
  const written = /(\d+)/.exec(row.get('height'))?.[1];
  const heightU = Math.min(Math.max(Number(written ?? 1), 1), 60);
  const span = /^r?u?\s?(\d{1,2})\s?(?:-|–|to)\s?r?u?\s?(\d{1,2})$/i.exec(row.get('u'));
  if (span) {
    const [low = 1, high = 1] = [Number(span[1]), Number(span[2])].sort((a, b) => a - b);
    guess('u', `U${low}, ${high - low + 1} U high`);
    return { u: low, heightU: high - low + 1 };
  }
  const top = textToU(row.get('uTop'));
  if (top !== null && row.get('u') === '') {
    const u = Math.max(1, top - heightU + 1);
    guess('uTop', `U${u} to U${top}`);
    return { u, heightU };
  }
  const u = textToU(row.get('u')) ?? placed;
  if (u === null && orBlank(row.get('u')) !== '')
    notebook.ask('unit', table.name, row.row, row.title('u'), row.get('u'), 'At which U is this?');
  return { u, heightU };
}

export function readUnitRows(table: Table, columns: Columns, notebook: Notebook): ListResult<RawUnit> {
  return readList(table, columns, notebook, (row) => {
    const { label, note } = row.literal('unit')
      ? { label: row.get('unit'), note: '' }
      : splitMark(orAside(row.get('unit')));
    if (label === '') return 'a heading or remark, not a unit';
    if (note !== '')
      notebook.guess(
        'note',
        table.name,
        row.row,
        row.title('unit'),
        row.get('unit'),
        `${label}, with the note ${note}`,
      );
    const place = textToPlace(orBlank(row.get('room')), NO_NAMES);
    let rack = orBlank(row.get('rack')) || place.rack;
    const { u, heightU } = readHeight(table, row, place.u, notebook);
    if (rack === '' && u !== null && place.room === '') {
      rack = row.above('rack') || (looksLikeRack(table.name) ? table.name : '');
      const readAs = row.above('rack') ? `${rack}, as in the row above` : `${rack}, as the sheet is called`;
      if (rack !== '') notebook.guess('from-above', table.name, row.row, row.title('rack'), '', readAs);
    }
    for (const meaning of ['room', 'rack', 'u', 'height', 'jacks', 'address', 'serial', 'mac']) {
      if (isUnknown(row.get(meaning)))
        notebook.ask('word', table.name, row.row, row.title(meaning), row.get(meaning), 'What belongs here?');
    }
    const layoutText = row.get('layout');
    const made = [row.get('maker'), row.get('model')].filter((text) => text !== '').join(' ');
    const description = [row.get('description') || made, row.get('description') && made, note, row.get('notes')]
      .filter((text) => text !== '')
      .join('; ');
    const through = saysThrough(layoutText) || saysThrough(description);
    if (through) {
      const said = saysThrough(layoutText) ? layoutText : description;
      notebook.guess(
        'unit',
        table.name,
        row.row,
        row.title('layout') ?? row.title('description'),
        said,
        'a through-panel',
      );
    }
    const layout = textToLayout(layoutText);
    const onlyThrough =
      layoutText.replace(/[\s,;-]*(patch ?panel|patch ?bay|panel|through|feed-?through)[\s,;-]*/gi, '') === '';
    if (layoutText !== '' && layout === null && !onlyThrough) {
      notebook.ask('unit', table.name, row.row, row.title('layout'), layoutText, 'How are the jacks arranged?');
    }
    const settings = UNIT_SETTINGS.flatMap(([meaning, name]) => {
      const value = orBlank(row.get(meaning));
      return value === '' ? [] : [{ name, value }];
    });
    return {
      label,
      room: place.rack === '' ? place.room : '',
      rack,
      u,
      heightU,
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

/** Each row one circuit; its hops are cables by their numbers, in the order of the signal, or words. */
export function readCircuitRows(table: Table, columns: Columns, notebook: Notebook): ListResult<RawCircuit> {
  return readList(table, columns, notebook, (row) => {
    const name = orBlank(row.get('circuit'));
    if (name === '') return 'a heading or remark, not a circuit';
    const hops = row
      .get('hops')
      .split(/\s*(?:[,;\n>→]|->|\bthen\b)\s*/u)
      .flatMap((hop) => textToLabels(hop.replace(/^-|-$/g, '')));
    return {
      name,
      role: readWord(table, row, 'role', notebook, textToRole),
      carrier: orBlank(row.get('carrier')),
      hops,
      notes: row.get('notes'),
      column: row.title('hops'),
      sheet: table.name,
      row: row.row,
    };
  });
}

function textToRole(text: string): 'main' | 'standby' | undefined {
  if (/^(main|primary|a|1|no|n)$/i.test(text.trim())) return 'main';
  return /^(standby|stand-by|backup|spare|secondary|reserve|b|2|yes|y|x)$/i.test(text.trim()) ? 'standby' : undefined;
}
