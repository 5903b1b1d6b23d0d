// Single cells of a schedule: what is above a ditto, ranges and lists of labels, notes behind a jack. No row or sheet
// is judged here.
//
// Limits: In a text file a merged rack or room is filled down only with its unit. A reading that is the same in every
// row is told once per text, a number cell of a workbook cell by cell.

import { derived } from '../plan/derived.ts';
import { expandRange } from '../plan/identity.ts';
import type { Columns } from './columns.ts';
import { isTooLong } from './mostMade.ts';
import { findNoItems } from './noItems.ts';
import { columnsOfTwoScripts, toLatin } from './rows/lookAlikes.ts';
import type { Notebook, RowSign, Table } from './rows/readTypes.ts';
import { isDitto, isLegendTitle, isNothing, isSignature, isSpareWord, isTotal, isUnknown } from './words.ts';

/** The rows of one list below its header, with dittos filled and the numbers that people see. */
export interface ListRow {
  row: number;
  /** Text of a meaning's cell, trimmed; '' when there is no such column. */
  get(meaning: string): string;
  title(meaning: string): string | undefined;
  /** Does a person take this meaning's cell as it stands? */
  literal(meaning: string): boolean;
  /** Did the file's reader say something about this meaning's cell already? */
  noted(meaning: string): boolean;
  /** The nearest text above in this column, for names that stand only on the first of their rows. */
  above(meaning: string): string;
  blank: boolean;
  /** Filled cells, whatever their column. */
  filled: number;
  /** Text of the first of them. */
  first: string;
  /** Why this row lists nothing: a header again, a sum, a legend. Absent for the others. */
  remark?: Remark;
  /** What is known of the row beside its cells. */
  sign?: RowSign | undefined;
}

interface Remark {
  said: string;
  readAs: string;
  /** A person said so. */
  isSaid?: true;
}

/** Soft hyphen, zero-width space, word joiner, byte order mark (Unicode, general category Cf). */
const INVISIBLE = /[\u00ad\u200b\u2060\ufeff]/gu;

/** As much of a row's first text as tells what kind of row it is. */
const REMARK_LENGTH = 200;

/** What stands behind a unit's name: where another unit begins, a blank means that nothing is said of it. */
const WITH_UNIT = ['Location', 'Rack', 'Room', 'U', 'rack', 'room', 'u'];

/** Columns that may be filled from above. */
const NAMES = ['unit', 'rack', 'from', 'fromUnit', 'fromRack', 'to', 'toUnit', 'toRack'];

export function tableToRows(table: Table, columns: Columns, notebook: Notebook): ListRow[] {
  const first = table.firstRow ?? 1;
  const rows: ListRow[] = [];
  const toKey = (cells: readonly string[]) => cells.map((cell) => cell.trim().toLowerCase()).join('\t');
  const header = toKey(table.rows[columns.header] ?? []);
  const noItems = findNoItems(table, columns);
  const merged = mergedCells(table);
  const scripts = columnsOfTwoScripts(table, columns);
  const partners = unitColumns(columns);
  const meanings = new Map([...columns.at].map(([meaning, column]) => [column, meaning]));
  let above: string[] = [];
  const down: string[] = [];
  const names = [...columns.at].flatMap(([meaning, column]) =>
    NAMES.includes(meaning) || /^(panel\d|to\d)(Unit)?$/.test(meaning) ? [column] : [],
  );
  let isLegend = false;
  for (let i = columns.header + 1; i < table.rows.length; i += 1) {
    const raw = table.rows[i] ?? [];
    const row = first + i;
    const title = (column: number) => columns.titles[column];
    const texts = raw.map((cell, column) => {
      if (table.literal?.has(`${row} ${column + 1}`)) return cell.trim();
      const text = cell.replace(INVISIBLE, '').trim();
      if (text.length !== cell.length && INVISIBLE.test(cell) && meanings.has(column))
        notebook.guess(
          'spelling',
          table.name,
          row,
          title(column),
          cell.trim(),
          `${text}, without a sign that nobody can see`,
        );
      const latin = scripts.size > 0 && scripts.has(column) ? toLatin(text, scripts.get(column) === true) : null;
      if (latin !== null) {
        const readAs = `${latin}, in Latin letters; some of it is of another alphabet that looks the same`;
        notebook.guess('look-alike', table.name, row, title(column), text, readAs);
        return latin;
      }
      if (isTooLong(meanings.get(column), text)) {
        const said = `${text.slice(0, 40)}…`;
        const question = `This cell holds ${text.length.toLocaleString('en')} characters, too long for a name. What belongs here?`;
        notebook.ask('word', table.name, row, title(column), said, question);
        return '';
      }
      const source = text === '' && merged.size > 0 ? merged.get(`${row} ${column + 1}`) : undefined;
      if (source !== undefined) {
        const copied = (table.rows[source - first]?.[column] ?? '').trim();
        if (copied !== '' && source > first + columns.header) {
          if (meanings.has(column))
            notebook.guess('from-above', table.name, row, title(column), '', `${copied}, merged with row ${source}`);
          return copied;
        }
      }
      if (!isDitto(text)) return text;
      const copied = above[column] ?? '';
      if (copied === '')
        notebook.ask(
          'ditto',
          table.name,
          row,
          title(column),
          text,
          'This repeats the cell above, but nothing is there.',
        );
      else notebook.guess('ditto', table.name, row, title(column), text, copied);
      return copied;
    });
    const filled = texts.filter((text) => text !== '').length;
    if (filled === 0) isLegend = false;
    const firstText = texts.find((text) => text !== '') ?? '';
    const remark =
      filled <= 3 && texts.includes('=')
        ? 'a nickname, not an item'
        : (remarkOf(firstText.slice(0, REMARK_LENGTH), filled, toKey(raw) === header, isLegend) ??
          noItems.get(i) ??
          null);
    if (remark && isLegendTitle(firstText)) isLegend = true;
    // Kept only where a name is blank: a row has no use for it otherwise.
    const higher = names.some((column) => !texts[column]) ? down.slice() : [];
    const sign = table.signs?.get(row);
    // What a person left out is still the row above of the one below it.
    const gone: Remark = { said: firstText, readAs: 'removed, left out', isSaid: true };
    const why = remark ? { said: firstText, readAs: remark } : sign?.isGone && filled > 0 ? gone : undefined;
    rows.push(new SheetRow(table, columns, row, texts, higher, filled, firstText, why));
    if (filled === 0 || remark) continue;
    // A heading between the rows is not the row above of the one below it.
    if (filled > 1) above = texts;
    texts.forEach((text, column) => {
      if (text !== '') down[column] = text;
    });
    for (const [unit, columnsOfPlace] of partners) {
      if (texts[unit]) for (const column of columnsOfPlace) down[column] = texts[column] ?? '';
    }
  }
  return rows;
}

