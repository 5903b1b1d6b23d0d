// Single cells of a schedule: what is above a ditto, ranges and lists of labels, notes behind a jack. No row or sheet
// is judged here.

import type { Columns } from './columns.ts';
import { expandRange } from './identity.ts';
import type { Notebook, Table } from './readTypes.ts';
import { isDitto, isNothing, isUnknown } from './words.ts';

/** The rows of one list below its header, with dittos filled and the numbers that people see. */
export interface ListRow {
  row: number;
  /** Text of a meaning's cell, trimmed; '' when there is no such column. */
  get(meaning: string): string;
  title(meaning: string): string | undefined;
  /** The row above in the list, for cells that were merged. */
  above: ListRow | null;
  blank: boolean;
  /** Filled cells, whatever their column. */
  filled: number;
}

export function tableToRows(table: Table, columns: Columns, notebook: Notebook): ListRow[] {
  const first = table.firstRow ?? 1;
  const rows: ListRow[] = [];
  const header = columns.titles.map((title) => title.trim().toLowerCase()).join('\t');
  let above: string[] = [];
  for (let i = columns.header + 1; i < table.rows.length; i += 1) {
    const raw = table.rows[i] ?? [];
    // Printed lists repeat their header on every page.
    if (raw.map((cell) => cell.trim().toLowerCase()).join('\t') === header) continue;
    const row = first + i;
    const texts = raw.map((cell, column) => {
      const text = cell.trim();
      if (!isDitto(text)) return text;
      const copied = above[column] ?? '';
      const title = columns.titles[column];
      if (copied === '')
        notebook.ask(table.name, row, title, text, 'This repeats the cell above, but nothing is there.');
      else notebook.guess(table.name, row, title, text, copied);
      return copied;
    });
    const filled = texts.filter((text) => text !== '').length;
    if (filled > 0) above = texts;
    rows.push({
      row,
      get: (meaning) => texts[columns.at.get(meaning) ?? -1] ?? '',
      title: (meaning) => columns.titles[columns.at.get(meaning) ?? -1],
      above: rows.findLast((earlier) => !earlier.blank) ?? null,
      blank: filled === 0,
      filled,
    });
  }
  return rows;
}

const RANGE = /^(.*?\d)\s*(?:-|–|—|\.\.\.?|\bto\b|\bthru\b|\bthrough\b|>)\s*(\D*?\d+)$/i;

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

/** `J1/J2`: two numbered jacks, each with its own letters. `L/R`, `1/2` and `I/O` are names. */
export function textToJackPair(text: string): string[] | null {
  const parts = text.split(/\s*[/+]\s*/);
  const numbered = parts.length > 1 && parts.every((part) => /^\p{L}+[ -]?\d+$/u.test(part));
  return numbered ? parts : null;
}

/** Splits the note behind a label: `I1 (new)`, `P02*`, `M3 ribbon!!`. */
export function splitNote(text: string): { label: string; note: string } {
  const trimmed = text.trim();
  const bracket = /^([^([{]+?)\s*[([{](.*)[)\]}]\s*[*!]*$/.exec(trimmed);
  if (bracket) return { label: bracket[1] ?? '', note: bracket[2] ?? '' };
  const words = /^(\p{L}*[ -]?\d+\p{L}?)\s*[*!]*\s+(\p{Ll}{3,}.*)$/u.exec(trimmed);
  if (words) return { label: words[1] ?? '', note: (words[2] ?? '').replace(/\s*[*!]+$/, '') };
  const marked = /^(.*[^*!\s])\s*([*!]+)$/.exec(trimmed);
  if (marked) return { label: marked[1] ?? '', note: marked[2] ?? '' };
  return { label: trimmed, note: '' };
}

/** A text that ends in `?`, and the words for unknown: kept for show, but no place and no name. */
export function isDoubtful(text: string): boolean {
  return isUnknown(text) || /\S\?+$/.test(text.trim());
}

/** Cell text where unknown and nothing-words count as blank. */
export function orBlank(text: string): string {
  return isUnknown(text) || isNothing(text) ? '' : text;
}
