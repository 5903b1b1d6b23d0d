// Rows of a list that list nothing: headers again, numbers of columns, tables of revisions, approvals, sums, examples,
// phases and notes between the rows. Found before the rows are read, by what stands in them and by how they differ from
// the others; who reads the rows tells it. The words are common practice, no source.
//
// Limits: a row is known by its first cell, by the titles or by the words beside it; anything else that is no item is
// asked about where the number of the cable looks unlike all others.
import { type Columns, titleToKey } from './columns.ts';
import type { Notebook, RawCable, Table } from './rows/readTypes.ts';
import { isDitto, isNothing, isSpareWord, isUnknown } from './words.ts';

/** Share of the filled cells that have to be titles for the row to be a header. */
const TITLES_WANTED = 0.6;
const CELLS_WANTED = 3;
/** Share of the numbers in which figures stand before one without is asked about, and how many at the most. */
const FIGURES_WANTED = 0.9;
const MOST_ASKED = 20;
/** A name of a unit, with the place in front of it, has no more words. */
const WORDS_OF_A_NAME = 6;

const REVISION = /^(rev\.?|revisions?|issue|index|ind\.?|indice|version|ausgabe|änderung|revisión)$/i;
const OF_REVISION =
  /^(date|datum|fecha|by|drawn|checked|description|change|changes|reason|approved|gez\.?|gepr\.?|name|auteur|par)$/i;
const APPROVAL =
  /^(approved|checked|drawn|prepared|verified|issued|accepted|signed|freigegeben|geprüft|gezeichnet|erstellt|approuvé|vérifié|dessiné|aprobado|revisado|dibujado)( (by|von|par|por))?\s*:?$/i;
const EXAMPLE =
  /^(e\. ?g\.?|eg\.?|ex\.|example|sample|template|z\. ?b\.|beispiel|muster|exemple|ejemplo|p\. ?ej\.)(\s|:|$)/i;