/** One of many thousand: its methods are shared, so that a row costs no more than its texts. */
class SheetRow implements ListRow {
  readonly #table: Table;
  readonly #columns: Columns;
  readonly #texts: readonly string[];
  readonly #higher: readonly string[];
  readonly row: number;
  readonly filled: number;
  readonly first: string;
  readonly remark?: Remark;

  constructor(
    table: Table,
    columns: Columns,
    row: number,
    texts: readonly string[],
    higher: readonly string[],
    filled: number,
    first: string,
    remark: Remark | undefined,
  ) {
    this.#table = table;
    this.#columns = columns;
    this.row = row;
    this.#texts = texts;
    this.#higher = higher;
    this.filled = filled;
    this.first = first;
    if (remark) this.remark = remark;
  }

  get sign(): RowSign | undefined {
    return this.#table.signs?.get(this.row);
  }

  get blank(): boolean {
    return this.filled === 0;
  }

  get(meaning: string): string {
    return this.#texts[this.#columns.at.get(meaning) ?? -1] ?? '';
  }

  title(meaning: string): string | undefined {
    return this.#columns.titles[this.#columns.at.get(meaning) ?? -1];
  }

  literal(meaning: string): boolean {
    return this.#table.literal?.has(`${this.row} ${(this.#columns.at.get(meaning) ?? -1) + 1}`) === true;
  }

