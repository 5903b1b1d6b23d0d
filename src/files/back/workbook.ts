// The workbook that a plan was read from, with its amended cells and nothing else changed: every part that holds none of
// them comes back as it was, and what was written is read again before it is handed over.
//
// Marks: the tint lies in the cell's own look and the word in a column of the list, so both move with their row when it
// is sorted; a filter or table of the list is widened to take that column in, or sorting by it would leave it behind.
//
// Limits: New rows get no conditional format and no validation of their own. Where the workbook has formulas, they are
// calculated anew when it is opened; until then they show what they showed.
import { type Zippable, zipSync } from 'fflate';
import type { Table } from '../../core/schedule/rows/readTypes.ts';
import type { SheetOut } from '../../core/schedule/sheets/planSheets.ts';
import { AMENDED } from '../../core/schedule/sheets/struck.ts';
import { unzipParts } from '../unzip.ts';
import { isCellPart, readXlsx } from '../xlsx.ts';
import { type Cell, type Range, rangeName } from '../xlsxCells.ts';
import { readStyles } from '../xlsxLooks.ts';
import { readWorkbookPart } from '../xlsxParts.ts';
import { attributeOf, type Splice, scanXml, spliced, withAttribute, XmlTrouble } from '../xml.ts';
import { amendSheetPart, type CellEdit, NotInPlace } from './sheetPart.ts';
import { createMarks } from './styles.ts';
import { widenTable } from './tablePart.ts';

export type Amended = { type: 'amended'; bytes: Uint8Array<ArrayBuffer> } | { type: 'not-in-place'; why: string };

/** ZIP archives have no earlier time; ours must not depend on the clock. */
const NO_TIME = '1980-01-01T00:00:00';

/**
 * @param source The tables as they were read from these bytes. @param out The same sheets as they are to be.
 * @returns `not-in-place` where the file holds something that cannot be amended piece by piece, with what it is.
 */
export async function amendWorkbook(
  bytes: Uint8Array,
  source: readonly Table[],
  out: readonly SheetOut[],
): Promise<Amended> {
  const unzipped = unzipParts(bytes, () => true);
  if (unzipped.type === 'sheet-error') return { type: 'not-in-place', why: unzipped.error.what };
  try {
    const parts = openParts(unzipped.parts);
    amendParts(parts, source, out);
    const zipped = zipSync(parts.packed(), { mtime: NO_TIME });
    const back = await readXlsx(zipped);
    if (back.type !== 'tables' || !saysSame(back.tables, out)) {
      return { type: 'not-in-place', why: 'what was written is not read as it was meant' };
    }
    return { type: 'amended', bytes: zipped as Uint8Array<ArrayBuffer> };
  } catch (thrown) {
    if (thrown instanceof XmlTrouble || thrown instanceof NotInPlace) {
      return { type: 'not-in-place', why: thrown.message };
    }
    throw thrown;
  }
}

interface Parts {
  /** '' for one that is not there. Names are told apart without case. */
  text(name: string): string;
  set(name: string, text: string): void;
  remove(name: string): void;
  packed(): Zippable;
}

function openParts(found: ReadonlyMap<string, Uint8Array>): Parts {
  const names = new Map([...found.keys()].map((name) => [name.toLowerCase(), name]));
  const parts = new Map(found);
  const own = (name: string) => names.get(name.toLowerCase()) ?? name;
  return {
    text: (name) => new TextDecoder('utf-8', { ignoreBOM: true }).decode(parts.get(own(name)) ?? new Uint8Array()),
    set: (name, text) => void parts.set(own(name), new TextEncoder().encode(text)),
    remove: (name) => void parts.delete(own(name)),
    packed: () => Object.fromEntries(parts),
  };
}

const BOOK = 'xl/workbook.xml';
const BOOK_RELATIONS = 'xl/_rels/workbook.xml.rels';
const STYLES = 'xl/styles.xml';

