// Rows that may not be there any more: asked about once for each style, and what a person said put over the list. Until
// somebody answers they count as there, each with its note: impact and air follow what is there, so that a live cable
// that somebody once struck is never told as pulling nothing, and one that is gone is found missing at the first look.
import type { GoneAnswer } from '../answers/goneAnswers.ts';
import type { Columns } from '../columns.ts';
import { saysGone } from '../goneWords.ts';
import { findGone, type GoneRows, isStruck } from './goneStyles.ts';
import type { GoneStyle, Notebook, RowSign, Table } from './readTypes.ts';

/** So many rows are named and handed over with a question; how many there are is said. */
const ROWS_NAMED = 12;
const ROWS_GIVEN = 500;

/** The table with what is known of its rows; the very same where nothing is. */
export function withSigns(
  { table, columns }: { table: Table; columns: Columns },
  keys: ReadonlyMap<string, string>,
  answers: { gone?: readonly GoneAnswer[] | undefined } | undefined,
  notebook: Notebook,
): Table {
  tellCells(table, columns, notebook);
  const found = findGone(table, columns, keys);
  const comments = new Map<number, string[]>();
  for (const { type, row, said } of table.shown ?? []) {
    if (type !== 'comment') continue;
    const texts = comments.get(row);
    if (texts) texts.push(said);
    else comments.set(row, [said]);
  }
  if (found.length === 0 && comments.size === 0) return table;
  const signs = new Map<number, RowSign>();
  for (const group of found) {
    const said = answers?.gone?.find(({ sheet, style }) => sheet === table.name && style === group.style)?.as;
    if (said === undefined) askGone(group, table, columns, notebook);
    else if (said !== 'removed') tellAnswer(group, said, table, notebook);
    for (const row of group.rows) signs.set(row, toSign(said, group.note(row)));
  }
  // A comment is kept with its row, whatever it says.
  for (const [row, texts] of comments) {
    const sign = signs.get(row) ?? { note: '' };
    signs.set(row, { ...sign, note: [sign.note, ...texts].filter((text) => text !== '').join('; ') });
  }
  return { ...table, signs };
}

function toSign(said: GoneAnswer['as'] | undefined, note: string): RowSign {
  switch (said) {
    case undefined:
      return { note };
    case 'removed':
      return { note, isGone: true };
    case 'spare':
    case 'future':
      return { note, status: said };
    case 'in-use':
      return { note: '' };
  }
}

function askGone({ style, rows, said }: GoneRows, { name }: Table, columns: Columns, notebook: Notebook): void {
  const [first = 0] = rows;
  const many = { style, rows: rows.slice(0, ROWS_GIVEN) };
  const named = toRuns(rows);
  const what = goneToWords(style, rows.length, said);
  if (style.startsWith(FILL) && !saysGone(said.join(' '))) {
    // A colour may mean anything.
    notebook.guess(
      'fill',
      name,
      first,
      undefined,
      colourToWords(style.slice(FILL.length)),
      `in use: ${what} (${named})`,
      many,
    );
    return;
  }
  const title = style === 'status' || style === 'notes' ? columns.titles[columns.at.get(style) ?? -1] : undefined;
  const question = `${what} (${named}). ${rows.length === 1 ? 'Is it' : 'Are they'} removed?`;
  notebook.ask('gone', name, first, title, said[0] ?? '', question, many);
}

const FILL = 'fill ';

function goneToWords(style: GoneStyle, n: number, said: readonly string[]): string {
  const rows = n === 1 ? '1 row' : `${n} rows`;
  const [is, say] = n === 1 ? ['is', 'says'] : ['are', 'say'];
  const words = said.map((text) => `"${text.length > 60 ? `${text.slice(0, 60)} …` : text}"`).join(', ');
  switch (style) {
    case 'sheet':
      return `The sheet's name says that it is not in force; ${rows} ${is} on it`;
    case 'struck':
      return `${rows} ${is} struck through`;
    case 'status':
    case 'notes':
      return `${rows} ${say} ${words}`;
    case 'comments':
      return `A comment on ${rows} says ${words}`;
    case 'hidden':
      return `${rows} ${is} hidden`;
    default: {
      const key = words === '' ? 'no key says what that means' : `the key calls that ${words}`;
      return `${rows} ${is} filled in ${colourToWords(style.slice(FILL.length))}; ${key}`;
    }
  }
}

