// One sheet of a workbook to a table of text cells. Numbers come back as they were shown where that can be told, and are
// noted, since a spreadsheet may have eaten what was meant; nothing is calculated.
import type { GuessKind, Table } from '../core/schedule/rows/readTypes.ts';
import { CAPS, type SheetError } from './sheetError.ts';
import { MarkList, type StyleMarks } from './shown/xlsxMarks.ts';
import { Runs, type StruckText } from './shown/xlsxRuns.ts';
import { addressOf, columnToLetters } from './xlsxCells.ts';
import { type NumberLook, numberToText, serialToDate, serialToTime, zerosToText } from './xlsxLooks.ts';
import { unescapeText } from './xlsxParts.ts';
import { attributeOf, scanXml } from './xml.ts';

interface SheetContext {
  strings: readonly string[];
  looks: readonly NumberLook[];
  from1904: boolean;
  /** What each style shows beside its numbers. */
  marks: readonly StyleMarks[];
  /** Shared texts of which something is struck through. */
  struck: ReadonlyMap<number, StruckText>;
}

/** Thrown out of the walk through a sheet, so that one that is too large ends where it becomes so. */
class TooLarge extends Error {
  constructor(readonly error: SheetError) {
    super(error.what);
  }
}

interface Cell {
  row: number;
  column: number;
  type: string;
  style: number;
  value: string | null;
  formula: string | null;
  /** Of a text that stands in the cell itself. */
  runs: Runs | null;
}

type OpenTable = Required<Pick<Table, 'name' | 'rows' | 'notes' | 'merged'>>;

/** @param onRow Called with the number of rows read so far. */
export function readSheetPart(
  xml: string,
  name: string,
  context: SheetContext,
  onRow: (rows: number) => void = () => undefined,
): Table | SheetError {
  const table: OpenTable = { name, rows: [], notes: [], merged: [] };
  const marks = new MarkList();
  let row = 0;
  let column = 0;
  let cell: Cell | null = null;
  let into: 'value' | 'formula' | null = null;
  let isSpoken = false;
  let mergedRows = 0;
  const hiddenColumns: number[] = [];
  try {
    scanXml(xml, {
      open(tag, attributes) {
        cell?.runs?.open(tag, attributes);
        if (tag === 'row') {
          row = Number(attributeOf(attributes, 'r') ?? row + 1);
          column = 0;
          if (/^(1|true)$/.test(attributeOf(attributes, 'hidden') ?? '')) marks.add('hidden', row, 0);
          if (row % 500 === 0) onRow(row);
        } else if (tag === 'col' && /^(1|true)$/.test(attributeOf(attributes, 'hidden') ?? '')) {
          const [from, to] = ['min', 'max'].map((end) => Number(attributeOf(attributes, end) ?? 0));
          for (let one = from ?? 0; one <= Math.min(to ?? 0, CAPS.columns); one += 1) hiddenColumns.push(one);
        } else if (tag === 'c') {
          const at = addressOf(attributeOf(attributes, 'r') ?? '');
          column = at?.column ?? column + 1;
          cell = {
            row: at?.row ?? row,
            column,
            type: attributeOf(attributes, 't') ?? 'n',
            style: Number(attributeOf(attributes, 's') ?? -1),
            value: null,
            formula: null,
            runs: null,
          };
          if (cell.type === 'inlineStr') cell.runs = new Runs();
        } else if (tag === 'v' || (tag === 't' && cell?.type === 'inlineStr')) into = 'value';
        else if (tag === 'f') {
          into = 'formula';
          if (cell) cell.formula = '';
        } else if (tag === 'rPh') isSpoken = true;
        else if (tag === 'mergeCell') {
          for (const one of mergedOf(attributeOf(attributes, 'ref') ?? '')) {
            // Merges may overlap in a hostile file; together they never reach further than the rows may.
            mergedRows += one.rows;
            if (mergedRows <= CAPS.rows) table.merged.push(one);
          }
        }
      },
      text(text) {
        cell?.runs?.text(text);
        if (!cell || !into || isSpoken) return;
        if (into === 'value') cell.value = (cell.value ?? '') + text;
        else cell.formula = (cell.formula ?? '') + text;
      },
      close(tag) {
        cell?.runs?.close(tag);
        if (tag === 'v' || tag === 't' || tag === 'f') into = null;
        else if (tag === 'rPh') isSpoken = false;
        else if (tag === 'c' && cell) {
          put(table, marks, cell, context);
          cell = null;
        }
      },
    });
  } catch (thrown) {
    if (thrown instanceof TooLarge) return thrown.error;
    throw thrown;
  }
  const shut = hiddenColumns.filter((column) => table.rows.some((cells) => (cells[column - 1] ?? '') !== ''));
  if (shut.length > 0) {
    const said = `${shut.length} hidden ${shut.length === 1 ? 'column' : 'columns'}: ${shut.map(columnToLetters).join(', ')}`;
    table.notes.push({
      row: 1,
      column: 0,
      said,
      readAs: 'read like the others, although the sheet does not show them',
    });
  }
  return marks.all.length === 0 ? table : { ...table, shown: marks.all };
}