function amendParts(parts: Parts, source: readonly Table[], out: readonly SheetOut[]): void {
  const book = readWorkbookPart(parts.text(BOOK), parts.text(BOOK_RELATIONS));
  const sheets = book.sheets
    .map(({ part }, index) => ({ part, index }))
    .filter(({ part }) => isCellPart(part) && parts.text(part) !== '');
  if (sheets.length !== source.length || sheets.length !== out.length) throw new NotInPlace('sheets that do not match');
  const styles = parts.text(STYLES);
  const marks = styles === '' ? { marked: () => null, xml: () => '' } : createMarks(styles);
  const looks = { marked: marks.marked, looks: styles === '' ? [] : readStyles(styles) };
  let isAmended = false;
  let formulasGone = false;
  for (const [i, { part, index }] of sheets.entries()) {
    const [was, is] = [source[i]!, out[i]!];
    const edits = toEdits(was, is);
    if (edits.size === 0) continue;
    isAmended = true;
    const widened = (range: Range) => widenedRange(range, was, is);
    const filters: { was: Range; is: Range }[] = [];
    const amended = amendSheetPart(parts.text(part), edits, looks, (range) => {
      const to = widened(range);
      if (to) filters.push({ was: range, is: to });
      return to;
    });
    parts.set(part, amended.xml);
    formulasGone ||= amended.formulasGone;
    for (const filter of filters) parts.set(BOOK, withFilterName(parts.text(BOOK), index, filter));
    for (const name of tablesOf(parts, part)) parts.set(name, widenTable(parts.text(name), widened, AMENDED));
  }
  if (!isAmended) return;
  if (styles !== '') parts.set(STYLES, marks.xml());
  if (formulasGone) dropCalculationOrder(parts);
  if (sheets.some(({ part }) => /<(\w+:)?f[\s>]/.test(parts.text(part)))) {
    parts.set(BOOK, calculatedOnOpening(parts.text(BOOK)));
  }
}

/** What differs from the source, what is marked, and what is new. */
function toEdits(source: Table, out: SheetOut): Map<number, Map<number, CellEdit>> {
  const edits = new Map<number, Map<number, CellEdit>>();
  out.rows.forEach((cells, i) => {
    const was = source.rows[i];
    const like = was ? null : (out.like?.get(i) ?? Math.max(source.rows.length - 1, 0));
    const width = Math.max(cells.length, was?.length ?? 0);
    for (let k = 0; k < width; k += 1) {
      const text = cells[k] ?? '';
      const mark = out.marks?.get(`${i},${k}`) ?? null;
      const isChanged = text !== (was?.[k] ?? '');
      if (!isChanged && mark === null && !(like !== null && text !== '')) continue;
      const row = edits.get(i + 1) ?? new Map<number, CellEdit>();
      edits.set(i + 1, row);
      const twin: Cell | null = like === null ? null : { row: like + 1, column: k + 1 };
      row.set(k + 1, { text: isChanged || mark === 'changed' ? text : null, mark, like: twin });
    }
  });
  likeTheirNeighbours(source, out, edits);
  return edits;
}

/** The column of the notes is new: each of its cells looks like the one before it. */
function likeTheirNeighbours(source: Table, out: SheetOut, edits: Map<number, Map<number, CellEdit>>): void {
  for (const { row, column } of noteTitles(source, out)) {
    for (const [at, cells] of edits) {
      const note = cells.get(column);
      if (!note?.text || at < row) continue;
      const like = at > source.rows.length ? (out.like?.get(at - 1) ?? at - 1) + 1 : at;
      const isTitle = note.text === AMENDED;
      cells.set(column, { ...note, mark: isTitle ? null : 'changed', like: { row: like, column: column - 1 } });
    }
  }
}

/** Where the title of the notes was put into a header of the source. */
function noteTitles(source: Table, out: SheetOut): Cell[] {
  return source.rows.flatMap((cells, i) => {
    const column = out.rows[i]?.indexOf(AMENDED) ?? -1;
    return column < 1 || (cells[column] ?? '') !== '' ? [] : [{ row: i + 1, column: column + 1 }];
  });
}

/** The range of a filter or table with the column of notes right beside it, and with the new rows right below it. */
function widenedRange(range: Range, source: Table, out: SheetOut): Range | null {
  const to = { ...range.to };
  const title = noteTitles(source, out).find(
    ({ row, column }) => row >= range.from.row && row <= range.to.row && column === range.to.column + 1,
  );
  if (title) to.column = title.column;
  const isBelow = out.rows.length > source.rows.length && (out.rows[source.rows.length]?.length ?? 0) > 0;
  if (isBelow && range.to.row === source.rows.length) to.row = out.rows.length;
  return to.column === range.to.column && to.row === range.to.row ? null : { from: range.from, to };
}

