// Where things stand in one sheet part of a workbook: rows, cells, formulas, merges, filter, as places in its text. Only
// the rows that are asked for are looked into (ECMA-376 part 1, 18.3).
import { addressOf, type Cell, type Range, rangeOf } from '../xlsxCells.ts';
import { attributeOf, scanXml } from '../xml.ts';

interface Place {
  at: number;
  /** Where the content begins; the end for an element without one. */
  inside: number;
  end: number;
}

export interface FoundCell extends Place {
  column: number;
  style: number | null;
  isNumber: boolean;
  formula: boolean;
}

export interface FoundRow extends Place {
  row: number;
  closeAt: number;
  /** Look of its cells that are not written down. */
  style: number | null;
  cells: FoundCell[];
}

type SharedCell = Cell & { at: number; end: number };

export interface FoundSheet {
  /** Of the elements' names, with its colon; mostly ''. */
  prefix: string;
  data: Place & { closeAt: number };
  rows: Map<number, FoundRow>;
  /** Every row there is, in order. */
  starts: { row: number; at: number }[];
  columns: { min: number; max: number; style: number | null }[];
  merging: Place | null;
  merges: (Place & { range: Range })[];
  filter: (Place & { range: Range }) | null;
  dimension: (Place & { range: Range }) | null;
  shared: Map<string, { master: (Cell & { formula: string }) | null; others: SharedCell[] }>;
  /** Formulas over more than one cell. */
  arrays: Range[];
}

export function scanSheet(xml: string, wanted: ReadonlySet<number>): FoundSheet {
  const sheet = emptySheet(xml);
  let depth = 0;
  let row = 0;
  let found: FoundRow | null = null;
  let cell: (FoundCell & { type: string }) | null = null;
  let column = 0;
  let formula: { t: string; si: string; ref: string; at: number; inside: number } | null = null;

  scanXml(xml, {
    open(name, attributes, at, end) {
      depth += 1;
      const place = { at, inside: end, end };
      const number = (key: string) => numberIn(attributes, key);
      if (depth === 4 && name === 'c') {
        const address = addressOf(attributeOf(attributes, 'r') ?? '');
        column = address?.column ?? column + 1;
        if (address) row = address.row;
        const type = attributeOf(attributes, 't') ?? 'n';
        cell = { ...place, column, style: number('s'), isNumber: false, formula: false, type };
      } else if (depth === 3 && name === 'row') {
        row = number('r') ?? row + 1;
        column = 0;
        sheet.starts.push({ row, at });
        const style = number('s');
        found = wanted.has(row) ? { ...place, row, closeAt: end, style, cells: [] } : null;
      } else if (depth === 5 && name === 'f' && cell) {
        cell.formula = true;
        const of = (key: string) => attributeOf(attributes, key) ?? '';
        formula = { t: of('t'), si: of('si'), ref: of('ref'), at, inside: end };
      } else if (depth === 5 && name === 'v' && cell) cell.isNumber = cell.type === 'n';
      else if (depth <= 3) aroundRows(sheet, name, attributes, place, depth);
    },
    text: () => undefined,
    close(name, at, end) {
      if (depth === 5 && name === 'f' && formula) {
        keepFormula(sheet, { row, column }, { ...formula, text: xml.slice(formula.inside, at), end });
        formula = null;
      } else if (depth === 4 && name === 'c' && cell) {
        if (found) found.cells.push({ ...cell, end });
        cell = null;
      } else if (depth === 3 && name === 'row' && found) {
        sheet.rows.set(found.row, { ...found, closeAt: at, end });
        found = null;
      } else if (depth === 2 && name === 'sheetData') {
        sheet.data = { ...sheet.data, closeAt: at, end };
      } else if (depth === 2 && name === 'mergeCells' && sheet.merging) sheet.merging.end = end;
      else if (depth === 3 && name === 'mergeCell') sheet.merges.at(-1)!.end = end;
      depth -= 1;
    },
  });
  return sheet;
}

function emptySheet(xml: string): FoundSheet {
  return {
    prefix: /<(\w+:)?sheetData\b/.exec(xml)?.[1] ?? '',
    data: { at: 0, inside: 0, end: 0, closeAt: 0 },
    rows: new Map(),
    starts: [],
    columns: [],
    merging: null,
    merges: [],
    filter: null,
    dimension: null,
    shared: new Map(),
    arrays: [],
  };
}

function numberIn(attributes: string, key: string): number | null {
  const text = attributeOf(attributes, key);
  return text === null || !/^\d+$/.test(text) ? null : Number(text);
}

function aroundRows(sheet: FoundSheet, name: string, attributes: string, place: Place, depth: number): void {
  const ref = () => rangeOf(attributeOf(attributes, 'ref') ?? '');
  if (depth === 2 && name === 'sheetData') sheet.data = { ...place, closeAt: place.end };
  else if (depth === 2 && name === 'mergeCells') sheet.merging = place;
  else if (depth === 2 && (name === 'autoFilter' || name === 'dimension')) {
    const range = ref();
    if (range) sheet[name === 'dimension' ? 'dimension' : 'filter'] = { ...place, range };
  } else if (depth === 3 && name === 'mergeCell') {
    const range = ref();
    sheet.merges.push({ ...place, range: range ?? { from: { row: 0, column: 0 }, to: { row: 0, column: 0 } } });
  } else if (depth === 3 && name === 'col') {
    const [min, max] = [numberIn(attributes, 'min') ?? 0, numberIn(attributes, 'max') ?? 0];
    sheet.columns.push({ min, max, style: numberIn(attributes, 'style') });
  }
}

type Formula = { t: string; si: string; ref: string; text: string; at: number; end: number };

function keepFormula(sheet: FoundSheet, { row, column }: Cell, { t, si, ref, text, at, end }: Formula): void {
  if (t === 'array' || t === 'dataTable') {
    const range = rangeOf(ref);
    const isOne = range && range.from.row === range.to.row && range.from.column === range.to.column;
    if (range && !isOne) sheet.arrays.push(range);
  } else if (t === 'shared') {
    const group = sheet.shared.get(si) ?? { master: null, others: [] };
    sheet.shared.set(si, group);
    if (text !== '') group.master = { row, column, formula: fromXml(text) };
    else group.others.push({ row, column, at, end });
  }
}

const fromXml = (text: string) => attributeOf(` f="${text.replaceAll('"', '&quot;')}"`, 'f') ?? '';