const ANSWERED = { spare: 'spare', future: 'not installed yet', 'in-use': 'in use' } as const;

function tellAnswer(
  { style, rows, said }: GoneRows,
  as: keyof typeof ANSWERED,
  { name }: Table,
  notebook: Notebook,
): void {
  const readAs = `${toRuns(rows)}: ${ANSWERED[as]}, put in by hand`;
  notebook.guess('by-hand', name, rows[0] ?? 0, undefined, said[0] ?? style, readAs);
}

/** Single cells struck through, in rows that are not: they are read, and told. Comments are told where they are kept. */
function tellCells(table: Table, columns: Columns, notebook: Notebook): void {
  const first = table.firstRow ?? 1;
  const meanings = new Map([...columns.at].map(([meaning, column]) => [column + 1, meaning]));
  const struck = new Map<number, NonNullable<Table['shown']>>();
  for (const mark of table.shown ?? []) {
    const i = mark.row - first;
    const cells = table.rows[i] ?? [];
    if (i <= columns.header || cells.length === 0) continue;
    if (mark.type === 'comment' && !saysGone(mark.said))
      notebook.guess(
        'comment',
        table.name,
        mark.row,
        columns.titles[mark.column - 1],
        mark.said,
        `${mark.said}, kept as a note`,
      );
    if (mark.type !== 'struck') continue;
    const list = struck.get(mark.row);
    if (list) list.push(mark);
    else struck.set(mark.row, [mark]);
  }
  for (const [row, marks] of struck) {
    const cells = table.rows[row - first] ?? [];
    const filled = cells.flatMap((cell, i) => (cell.trim() === '' ? [] : [i + 1]));
    if (isStruck(marks, filled)) continue;
    for (const { column, to } of marks) {
      for (let at = column; at <= to; at += 1) {
        const text = cells[at - 1]?.trim() ?? '';
        if (text === '' || !meanings.has(at) || table.literal?.has(`${row} ${at}`)) continue;
        notebook.guess(
          'struck',
          table.name,
          row,
          columns.titles[at - 1],
          text,
          `${text}, although it is struck through`,
        );
      }
    }
  }
}

/** `rows 3, 5, 8 to 12`. */
function toRuns(rows: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const row of [...rows].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last && row === last[1] + 1) last[1] = row;
    else runs.push([row, row]);
  }
  const named = runs.slice(0, ROWS_NAMED).map(([from, to]) => (from === to ? String(from) : `${from} to ${to}`));
  const more = runs.length > ROWS_NAMED ? ' and more' : '';
  return `${rows.length === 1 ? 'row' : 'rows'} ${named.join(', ')}${more}`;
}

/** Nearest word for a colour; the workbook's own where it is of a theme. */
function colourToWords(colour: string): string {
  const [, r, g, b] = (/^(..)(..)(..)$/.exec(colour) ?? []).map((part) => Number.parseInt(part, 16));
  if (r === undefined || g === undefined || b === undefined) return colour;
  const [most, least] = [Math.max(r, g, b), Math.min(r, g, b)];
  if (most - least < 24) return most < 64 ? 'black' : 'grey';
  const turn =
    most === r ? (g - b) / (most - least) : most === g ? 2 + (b - r) / (most - least) : 4 + (r - g) / (most - least);
  const names = [
    'red',
    'orange',
    'yellow',
    'green',
    'green',
    'green',
    'cyan',
    'blue',
    'blue',
    'violet',
    'pink',
    'pink',
  ];
  return names[Math.round(((turn * 60 + 360) % 360) / 30) % 12] ?? colour;
}
