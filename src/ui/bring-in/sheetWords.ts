// What the preview of a schedule says in words: counts that add up, lists with their rows. Nothing is decided here.

import type { Coverage, Unread } from '../../core/report/plan/coverage.ts';
import type { QuestionsOf } from '../../core/report/plan/questionGroups.ts';
import type { TextEncoding } from '../../core/schedule/answers/encodings.ts';
import type { GoneAnswer } from '../../core/schedule/answers/goneAnswers.ts';
import type { LeftRows } from '../../core/schedule/answers/leftRows.ts';
import type { ListKind } from '../../core/schedule/meanings.ts';
import type { GuessKind, QuestionKind, ReadCounts } from '../../core/schedule/rows/readTypes.ts';
import type { RowLine } from '../../wire/sheet.ts';
import { count } from '../words.ts';

const KINDS: Record<ListKind, string> = {
  cables: 'list of cables',
  units: 'list of units',
  jacks: 'list of jacks',
  racks: 'list of racks',
  circuits: 'list of circuits',
};

/** "204 rows: 199 read, 1 repeated, 3 blank, 1 left out." The parts add up to the first number. */
export function rowsToWords(counts: Pick<ReadCounts, 'rowsIn' | 'used' | 'joined' | 'blank' | 'skipped'>): string {
  const parts = [
    `${counts.used} read`,
    counts.joined > 0 && `${counts.joined} repeated`,
    counts.blank > 0 && `${counts.blank} blank`,
    counts.skipped > 0 && `${counts.skipped} left out`,
  ];
  return `${count(counts.rowsIn, 'row')}: ${parts.filter(Boolean).join(', ')}.`;
}

/** "30 rows in lists of cables gave 36 cables. Some rows name several." */
export function cablesToWords(counts: Pick<ReadCounts, 'lists'>, cables: number): string {
  const rows = counts.lists.filter(({ kind }) => kind === 'cables').reduce((sum, list) => sum + list.rows, 0);
  if (!counts.lists.some(({ kind }) => kind === 'cables'))
    return cables === 0
      ? 'No list of cables.'
      : `No list of cables: the plan in force keeps its ${count(cables, 'cable')}.`;
  const why =
    cables > rows
      ? ' Some rows name several.'
      : cables < rows
        ? ' Blank rows, titles, and rows that belong together make fewer.'
        : '';
  return `${count(rows, 'row')} in lists of cables gave ${count(cables, 'cable')}.${why}`;
}

/** "Of 33 rows in lists of cables, 26 became cables with both ends known, 3 with one end, none with no end. 1 row repeats a cable." */
export function coverageToWords({ of, both, one, none, again, nothing }: Coverage['rows']): string {
  const n = (value: number) => (value === 0 ? 'none' : String(value));
  const parts = `${n(both)} became cables with both ends known, ${n(one)} with one end, ${n(none)} with no end.`;
  const rest = [
    again > 0 && `${count(again, 'row')} ${again === 1 ? 'repeats' : 'repeat'} a cable.`,
    nothing > 0 && `${count(nothing, 'row')} became no cable.`,
  ];
  return [`Of ${count(of, 'row')} in lists of cables, ${parts}`, ...rest.filter(Boolean)].join(' ');
}

export function unreadToWords({ texts, cells }: Pick<Unread, 'texts' | 'cells'>): string {
  if (texts === 0) return 'Every text in the file is in the plan, or in a guess or a question.';
  const are = texts === 1 ? 'is' : 'are';
  return `${count(texts, 'text')} in ${count(cells, 'cell')} ${are} not in the plan. Look through them: a column may be missing.`;
}

/** "20 open guesses" stands beside what was never read, so that none open does not sound like all read. */
export function openToWords(n: number, unread: Pick<Unread, 'texts'> | undefined): string {
  const texts = unread?.texts ?? 0;
  return texts === 0 ? `${n} open` : `${n} open, ${count(texts, 'text')} not read`;
}

/** Beside the press that takes the plan: questions without an answer, and texts that nobody read. */
export function restToWords(questions: number, coverage: Pick<Coverage, 'unread'> | null): string | undefined {
  const texts = coverage?.unread.texts ?? 0;
  const parts = [
    ...(questions > 0 ? [count(questions, 'open question')] : []),
    ...(texts > 0 ? [`${count(texts, 'text')} not read`] : []),
  ];
  return parts.length === 0 ? undefined : parts.join(', ');
}

export function groupToWords({ sheet, column }: QuestionsOf): string {
  return column === null ? sheet : `${column}, ${sheet}`;
}

export function leftToWords({ sheet, from, to, like }: LeftRows): string {
  const rows = from === to ? `row ${from}` : `rows ${from} to ${to}`;
  return like ? `${sheet}, all rows of one kind in ${rows}` : `${sheet} ${rows}`;
}

