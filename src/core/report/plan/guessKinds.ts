// Guesses in kinds, so that whoever agrees with one may agree with all of its like; and which of them are still open.
// Words only; what was guessed is the reader's.
import type { Guess } from '../../plan/model.ts';
import { isAnswered } from '../../schedule/sheetAnswers.ts';
import { isDitto } from '../../schedule/words.ts';

/** The first that fits names the kind; the last fits all. */
const KINDS: readonly [kind: string, fits: (guess: Guess) => boolean][] = [
  ['Ditto marks', ({ said }) => isDitto(said)],
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
  ['Notes after a name', ({ readAs }) => readAs.includes(', with the note ')],
  ['Place, unit and jack in one cell', ({ readAs }) => readAs.includes(' · ')],
  ['Names a spreadsheet may have changed', ({ readAs }) => readAs.includes('a spreadsheet may have made')],
  ['Settings found in words', ({ readAs }) => /^(phantom|gain|microphone|name|channel) /.test(readAs)],
  ['Dates', ({ readAs }) => readAs.startsWith('a date ')],
  ['Lengths without a unit', ({ readAs }) => readAs.includes('where no unit is written')],
  ['Columns not read', ({ readAs }) => /^a column /.test(readAs)],
  ['Rows that list nothing', ({ readAs }) => /not an? (cable|unit|jack|rack|item)$|header once more$/.test(readAs)],
  ['The same cable again', ({ readAs }) => readAs.startsWith('the same cable')],
  ['Racks named in a row only', ({ readAs }) => readAs.startsWith('a rack of ')],
  ['Others', () => true],
];

export function guessToKind(guess: Guess): string {
  return KINDS.find(([, fits]) => fits(guess))?.[0] ?? 'Others';
}

/** The same guess has the same key when the file is read again. */
export function guessKey({ sheet, row, column, said, readAs }: Guess): string {
  return JSON.stringify([sheet, row, column ?? '', said, readAs]);
}

/** A sheet of thousands of guesses must not be handed over or drawn as thousands of rows; how many more there are is said. */
export const GUESSES_SHOWN = 50;

export interface GuessGroup {
  kind: string;
  n: number;
  /** The first of them. */
  guesses: Guess[];
}

export interface GuessList {
  open: GuessGroup[];
  agreed: { kind: string; n: number }[];
  openCount: number;
}
export const NO_GUESSES: GuessList = { open: [], agreed: [], openCount: 0 };

/** Agreeing to a kind means those of its guesses that there are now. */
export type Agreement = { to: 'agree'; guess: Guess } | { to: 'agree' | 'reopen'; kind: string };

export interface KeyedGuess {
  guess: Guess;
  key: string;
  kind: string;
}

/** What the reader guessed; what a person put in by hand is none of it. */
export function keyGuesses(guesses: readonly Guess[]): KeyedGuess[] {
  return guesses
    .filter((guess) => !isAnswered(guess))
    .map((guess) => ({ guess, key: guessKey(guess), kind: guessToKind(guess) }));
}

/** Open ones and agreed ones by kind, the longest first. */
export function listGuesses(keyed: readonly KeyedGuess[], agreed: ReadonlySet<string>): GuessList {
  const open = byKind(keyed.filter(({ key }) => !agreed.has(key)));
  return {
    open: open.map(({ kind, all }) => ({
      kind,
      n: all.length,
      guesses: all.slice(0, GUESSES_SHOWN).map(({ guess }) => guess),
    })),
    agreed: byKind(keyed.filter(({ key }) => agreed.has(key))).map(({ kind, all }) => ({ kind, n: all.length })),
    openCount: open.reduce((sum, { all }) => sum + all.length, 0),
  };
}

/** The keys that are agreed to after a person said so. */
export function withAgreement(
  keyed: readonly KeyedGuess[],
  agreed: ReadonlySet<string>,
  said: Agreement,
): ReadonlySet<string> {
  const keys =
    'guess' in said ? [guessKey(said.guess)] : keyed.filter(({ kind }) => kind === said.kind).map(({ key }) => key);
  const next = new Set(agreed);
  for (const key of keys) {
    if (said.to === 'agree') next.add(key);
    else next.delete(key);
  }
  return next;
}

function byKind(keyed: readonly KeyedGuess[]): { kind: string; all: KeyedGuess[] }[] {
  const groups = new Map<string, KeyedGuess[]>();
  for (const one of keyed) {
    const group = groups.get(one.kind);
    if (group) group.push(one);
    else groups.set(one.kind, [one]);
  }
  return [...groups]
    .map(([kind, all]) => ({ kind, all }))
    .sort((a, b) => b.all.length - a.all.length || (a.kind < b.kind ? -1 : 1));
}