/** A spreadsheet keeps the range of a sheet's filter a second time, under a name of its own (18.2.5). */
function withFilterName(xml: string, sheet: number, { was, is }: { was: Range; is: Range }): string {
  const splices: Splice[] = [];
  let inside: number | null = null;
  scanXml(xml, {
    open(name, attributes, _, end) {
      const isOwn =
        name === 'definedName' &&
        attributeOf(attributes, 'name') === '_xlnm._FilterDatabase' &&
        attributeOf(attributes, 'localSheetId') === String(sheet);
      inside = isOwn ? end : null;
    },
    text: () => undefined,
    close(_, at) {
      if (inside === null) return;
      const held = (range: Range) => rangeName(range).replace(/([A-Z]+)(\d+)/g, '$$$1$$$2');
      const text = xml.slice(inside, at);
      if (text.endsWith(held(was))) {
        splices.push({ at: inside, end: at, text: text.slice(0, -held(was).length) + held(is) });
      }
      inside = null;
    },
  });
  return spliced(xml, splices);
}

/** A cell that is no formula any more must not stand in the order of calculation; a spreadsheet makes it anew. */
function dropCalculationOrder(parts: Parts): void {
  const own = relationsOf(parts, BOOK).find(({ type }) => type.endsWith('/calcChain'));
  if (!own) return;
  parts.remove(own.part);
  parts.set(
    BOOK_RELATIONS,
    without(parts.text(BOOK_RELATIONS), 'Relationship', 'Id', (id) => id === own.id),
  );
  const isPart = (name: string) => name.toLowerCase() === `/${own.part}`.toLowerCase();
  const types = '[Content_Types].xml';
  parts.set(types, without(parts.text(types), 'Override', 'PartName', isPart));
}

/** A document without its elements of one name whose attribute says so. */
function without(xml: string, element: string, attribute: string, isGone: (value: string) => boolean): string {
  const splices: Splice[] = [];
  let from: number | null = null;
  scanXml(xml, {
    open(name, attributes, at) {
      if (name === element) from = isGone(attributeOf(attributes, attribute) ?? '') ? at : null;
    },
    text: () => undefined,
    close(name, _, end) {
      if (name === element && from !== null) splices.push({ at: from, end, text: '' });
      if (name === element) from = null;
    },
  });
  return spliced(xml, splices);
}

function calculatedOnOpening(xml: string): string {
  const found = /<(?:\w+:)?calcPr\b[^>]*>/.exec(xml);
  if (found) {
    const text = withAttribute(found[0], 'fullCalcOnLoad', '1');
    return spliced(xml, [{ at: found.index, end: found.index + found[0].length, text }]);
  }
  // Its place is behind the names, else behind what stands before them (18.2.27, sequence of CT_Workbook).
  const before = [...xml.matchAll(/<\/((?:\w+:)?)(?:definedNames|externalReferences|functionGroups|sheets)>/g)].at(-1);
  if (!before) return xml;
  const at = before.index + before[0].length;
  return spliced(xml, [{ at, end: at, text: `<${before[1]}calcPr fullCalcOnLoad="1"/>` }]);
}

function tablesOf(parts: Parts, sheet: string): string[] {
  return relationsOf(parts, sheet).flatMap(({ type, part }) => (type.endsWith('/table') ? [part] : []));
}

function relationsOf(parts: Parts, of: string): { id: string; type: string; part: string }[] {
  const folder = of.slice(0, of.lastIndexOf('/'));
  const xml = parts.text(`${folder}/_rels${of.slice(folder.length)}.rels`);
  const found: { id: string; type: string; part: string }[] = [];
  if (xml === '') return found;
  scanXml(xml, {
    open(name, attributes) {
      if (name !== 'Relationship' || attributeOf(attributes, 'TargetMode') === 'External') return;
      const [id, type, target] = ['Id', 'Type', 'Target'].map((key) => attributeOf(attributes, key) ?? '');
      found.push({ id: id!, type: type!, part: resolvePart(folder, target!) });
    },
    text: () => undefined,
    close: () => undefined,
  });
  return found;
}

function resolvePart(folder: string, target: string): string {
  if (target.startsWith('/')) return target.slice(1);
  const path = folder.split('/');
  for (const step of target.split('/')) {
    if (step === '..') path.pop();
    else if (step !== '.') path.push(step);
  }
  return path.join('/');
}

/** Blank cells at the end of a row, and blank rows at the end of a sheet, are no difference. */
function saysSame(tables: readonly Table[], out: readonly SheetOut[]): boolean {
  return (
    tables.length === out.length &&
    out.every(({ rows }, i) => {
      const read = tables[i]!.rows;
      for (let row = 0; row < Math.max(rows.length, read.length); row += 1) {
        const [a, b] = [rows[row] ?? [], read[row] ?? []];
        for (let k = 0; k < Math.max(a.length, b.length); k += 1) {
          if ((a[k] ?? '').replace(/\r\n?/g, '\n') !== (b[k] ?? '').replace(/\r\n?/g, '\n')) return false;
        }
      }
      return true;
    })
  );
}