  noted(meaning: string): boolean {
    const column = (this.#columns.at.get(meaning) ?? -1) + 1;
    return notedCells(this.#table).has(`${this.row} ${column}`);
  }

  above(meaning: string): string {
    return this.#higher[this.#columns.at.get(meaning) ?? -1] ?? '';
  }
}

/** Made once per sheet, and only where a row asks. */
const notedCells = derived((table: Table) => new Set((table.notes ?? []).map(({ row, column }) => `${row} ${column}`)));

/** Printed lists repeat their header on every page, add their rows up, and explain their signs at the end. */
function remarkOf(firstText: string, filled: number, isHeader: boolean, isLegend: boolean): string | null {
  if (filled === 0) return null;
  if (isHeader) return 'the header once more';
  if (isTotal(firstText)) return 'a sum, not an item';
  if (isSignature(firstText)) return 'words about the list, not an item';
  if (isLegend || (filled <= 2 && isLegendTitle(firstText))) return 'a legend, not an item';
  return null;
}

/** Cells that are one with a cell above them: `row column` to the row that holds the text. */
function mergedCells(table: Table): Map<string, number> {
  const merged = new Map<string, number>();
  for (const { row, column, rows } of table.merged ?? []) {
    for (let i = 1; i < rows; i += 1) merged.set(`${row + i} ${column}`, row);
  }
  return merged;
}

/** Each column of unit names with the columns that say where that unit is. */
function unitColumns({ at }: Columns): [number, number[]][] {
  return [
    ['', 'unit'],
    ['from', 'fromUnit'],
    ['to', 'toUnit'],
  ].flatMap(([side, unit]): [number, number[]][] => {
    const column = at.get(unit ?? '');
    if (column === undefined) return [];
    return [[column, WITH_UNIT.flatMap((part) => at.get(`${side}${part}`) ?? [])]];
  });
}

/** A real ellipsis is what a word processor makes of three dots. */
const RANGE = /^(.*?\d)\s*(?:-|–|—|\.\.\.?|[…‥⋯]|\bto\b|\bthru\b|\bthrough\b|\bbis\b|\bt\/m\b|>)\s*(\D*?\d+)$/i;

/** `P11-P16`, `OUT 1-2`, `1..8`, `1 thru 8`: the labels, or null when it is no range. */
export function textToRange(text: string): string[] | null {
  const match = RANGE.exec(text.trim());
  if (!match) return null;
  const labels = expandRange(match[1] ?? '', match[2] ?? '');
  return labels && labels.length > 1 ? labels : null;
}

/** A range, or a list by comma, semicolon, line break or `&`; a single text is a list of one. */
export function textToLabels(text: string): string[] {
  const parts = text.split(/[,;\n&]+/).map((part) => part.trim());
  return parts.filter((part) => part !== '').flatMap((part) => textToRange(part) ?? [part]);
}

/** `Slot 3/Out 1`: where in the unit, and the jack there. */
const SLOT = /^\s*(slot|card|module|blade|steckplatz|karte)\b/i;

/** `J1/J2`, `OUT L/OUT R`: several jacks, each with its own letters. `L/R`, `1/2` and `I/O` are names. */
export function textToJackPair(text: string): string[] | null {
  if (SLOT.test(text)) return null;
  const parts = text.split(/\s*[/+&,;\n]\s*/);
  const numbered =
    parts.length > 1 && parts.every((part) => /^\p{L}+([ -]?\d+|[ -][LR]|[ -]?\d+[ -]?[LR])$/iu.test(part));
  return numbered ? parts : null;
}

/** Splits the note behind a label: `I1 (new)`, `P02*`, `M3 ribbon!!`. */
export function splitNote(text: string): { label: string; note: string } {
  const trimmed = text.trim();
  const words = /^(\p{L}*[ -]?\d+\p{L}?)\s*[*!]*\s+(\p{Ll}{3,}.*)$/u.exec(trimmed);
  if (words && !/[([{]/.test(trimmed) && !textToRange(trimmed)) {
    return { label: words[1] ?? '', note: (words[2] ?? '').replace(/\s*[*!]+$/, '') };
  }
  // `4, ask first`: small words behind a comma are no second jack.
  const said = /^(\p{L}*[ -]?\d+\p{L}?),\s*(\p{Ll}{3,}(?:\s+\S+)+)$/u.exec(trimmed);
  if (said) return { label: said[1] ?? '', note: said[2] ?? '' };
  // `15 - left side`: a dash between blanks, and words behind it.
  const behind = /^(\S+(?: \d+)?)\s+[-–—]\s+(\p{L}.*\p{Ll}.*)$/u.exec(trimmed);
  if (behind && !textToRange(trimmed)) return { label: behind[1] ?? '', note: behind[2] ?? '' };
  return splitMark(trimmed);
}

/** The same, with brackets and signs alone: in a name of several words the last one is no note. */
export function splitMark(text: string): { label: string; note: string } {
  const trimmed = text.trim();
  // `#REF!` and `??` are words of their own.
  if (isUnknown(trimmed)) return { label: trimmed, note: '' };
  const bracket = /[([{]/.test(trimmed) && /^([^([{]+?)\s*[([{](.*)[)\]}]\s*[*!]*$/.exec(trimmed);
  if (bracket) return { label: bracket[1] ?? '', note: bracket[2] ?? '' };
  const marked = /[*!]$/.test(trimmed) && /^(.*[^*!\s])\s*([*!]+)$/.exec(trimmed);
  return marked ? { label: marked[1] ?? '', note: marked[2] ?? '' } : { label: trimmed, note: '' };
}

/** A text that ends in `?`, and the words for unknown: kept for show, but no place and no name. */
export function isDoubtful(text: string): boolean {
  return isUnknown(text) || /\S\?+$/.test(text.trim());
}

/** Cell text where unknown and nothing-words count as blank. */
export function orBlank(text: string): string {
  return isUnknown(text) || isNothing(text) ? '' : text;
}

/** A cell of names that holds a word instead, such as `spare`, `N/C` or `--`. */
export function isAside(text: string): boolean {
  return text !== '' && (isNothing(text) || isSpareWord(text));
}

/** Cell text where such words, and those for unknown, count as blank. */
export function orAside(text: string): string {
  return isAside(text) ? '' : orBlank(text);
}
