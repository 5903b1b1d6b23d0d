// The tables of a web page to tables of text: many programs write one and call it `.xls`. Tags are looked for and nothing
// else: no script is run, nothing is fetched, and what is no table is left alone (HTML Living Standard, 4.9 and 13.2).
//
// Limits: A table inside a cell is a table of its own. Merged columns keep their text in the first one.
import type { Table } from '../core/schedule/rows/readTypes.ts';
import type { SheetError } from './sheetError.ts';
import { createGrid, type Grid, TooLarge } from './tableGrid.ts';

type HtmlRead = { type: 'tables'; tables: Table[] } | { type: 'sheet-error'; error: SheetError };

const START =
  /^\s*(?:<\?xml[^>]*>\s*)?(?:<!--[\s\S]{0,2000}?-->\s*)?<(?:!doctype\s+html|html|head|meta|body|table|style|div)\b/i;

export function isHtml(text: string): boolean {
  return START.test(text.slice(0, 4_000)) && /<table\b/i.test(text);
}

/** @param name Of the file, for tables without a caption. */
export function readHtml(text: string, name: string): HtmlRead {
  try {
    const tables = readTags(text, name).filter(({ rows }) => rows.length > 0);
    if (tables.length === 0) return { type: 'sheet-error', error: { type: 'empty', what: 'no cells', where: '' } };
    return { type: 'tables', tables };
  } catch (thrown) {
    if (thrown instanceof TooLarge) return { type: 'sheet-error', error: thrown.error };
    throw thrown;
  }
}

interface Open {
  grid: Grid;
  /** Text of the cell that is open; null between cells. */
  cell: string | null;
  columns: number;
  rows: number;
  /** Columns that a cell above still covers, with how many rows. */
  below: Map<number, number>;
  column: number;
}

const TAG = /<!--|<(\/?)(table|tr|t[dh]|br|p|div|li|script|style)\b([^<>]*)>|<[a-z/!?][^<>]*>/gi;
const DEEPEST = 16;

function readTags(text: string, name: string): Table[] {
  const grids: Grid[] = [];
  const stack: Open[] = [];
  const say = (words: string) => {
    const top = stack.at(-1);
    if (top && top.cell !== null) top.cell += words;
  };
  let from = 0;
  TAG.lastIndex = 0;
  for (let tag = TAG.exec(text); tag; tag = TAG.exec(text)) {
    say(toText(text.slice(from, tag.index)));
    const [whole, slash = '', found = '', attributes = ''] = tag;
    const end = skipTo(text, whole, slash, found.toLowerCase(), TAG.lastIndex);
    TAG.lastIndex = end;
    from = end;
    const top = stack.at(-1);
    const isClosing = slash === '/';
    switch (found.toLowerCase()) {
      case 'table':
        if (isClosing) {
          if (top) endCell(top);
          stack.pop();
        } else if (stack.length < DEEPEST) {
          const own = grids.length === 0 ? name : `${name} ${grids.length + 1}`;
          const grid = createGrid(own);
          grids.push(grid);
          stack.push({ grid, cell: null, columns: 1, rows: 1, below: new Map(), column: 0 });
        }
        break;
      case 'tr':
        if (top) endCell(top);
        if (top && !isClosing) startRow(top);
        break;
      case 'td':
      case 'th':
        if (top) endCell(top);
        if (top && !isClosing) startCell(top, attributes);
        break;
      case 'br':
        say('\v');
        break;
      case 'p':
      case 'div':
      case 'li':
        if (top?.cell && !isClosing) say('\v');
        break;
    }
  }
  return grids.map((grid) => grid.table());
}

/** Behind remarks, scripts and styles. */
function skipTo(text: string, whole: string, slash: string, name: string, end: number): number {
  const close = whole === '<!--' ? /-->/g : slash === '/' ? null : name === 'script' ? /<\/script/gi : /<\/style/gi;
  if (!close || (whole !== '<!--' && !/^(script|style)$/.test(name))) return end;
  close.lastIndex = end;
  return close.exec(text) ? close.lastIndex : text.length;
}

function startRow(top: Open): void {
  top.grid.row();
  top.column = 0;
}

/** Columns that a cell above covers are blank here. */
function skipCovered(top: Open): void {
  for (;;) {
    const left = top.below.get(top.column) ?? 0;
    if (left === 0) return;
    top.below.set(top.column, left - 1);
    top.grid.cell('');
    top.column += 1;
  }
}

function startCell(top: Open, attributes: string): void {
  if (top.column === 0) skipCovered(top);
  const span = (key: string) => {
    const found = new RegExp(`\\b${key}\\s*=\\s*["']?(\\d{1,4})`, 'i').exec(attributes);
    return Math.min(Math.max(Number(found?.[1] ?? 1), 1), 1_000);
  };
  top.columns = span('colspan');
  top.rows = span('rowspan');
  top.cell = '';
}

function endCell(top: Open): void {
  if (top.cell === null) return;
  const text = top.cell
    .replace(/[ \t\r\n\f\u00a0]+/g, ' ')
    .replace(/ ?\v ?/g, '\n')
    .trim();
  top.cell = null;
  top.grid.cell(text, { rows: top.rows });
  if (top.columns > 1) top.grid.cell('', { times: top.columns - 1 });
  if (top.rows > 1) for (let i = 0; i < top.columns; i += 1) top.below.set(top.column + i, top.rows - 1);
  top.column += top.columns;
  skipCovered(top);
}

/** Letters that are often written by name; all others come as numbers or as they are (HTML, 13.5). */
const NAMED: Record<string, string> = {
  ...{ amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", nbsp: ' ', shy: '', ndash: '–', mdash: '—', hellip: '…' },
  ...{ auml: 'ä', ouml: 'ö', uuml: 'ü', Auml: 'Ä', Ouml: 'Ö', Uuml: 'Ü', szlig: 'ß', deg: '°', micro: 'µ', times: '×' },
  ...{ eacute: 'é', egrave: 'è', ecirc: 'ê', agrave: 'à', acirc: 'â', ccedil: 'ç', ocirc: 'ô', ntilde: 'ñ', euro: '€' },
  ...{
    aring: 'å',
    aelig: 'æ',
    oslash: 'ø',
    Aring: 'Å',
    AElig: 'Æ',
    Oslash: 'Ø',
    aacute: 'á',
    iacute: 'í',
    oacute: 'ó',
  },
  ...{ uacute: 'ú', middot: '·', rarr: '→', larr: '←', harr: '↔', reg: '®', copy: '©', laquo: '«', raquo: '»' },
};

function toText(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(
    /&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(\w{2,8}));?/gi,
    (whole, hex?: string, digits?: string, name?: string) => {
      if (name !== undefined) return NAMED[name] ?? whole;
      const code = hex === undefined ? Number(digits) : Number.parseInt(hex, 16);
      return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
    },
  );
}

/** The encoding that the page names for itself; '' where it names none. */
export function charsetOf(head: string): string {
  return /charset\s*=\s*["']?([\w-]+)/i.exec(head)?.[1] ?? '';
}
