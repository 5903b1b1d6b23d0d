// One sheet of a workbook with some of its cells amended: every other letter of the part stays. Rows never move, so what
// points at cells (formulas, comments, conditional formats, other sheets) still points at the same ones.
//
// Limits: A merge under which a cell gets a value of its own is taken apart. A cell that was a formula becomes a value.

import { type Cell, cellName, isIn, type Range, rangeName } from '../xlsxCells.ts';
import { type NumberLook, zerosToText } from '../xlsxLooks.ts';
import { escapeText } from '../xlsxParts.ts';
import { type Splice, spliced, toXmlText, withAttribute } from '../xml.ts';
import { moveFormula } from './formulas.ts';
import { type FoundCell, type FoundRow, type FoundSheet, scanSheet } from './sheetScan.ts';
import type { Mark } from './styles.ts';

export interface CellEdit {
  /** Null: what it says stays, and only its look changes. */
  text: string | null;
  mark: Mark | null;
  /** Whose look and kind a new cell takes. */
  like: Cell | null;
}

/** By row, then by column, both from 1. */
export type SheetEdits = ReadonlyMap<number, ReadonlyMap<number, CellEdit>>;

interface Looks {
  marked(base: number | null, mark: Mark): number | null;
  looks: readonly NumberLook[];
}

/** Something in the file that cannot be amended piece by piece. */
export class NotInPlace extends Error {}

export interface AmendedSheet {
  xml: string;
  /** A formula gave way to a value. */
  formulasGone: boolean;
}

interface Work {
  xml: string;
  sheet: FoundSheet;
  edits: SheetEdits;
  looks: Looks;
}

/** @param widened A filter of the sheet and what becomes of it; null where it stays. */
export function amendSheetPart(
  xml: string,
  edits: SheetEdits,
  looks: Looks,
  widened: (filter: Range) => Range | null,
): AmendedSheet {
  const likes = [...edits.values()].flatMap((row) => [...row.values()].flatMap(({ like }) => (like ? [like.row] : [])));
  const sheet = scanSheet(xml, new Set([...edits.keys(), ...likes]));
  const work: Work = { xml, sheet, edits, looks };
  const splices: Splice[] = [];
  for (const [row, cells] of [...edits].sort(([a], [b]) => a - b)) {
    const found = sheet.rows.get(row);
    const sorted = [...cells].sort(([a], [b]) => a - b);
    if (found) splices.push(...amendRow(work, found, sorted));
    else splices.push(newRow(work, row, sorted));
  }
  splices.push(...handOnFormulas(work), ...takeMergesApart(work), ...widenDimension(work));
  const filter = sheet.filter && widened(sheet.filter.range);
  if (sheet.filter && filter) splices.push(openWith(work, sheet.filter, 'ref', rangeName(filter)));
  const formulasGone = [...edits].some(([row, cells]) =>
    [...cells].some(([column, { text }]) => text !== null && cellIn(sheet.rows.get(row), column)?.formula),
  );
  return { xml: spliced(xml, splices), formulasGone };
}

function openWith({ xml }: Work, { at, inside }: { at: number; inside: number }, name: string, value: string): Splice {
  return { at, end: inside, text: withAttribute(xml.slice(at, inside), name, value) };
}

function amendRow(work: Work, row: FoundRow, cells: [number, CellEdit][]): Splice[] {
  const { xml, sheet } = work;
  const open = spansWith(xml.slice(row.at, row.inside), cells.at(-1)?.[0] ?? 0);
  if (row.end === row.inside) {
    const made = cells.map(([column, edit]) => cellXml(work, { row: row.row, column }, edit, null)).join('');
    const text = `${open.slice(0, -2).trimEnd()}>${made}</${sheet.prefix}row>`;
    return [{ at: row.at, end: row.end, text }];
  }
  const out: Splice[] = [];
  if (open !== xml.slice(row.at, row.inside)) out.push({ at: row.at, end: row.inside, text: open });
  for (const [column, edit] of cells) {
    const cell = cellIn(row, column);
    if (!cell && edit.text === null) continue;
    const next = cell ? cell.at : (row.cells.find((one) => one.column > column)?.at ?? row.closeAt);
    out.push({ at: next, end: cell?.end ?? next, text: cellXml(work, { row: row.row, column }, edit, cell ?? null) });
  }
  return out;
}

function newRow(work: Work, row: number, cells: [number, CellEdit][]): Splice {
  const { sheet } = work;
  if (sheet.data.end === sheet.data.inside) throw new NotInPlace('a sheet without rows');
  const made = cells
    .filter(([, { text }]) => text !== null)
    .map(([column, edit]) => cellXml(work, { row, column }, edit, null))
    .join('');
  const at = sheet.starts.find((one) => one.row > row)?.at ?? sheet.data.closeAt;
  return { at, end: at, text: `<${sheet.prefix}row r="${row}">${made}</${sheet.prefix}row>` };
}