const BLANKS_TO_FILL = /^(x{2,}|#{2,}|_{2,}|<[^<>]+>|\[[^[\]]+\])$/i;
const PHASE =
  /^(phase|stage|step|lot|etappe|bauabschnitt|tranche|fase|week|woche|semaine|package|section|level|floor)\s*(\d{1,3}|[ivx]+)[a-z]?\s*:?$/i;
const REMARK =
  /^(n\.? ?b\.?|(foot)?notes?|remarks?|attention|achtung|hinweis|warning|caution|important|wichtig|todo|info|nota)(\s*\d{1,2})?\s*[:.!]?$/i;
const COUNTED = /^\d+\s*(cables?|runs?|leads?|lines?|pieces|pcs\.?|kabel|leitungen|câbles?|stk\.?|stück|cavi|cabos)$/i;
const DATE = /^(\d{1,2}[./-]\d{1,2}[./-]\d{2,4}|\d{4}-\d{2}-\d{2})$/;

const REVISIONS = 'a table of revisions, not an item';

/** Index of each row that lists nothing, with why. */
export function findNoItems(table: Table, columns: Columns): Map<number, string> {
  const found = new Map<number, string>();
  const sheet: Sheet = {
    titles: columns.titles.map((title) => title.trim().toLowerCase()),
    number: columns.kind === 'cables' ? columns.at.get('number') : undefined,
  };
  let isRevision = false;
  for (let i = columns.header + 1; i < table.rows.length; i += 1) {
    const row = table.rows[i] ?? [];
    if (isRevision && !row.some((cell) => DATE.test(cell.trim()))) isRevision = false;
    const at = row.findIndex((cell) => cell.trim() !== '');
    const first = row[at]?.trim() ?? '';
    if (first === '' || table.literal?.has(`${(table.firstRow ?? 1) + i} ${at + 1}`)) continue;
    const why = isRevision
      ? REVISIONS
      : i <= columns.header + 2 && isColumnNumbers(row)
        ? 'the numbers of the columns, not an item'
        : whyOf(row, at, first, sheet);
    if (why === REVISIONS) isRevision = true;
    if (why !== null) found.set(i, why);
  }
  return found;
}

/** Titles, folded, and the column of the cable's number where there is one. */
type Sheet = { titles: readonly string[]; number: number | undefined };

/** Why a row that begins so lists nothing; null where it may be an item. Most rows begin with a number: one look. */
function whyOf(row: readonly string[], at: number, first: string, { titles, number }: Sheet): string | null {
  if (/^\d/.test(first)) return null;
  if (EXAMPLE.test(first)) return 'an example, not an item';
  const isNumber = number !== undefined && (at === number || (row[number] ?? '').trim() === '');
  if (isNumber && (PHASE.test(first) || REMARK.test(first))) return 'a heading or remark, not an item';
  if (APPROVAL.test(first)) return 'words about the list, not an item';
  const isPlain = !/\d/.test(first);
  if (!isPlain && !REVISION.test(first)) return null;
  const cells = row.map((cell) => cell.trim());
  const said = cells.filter((cell) => cell !== '');
  if (REVISION.test(first) && said.some((cell) => OF_REVISION.test(cell))) return REVISIONS;
  if (isNumber && said.some((cell) => COUNTED.test(cell))) return 'a sum, not an item';
  if (said.length < CELLS_WANTED) return null;
  const again = cells.filter((cell) => cell !== '' && titles.includes(cell.toLowerCase())).length;
  const inPlace = cells.filter((cell, column) => cell !== '' && titles[column] === cell.toLowerCase()).length;
  // Most of it in its place: names may stand as titles of columns, too.
  if (again >= said.length * TITLES_WANTED && inPlace * 2 > said.length) return 'the header once more';
  if (BLANKS_TO_FILL.test(first) && !said.some((cell) => /\d/.test(cell))) return 'a row to be filled in, not an item';
  return null;
}

/** `1 | 2 | 3 | 4` or `A | B | C | D` below the titles. */
function isColumnNumbers(row: readonly string[]): boolean {
  const cells = row.map((cell) => cell.replace(/[()[\]. ]/g, '')).filter((cell) => cell !== '');
  if (cells.length < CELLS_WANTED) return false;
  return (
    cells.every((cell, i) => cell === String(i + 1)) || cells.every((cell, i) => cell === String.fromCharCode(65 + i))
  );
}

/** A header in another order, with the words of the one above: another list begins there without a blank row. */
export function isReordered(row: readonly string[], titles: readonly string[]): boolean {
  const first = (row.find((cell) => cell.trim() !== '') ?? '').trim();
  if (first === '' || /\d/.test(first)) return false;
  const keys = new Set(titles.map((title) => title.trim().toLowerCase()));
  if (!keys.has(first.toLowerCase())) return false;
  const said = row.map((cell) => cell.trim().toLowerCase());
  const filled = said.filter((cell) => cell !== '');
  const again = filled.filter((cell) => keys.has(cell)).length;
  const inPlace = said.filter((cell, column) => cell !== '' && (titles[column] ?? '').trim().toLowerCase() === cell);
  return filled.length >= CELLS_WANTED && again >= filled.length * TITLES_WANTED && inPlace.length * 2 < again;
}

/**
 * Cables that may be none, which nobody but a person can tell: one whose number is a word among figures, or a title; a
 * unit whose name is a sentence.
 * @param isUnit Does a list name a unit of this label?
 */
export function askOddCables(
  list: { table: Table; columns: Columns },
  cables: readonly RawCable[],
  isUnit: (label: string) => boolean,
  notebook: Notebook,
): void {
  const { table, columns } = list;
  const titleOf = (meaning: string) => columns.titles[columns.at.get(meaning) ?? -1];
  const column = columns.at.get('number') ?? -1;
  const isSettled = (row: number) => table.literal?.has(`${row} ${column + 1}`) === true;
  const titles = new Set(columns.titles.map(titleToKey).filter((key) => key !== ''));
  const labelled = cables.filter(({ label }) => label !== '');
  const figures = labelled.filter(({ label }) => /\d/.test(label)).length;
  const isFigures = labelled.length > 3 && figures >= (labelled.length - 1) * FIGURES_WANTED;
  const asked = new Set<number>();
  for (const { label, row } of labelled) {
    const isOdd = !/\d/.test(label) && (isFigures || titles.has(titleToKey(label)));
    if (!isOdd || isWord(label) || asked.has(row) || asked.size >= MOST_ASKED || isSettled(row)) continue;
    asked.add(row);
    notebook.ask('no-item', table.name, row, titleOf('number'), label, 'Is this row a cable?');
  }
  const told = new Set<string>();
  const wholes = new Set([titleOf('from'), titleOf('to')]);
  wholes.delete(undefined);
  for (const { from, to, row } of cables) {
    for (const { location, unit, column: title, literal } of [...from, ...to]) {
      // Where one cell names place and unit, a sentence was taken apart into both.
      if (location.length + unit.length < 24) continue;
      const said = wholes.has(title) ? `${location} ${unit}`.trim() : unit;
      if (said.length < 25 || literal || told.has(said) || said.split(/\s+/).length <= WORDS_OF_A_NAME) continue;
      told.add(said);
      if (!isUnit(unit)) notebook.ask('unit', table.name, row, title, said, 'Is this the name of a unit?');
    }
  }
}

function isWord(text: string): boolean {
  return isDitto(text) || isNothing(text) || isSpareWord(text) || isUnknown(text);
}
