// The report as a document that no medium owns: sections in their order with headings, paragraphs, facts, tables of
// typed cells, lists, entries, cautions and references to pictures. Made once, in reportDocument.ts; it holds values and
// finished words, never markup.
//
// A writer of it, for a screen, a page, a PDF or a workbook, handles all of this and makes up no word of its own:
// - every section in the order given, every kind of block (a `switch` without `default`), every kind of run;
// - texts may be hostile, of any length and in any direction: it passes each through `spelledOut` and escapes it for its
//   medium (markup, formulas of a spreadsheet); a label and a name are never cut, and a box is a label and nothing else;
// - a time is a number until it is written, with the one writer that the document carries; a count stays a number, so
//   that a workbook can add it up; the sum of a table is a row of its own;
// - state is told by words or lines, never by colour alone: a hazard has its word, what is undecided a dashed line;
// - what it leaves out is counted in words: lists end in "and 7 more", and a picture that is not at hand is named;
// - it may fold, link and lay out, and it never drops a caution, a sum or the closing words.
import type { PhotoMark, Spot } from '../../record/events.ts';

/** A stretch of one line. `label` is what a cable's label reads; `name` names a place, a unit or a revision. */
export type Run =
  | { type: 'text' | 'strong' | 'quiet' | 'hazard' | 'name'; text: string }
  | { type: 'label'; text: string; as: 'found' | 'plan' }
  | { type: 'time'; at: number };

/** `names` lists places, of which there may be tens of thousands. */
export type Cell = { type: 'count'; n: number } | { type: 'words'; runs: Run[] } | { type: 'names'; names: string[] };

export interface Column {
  name: string;
  kind: 'words' | 'count' | 'time';
}

export interface Table {
  columns: Column[];
  rows: Cell[][];
  /** The last row where the counts above are added up. */
  sum: Cell[] | null;
}

/** How a thing stands, told by line and word. */
export type Badge = 'hazard' | 'undecided' | 'differs';

/** Where a reader on a screen may go on; paper has nothing for it. */
export type Target = { type: 'differences' } | { type: 'renaming'; place: string | null };

export interface Item {
  badge: Badge | null;
  lines: Run[][];
  opens: Target | null;
}

/** One difference with its number, which the rest of the report refers to. */
export interface Entry {
  id: string;
  number: number;
  badge: Badge;
  title: string;
  blocks: Block[];
}

/** A photo by the hash of its bytes, with what was drawn on it in shares of its size. */
export interface Picture {
  document: string;
  width: number;
  height: number;
  marks: PhotoMark[];
  pins: { at: Spot; jack: string }[];
  caption: Run[];
  /** The caption is the name of a place. */
  isPlace: boolean;
}

export interface Voice {
  event: string;
  words: Run[];
}

export type Block =
  | { type: 'heading'; text: string }
  | { type: 'paragraph'; tone: 'plain' | 'lead' | 'quiet'; runs: Run[] }
  | { type: 'caution'; runs: Run[] }
  | { type: 'facts'; rows: { name: string; value: Run[] }[] }
  | { type: 'table'; table: Table }
  | { type: 'list'; ordered: boolean; items: Item[] }
  | { type: 'labels'; labels: string[]; as: 'found' | 'plan' }
  | { type: 'entries'; entries: Entry[] }
  | { type: 'pictures'; pictures: Picture[] }
  | { type: 'voices'; voices: Voice[] };

export const SECTION_IDS = [
  'cables',
  'worst',
  'severities',
  'hazards',
  'causes',
  'differences',
  'decisions',
  'tests',
  'racks',
  'not-looked',
  'left-out',
  'added',
  'as-left',
  'window',
  'on-purpose',
  'pairs',
  'to-prove',
  'renaming',
  'remarks',
  'media',
  'confirmed',
  'walk',
] as const;
export type SectionId = (typeof SECTION_IDS)[number];

export interface Section {
  id: SectionId;
  title: string;
  /** How many there are, beside the title. */
  count: string | null;
  blocks: Block[];
}

export interface ReportDocument {
  language: 'en-GB';
  /** For a window or a file: station and audit. */
  title: string;
  /** Above the name. */
  above: Run[];
  name: string;
  /** The whole in one breath. */
  lead: Block[];
  sections: Section[];
  closing: Block[];
  /** Writes a time in the zone that the closing words name. */
  when: (at: number) => string;
}

/** Control characters, zero-width marks and direction overrides (Unicode general categories Cc and Cf). */
const HIDDEN = /[\p{Cc}\p{Cf}]/gu;

/** Marks that reorder or hide text are written out by number, so that what is read is what is there. */
export function spelledOut(text: string): string {
  return text.replace(HIDDEN, (sign) => {
    const code = sign.codePointAt(0) ?? 0;
    return code === 9 || code === 10 || code === 13 ? ' ' : `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`;
  });
}

/** @param timeZone Such as `Europe/London`. */
export function timeWriter(timeZone: string): (at: number) => string {
  const format = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short', timeZone });
  return (at) => (at > 0 ? format.format(at) : 'not known');
}