function cellXml(work: Work, at: Cell, { text, mark, like }: CellEdit, was: FoundCell | null): string {
  const { xml, sheet, looks } = work;
  const twin = like && cellIn(sheet.rows.get(like.row), like.column);
  const base = (like ? (twin?.style ?? lookOf(sheet, like)) : null) ?? was?.style ?? lookOf(sheet, at);
  const look = mark ? (looks.marked(base, mark) ?? base) : base;
  if (text === null && was) {
    const open = xml.slice(was.at, was.inside);
    return withAttribute(open, 's', look === null ? null : String(look)) + xml.slice(was.inside, was.end);
  }
  const p = sheet.prefix;
  const open = `<${p}c r="${cellName(at)}"${look === null ? '' : ` s="${look}"`}`;
  if (!text) return `${open}/>`;
  const isNumber = (was ?? twin)?.isNumber ?? false;
  const value = isNumber ? textToNumber(text, looks.looks[base ?? 0]) : null;
  if (value !== null) return `${open}><${p}v>${value}</${p}v></${p}c>`;
  const inline = `<${p}is><${p}t xml:space="preserve">${toXmlText(escapeText(text))}</${p}t></${p}is>`;
  return `${open} t="inlineStr">${inline}</${p}c>`;
}

/** The look of a cell that is not written down is its row's, else its column's. */
function lookOf(sheet: FoundSheet, { row, column }: Cell): number | null {
  const own = sheet.columns.find(({ min, max }) => column >= min && column <= max);
  return sheet.rows.get(row)?.style ?? own?.style ?? null;
}

/** The first cell of a shared formula hands it on to the others when it becomes a value. */
function handOnFormulas({ sheet, edits }: Work): Splice[] {
  for (const range of sheet.arrays) {
    for (const [row, cells] of edits) {
      for (const [column, { text }] of cells) {
        if (text !== null && isIn(range, { row, column })) throw new NotInPlace('a formula over several cells');
      }
    }
  }
  const isAmended = ({ row, column }: Cell) => (edits.get(row)?.get(column)?.text ?? null) !== null;
  return [...sheet.shared.values()].flatMap(({ master, others }) => {
    if (!master || !isAmended(master)) return [];
    return others
      .filter((one) => !isAmended(one))
      .map(({ at, end, row, column }): Splice => {
        const own = moveFormula(master.formula, { row: row - master.row, column: column - master.column });
        return { at, end, text: `<${sheet.prefix}f>${toXmlText(own)}</${sheet.prefix}f>` };
      });
  });
}

function takeMergesApart(work: Work): Splice[] {
  const { merges, merging } = work.sheet;
  const isBroken = ({ range }: { range: Range }) => {
    for (const [row, cells] of work.edits) {
      if (row < range.from.row || row > range.to.row) continue;
      for (const [column, { text }] of cells) {
        const isFirst = row === range.from.row && column === range.from.column;
        if (text !== null && !isFirst && isIn(range, { row, column })) return true;
      }
    }
    return false;
  };
  const broken = merges.filter(isBroken);
  if (broken.length === 0 || !merging) return [];
  if (broken.length === merges.length) return [{ at: merging.at, end: merging.end, text: '' }];
  const count = openWith(work, merging, 'count', String(merges.length - broken.length));
  return [count, ...broken.map(({ at, end }): Splice => ({ at, end, text: '' }))];
}

/** The range that is used, which some readers go by. */
function widenDimension(work: Work): Splice[] {
  const { dimension } = work.sheet;
  if (!dimension) return [];
  const { from, to } = dimension.range;
  const columns = [...work.edits.values()].flatMap((row) => [...row.keys()]);
  const last = { row: most([to.row, ...work.edits.keys()]), column: most([to.column, ...columns]) };
  if (last.row === to.row && last.column === to.column) return [];
  return [openWith(work, dimension, 'ref', rangeName({ from, to: last }))];
}

const most = (numbers: readonly number[]) => numbers.reduce((max, one) => Math.max(max, one), 0);

function cellIn(row: FoundRow | undefined, column: number): FoundCell | undefined {
  return row?.cells.find((one) => one.column === column);
}

/** `spans` tells which columns a row uses; it is never narrower than them. */
function spansWith(open: string, column: number): string {
  const found = /\sspans="(\d+):(\d+)"/.exec(open);
  return found && Number(found[2]) < column ? withAttribute(open, 'spans', `${found[1]}:${column}`) : open;
}

/** The number that a cell of this look shows as this text; null where there is none. */
export function textToNumber(text: string, look: NumberLook = { type: 'plain' }): string | null {
  if (look.type === 'plain') {
    return /^-?(0|[1-9]\d{0,14})(\.\d{0,8}[1-9])?$/.test(text) && String(Number(text)) === text ? text : null;
  }
  if (look.type !== 'zeros') return null;
  const digits = text.replace(/\D/g, '').replace(/^0+(?=\d)/, '');
  return digits.length > 0 && digits.length <= 15 && zerosToText(look.parts, digits) === text ? digits : null;
}