/** Only the first column of what was merged over several: a title across the sheet is no name for each of its cells. */
function mergedOf(ref: string): NonNullable<Table['merged']> {
  const [from, to] = ref.split(':').map(addressOf);
  if (!from || !to || to.row <= from.row) return [];
  return [{ row: from.row, column: from.column, rows: to.row - from.row + 1 }];
}

function put(table: OpenTable, marks: MarkList, cell: Cell, context: SheetContext): void {
  const { row, column } = cell;
  const note: CellNote = (kind, said, readAs) => table.notes.push({ row, column, said, readAs, kind });
  const look = context.marks[cell.style];
  if (look && look.fill !== '') marks.add('fill', row, column, look.fill);
  let text = cellToText(cell, context, note);
  const struck = cell.type === 's' ? context.struck.get(Number(cell.value)) : cell.runs?.struck;
  const kept = struck ? unescapeText(struck.kept).replace(/\s+/g, ' ').trim() : '';
  if (text !== '' && (look?.struck || (struck && kept === ''))) marks.add('struck', row, column);
  else if (struck && text !== '') {
    note('struck', text, `${kept}, without ${unescapeText(struck.struck).trim()}, which is struck through`);
    text = kept;
  }
  if (text === '') return;
  const where = `${table.name}, row ${row}`;
  if (row > CAPS.rows) throw new TooLarge({ type: 'too-large', what: `more than ${CAPS.rows} rows`, where });
  if (column > CAPS.columns)
    throw new TooLarge({ type: 'too-large', what: `more than ${CAPS.columns} columns`, where });
  while (table.rows.length < row) table.rows.push([]);
  const cells = table.rows[row - 1]!;
  while (cells.length < column) cells.push('');
  cells[column - 1] = text;
}

type CellNote = (kind: GuessKind, said: string, readAs: string) => void;

function cellToText({ type, style, value, formula }: Cell, context: SheetContext, note: CellNote): string {
  if (value === null || value === '') {
    // `="0101"` keeps its zeros, whether or not it was ever calculated.
    const [, quoted = ''] = /^"((?:[^"]|"")*)"$/.exec(formula ?? '') ?? [];
    if (quoted !== '') return quoted.replaceAll('""', '"');
    if (formula) note('file', `=${formula.slice(0, 60)}`, 'a formula whose result is not in the file; left blank');
    return '';
  }
  if (type === 's') return context.strings[Number(value)] ?? '';
  if (type === 'str' || type === 'inlineStr') return unescapeText(value);
  if (type === 'b') {
    const word = value === '1' ? 'TRUE' : 'FALSE';
    note('file', word, `${word}; the cell is a yes or no, perhaps a name was meant`);
    return word;
  }
  if (type === 'e') return value;
  if (type === 'd') {
    note('date', value, `${value}; the cell is a date, perhaps a number such as 3-4 was meant`);
    return value;
  }
  const look = context.looks[style] ?? { type: 'plain' };
  const number = Number(value);
  if (look.type === 'date' && Number.isFinite(number)) {
    const date = serialToDate(number, context.from1904);
    const [, month, day] = /^\d+-0?(\d+)-0?(\d+)/.exec(date) ?? [];
    note('date', date, `${date}; the cell is a date, perhaps ${month}-${day} or ${day}-${month} was meant`);
    return date;
  }
  if (look.type === 'time' && Number.isFinite(number) && number >= 0) {
    const time = serialToTime(number);
    note('date', time, `${time}; the cell is a time of day, perhaps a name such as ${time} was meant`);
    return time;
  }
  if (look.type === 'zeros' && /^\d+$/.test(value)) {
    const shown = zerosToText(look.parts, value);
    if (shown !== value) note('number-cell', value, `${shown}, as the sheet shows it; the cell is a number`);
    return shown;
  }
  if (look.type === 'exponent' || /e/i.test(value)) {
    const power = number.toExponential().replace('+', '').toUpperCase();
    note(
      'number-changed',
      value,
      `${value}; the cell is a number with an exponent, perhaps a name such as ${power} was meant`,
    );
    return value;
  }
  const text = numberToText(value);
  if (look.type === 'decimals' && Number.isFinite(number)) {
    const shown = number.toFixed(look.places);
    if (shown !== text) {
      note('number-cell', text, `${shown}, as the sheet shows it; the cell is a number`);
      return shown;
    }
  }
  if (look.type === 'words') {
    const shown = `${look.before}${text}${look.after}`;
    note('number-cell', text, `${shown}, as the sheet shows it; the cell is a number`);
    return shown;
  }
  // 1.1 may have been typed as 1.10, and the file does not know.
  if (/^\d+\.\d$/.test(text))
    note('trailing-zero', text, `${text}; the cell is a number, perhaps ${text}0 was meant: zeros at the end are lost`);
  else note('number-cell', text, `${text}; the cell is a number, zeros in front may be lost`);
  return text;
}