/** A row of the file, in a line: what it became, and how much of it is open. */
export function lineToWords({ is, readAs, open }: RowLine): string {
  const became = {
    header: 'names the columns',
    left: 'left out by you',
    item: readAs,
    nothing: 'became nothing',
    blank: 'blank',
  }[is];
  return open > 0 ? `${open} open: ${became}` : became;
}

export function listToWords({ kind, headerRow, rows }: ReadCounts['lists'][number]): string {
  return `${KINDS[kind]}, ${headerRow === 0 ? 'no header' : `header in row ${headerRow}`}, ${count(rows, 'row')}`;
}

/** "Notes", "Wiring from row 7". */
export function ignoredToWords({ sheet, row, isWhole }: ReadCounts['ignored'][number]): string {
  return isWhole ? sheet : `${sheet} from row ${row}`;
}

/** How far the reading is: "Row 12,500 of 25,000." */
export function progressToWords({ rows, of }: { rows: number; of: number }): string {
  // The browser's own way loads a language's tables first, which holds the page up longer than a row is read.
  const n = (value: number) => String(value).replace(/\B(?=(\d{3})+$)/g, ',');
  if (of > 0) return `Row ${n(rows)} of ${n(of)}.`;
  return rows === 0 ? 'Opening the file.' : `Opening the file: row ${n(rows)}.`;
}

/** Each sort of guess, as the title of its group. */
export const GUESS_TITLES: Record<GuessKind, string> = {
  ditto: 'Ditto marks',
  'from-above': 'Blank cells filled from above',
  signal: 'Signal words',
  status: 'Status words',
  'on-air': 'On air',
  'several-cables': 'Several cables in one cell',
  'several-jacks': 'Several jacks in one cell',
  'one-place': 'One place for a range or for two legs',
  note: 'Notes after a name',
  'taken-apart': 'Place, unit and jack in one cell',
  'number-changed': 'Names a spreadsheet may have changed',
  'number-cell': 'Number cells, where zeros in front may be lost',
  'trailing-zero': 'Decimals that may have lost a zero at the end (1.1 or 1.10)',
  'look-alike': 'Letters and zeros that look alike',
  struck: 'Cells struck through',
  fill: 'Rows filled in a colour',
  comment: 'Comments',
  setting: 'Settings found in words',
  date: 'Dates, perhaps names such as 3-4',
  'length-unit': 'Lengths without a unit',
  'column-unread': 'Columns not read',
  'column-inferred': 'Columns read by what is in them',
  'row-shape': 'What each row stands for',
  'no-item': 'Rows that list nothing',
  'same-cable': 'The same cable again',
  rack: 'Racks named in a row only',
  spelling: 'One name spelled in several ways',
  unit: 'Units: place, height, face',
  'nothing-here': 'Words that say nothing is connected',
  'jack-read': 'Jacks read by their names',
  file: 'Found in the file',
  'by-hand': 'Put in by hand',
  'as-it-stands': 'Taken as written',
};

const ENCODINGS: Record<TextEncoding, string> = {
  'UTF-8': 'UTF-8 (usual today)',
  'UTF-16LE': 'UTF-16, low byte first',
  'UTF-16BE': 'UTF-16, high byte first',
  'Windows-1252': 'Windows-1252 (Western Europe)',
  'Windows-1250': 'Windows-1250 (Central Europe)',
  'Windows-1251': 'Windows-1251 (Cyrillic)',
  Macintosh: 'Macintosh (old, Western Europe)',
};

export const encodingToWords = (encoding: TextEncoding): string => ENCODINGS[encoding];

/** Each sort of question, where its group has no words of its own. */
export const QUESTION_TITLES: Record<QuestionKind, string> = {
  end: 'Where does this end go?',
  jack: 'Which jack is this?',
  unit: 'Which unit is this?',
  number: 'Which cable is this?',
  several: 'One or several?',
  'which-is-right': 'Which is right?',
  spelling: 'Is this one name?',
  signal: 'Which signal is this?',
  length: 'How long is this?',
  word: 'What does this word mean?',
  circuit: 'Which circuit is this?',
  ditto: 'What is repeated here?',
  gone: 'Is it removed?',
  'own-sheet': 'What changed here?',
  column: 'What does this column mean?',
  'no-item': 'Is this an item?',
  'row-shape': 'Is each row this?',
};

/** What rows may be that say in some style that they are not there any more. */
export const GONE_ANSWERS: readonly { as: GoneAnswer['as']; big: string }[] = [
  { as: 'removed', big: 'Removed: leave out' },
  { as: 'in-use', big: 'In use' },
  { as: 'spare', big: 'Spare' },
  { as: 'future', big: 'Not installed yet' },
];

const GONE_STYLES: Readonly<Record<string, string>> = {
  sheet: 'all rows of the sheet',
  struck: 'rows struck through',
  status: 'rows whose status says removed',
  notes: 'rows whose notes say removed',
  comments: 'rows with a comment that says removed',
  hidden: 'hidden rows',
};

export function goneStyleToWords(style: string): string {
  return GONE_STYLES[style] ?? 'rows filled in one colour';
}
