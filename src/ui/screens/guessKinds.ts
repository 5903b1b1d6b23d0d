// Guesses in kinds, so that whoever agrees with one may agree with all of its like; and which of them are still open.
// Words only; what was guessed is the reader's.
import type { Guess } from '../../core/plan/model.ts';
import { isAnswered } from '../../core/plan/sheetAnswers.ts';
import { isDitto } from '../../core/plan/words.ts';

/** The first that fits names the kind; the last fits all. */
const KINDS: readonly [kind: string, fits: (guess: Guess) => boolean][] = [
  ['Signs that repeat the cell above', ({ said }) => isDitto(said)],
  [
    'Blank cells filled from above',
    ({ said, readAs }) => said === '' && /as in the row above|merged with/.test(readAs),
  ],
  ['Signal words', ({ readAs }) => readAs.startsWith('signal ')],
  ['Status words', ({ readAs }) => readAs.startsWith('status ')],
  ['On air', ({ readAs }) => readAs === 'on air'],
  ['Several cables in one cell', ({ readAs }) => /^\d+ cables: /.test(readAs)],
  ['Several jacks in one cell', ({ readAs }) => /^\d+ ends: /.test(readAs)],
  ['One place for a range or for two legs', ({ readAs }) => /^one (end|place) /.test(readAs)],
  ['Notes behind a name', ({ readAs }) => readAs.includes(', with the note ')],
  ['Place, unit and jack in one cell', ({ readAs }) => readAs.includes(' · ')],
  ['Numbers that a spreadsheet may have made', ({ readAs }) => readAs.includes('a spreadsheet may have made')],
  ['Settings found in words', ({ readAs }) => /^(phantom|gain|microphone|name|channel) /.test(readAs)],
  ['Dates', ({ readAs }) => readAs.startsWith('a date ')],
  ['Lengths without a unit', ({ readAs }) => readAs.includes('where no unit is written')],
  ['Columns that are not read', ({ readAs }) => /^a column /.test(readAs)],
  ['Rows that list nothing', ({ readAs }) => /not an? (cable|unit|jack|rack|item)$|header once more$/.test(readAs)],
  ['The same cable once more', ({ readAs }) => readAs.startsWith('the same cable')],
  ['Racks that only a row names', ({ readAs }) => readAs.startsWith('a rack of ')],
  ['Others', () => true],
];

export function guessToKind(guess: Guess): string {
  return KINDS.find(([, fits]) => fits(guess))?.[0] ?? 'Others';
}

/** The same guess has the same key when the file is read again. */
export function guessKey({ sheet, row, column, said, readAs }: Guess): string {
  return JSON.stringify([sheet, row, column ?? '', said, readAs]);
}

export interface GuessGroup {
  kind: string;
  guesses: Guess[];
}

export interface GuessList {
  open: GuessGroup[];
  agreed: GuessGroup[];
  openCount: number;
}

/** Open ones and agreed ones by kind, the longest first; what a person put in by hand is neither. */
export function groupGuesses(guesses: readonly Guess[], accepted: ReadonlySet<string>): GuessList {
  const mine = guesses.filter((guess) => !isAnswered(guess));
  const isAgreed = (guess: Guess) => accepted.size > 0 && accepted.has(guessKey(guess));
  const open = mine.filter((guess) => !isAgreed(guess));
  return { open: byKind(open), agreed: byKind(mine.filter(isAgreed)), openCount: open.length };
}

function byKind(guesses: readonly Guess[]): GuessGroup[] {
  const groups = new Map<string, Guess[]>();
  for (const guess of guesses) {
    const kind = guessToKind(guess);
    const group = groups.get(kind);
    if (group) group.push(guess);
    else groups.set(kind, [guess]);
  }
  return [...groups]
    .map(([kind, list]) => ({ kind, guesses: list }))
    .sort((a, b) => b.guesses.length - a.guesses.length || (a.kind < b.kind ? -1 : 1));
}
