// Guesses in kinds, so that whoever agrees with one may agree with all of its like; and which of them are still open.
import type { Guess } from '../../plan/model.ts';
import type { GuessKind, Question, SortedGuess } from '../../schedule/rows/readTypes.ts';
import { isAnswered } from '../../schedule/sheetAnswers.ts';
import { isOf, type QuestionsOf, questionKey } from './questionGroups.ts';

/** The same guess has the same key when the file is read again. */
export function guessKey({ sheet, row, column, said, readAs }: Guess): string {
  return JSON.stringify([sheet, row, column ?? '', said, readAs]);
}

/** A sheet of thousands of guesses must not be handed over or drawn as thousands of rows; how many more there are is said. */
export const GUESSES_SHOWN = 50;

interface GuessGroup {
  kind: GuessKind;
  n: number;
  /** The first of them. */
  guesses: SortedGuess[];
  /** Columns with more of them than anybody looks at one by one; only of kinds that are never agreed to all at once. */
  columns?: { sheet: string; column: string; n: number }[];
}

export interface GuessList {
  open: GuessGroup[];
  agreed: { kind: GuessKind; n: number }[];
  openCount: number;
}
export const NO_GUESSES: GuessList = { open: [], agreed: [], openCount: 0 };

/** Each of these may be another name on the label: they are looked at one by one and never agreed to all at once. */
const ONE_BY_ONE: ReadonlySet<GuessKind> = new Set(['date', 'number-changed', 'trailing-zero', 'look-alike']);

export function isOneByOne(kind: GuessKind): boolean {
  return ONE_BY_ONE.has(kind);
}

/** Agreeing to a kind, or leaving questions as they were read, means those that there are now. */
export type Agreement =
  | { to: 'agree'; guess: Guess }
  | { to: 'agree' | 'reopen'; kind: GuessKind }
  | { to: 'agree'; ofKind: GuessKind; sheet: string; column: string }
  | { to: 'agree' | 'reopen'; questions: QuestionsOf };

export interface KeyedGuess {
  guess: SortedGuess;
  key: string;
  kind: GuessKind;
}

/** What the reader guessed; what a person put in by hand is none of it. */
export function keyGuesses(guesses: readonly SortedGuess[]): KeyedGuess[] {
  return guesses
    .filter((guess) => !isAnswered(guess))
    .map((guess) => ({ guess, key: guessKey(guess), kind: guess.kind }));
}

/** Open ones and agreed ones by kind, the longest first. */
export function listGuesses(keyed: readonly KeyedGuess[], agreed: ReadonlySet<string>): GuessList {
  const open = byKind(keyed.filter(({ key }) => !agreed.has(key)));
  return {
    open: open.map(({ kind, all }) => ({
      kind,
      n: all.length,
      guesses: all.slice(0, GUESSES_SHOWN).map(({ guess }) => guess),
      ...(isOneByOne(kind) ? { columns: columnsOf(all) } : {}),
    })),
    agreed: byKind(keyed.filter(({ key }) => agreed.has(key))).map(({ kind, all }) => ({ kind, n: all.length })),
    openCount: open.reduce((sum, { all }) => sum + all.length, 0),
  };
}

/** So many of one column are no longer looked at one by one. */
const MANY = 6;

function columnsOf(all: readonly KeyedGuess[]): NonNullable<GuessGroup['columns']> {
  const columns = new Map<string, { sheet: string; column: string; n: number }>();
  for (const { guess } of all) {
    const { sheet, column = '' } = guess;
    const key = JSON.stringify([sheet, column]);
    const known = columns.get(key) ?? { sheet, column, n: 0 };
    columns.set(key, { ...known, n: known.n + 1 });
  }
  return [...columns.values()].filter(({ n }) => n >= MANY);
}

/** The keys that are agreed to after a person said so. */
export function withAgreement(
  keyed: readonly KeyedGuess[],
  agreed: ReadonlySet<string>,
  said: Agreement,
  questions: readonly Question[] = [],
): ReadonlySet<string> {
  if ('kind' in said && said.to === 'agree' && isOneByOne(said.kind)) return agreed;
  const keys =
    'guess' in said
      ? [guessKey(said.guess)]
      : 'questions' in said
        ? questions.filter((one) => isOf(one, said.questions)).map(questionKey)
        : keyed.filter((one) => isMeant(one, said)).map(({ key }) => key);
  const next = new Set(agreed);
  for (const key of keys) {
    if (said.to === 'agree') next.add(key);
    else next.delete(key);
  }
  return next;
}

function isMeant(
  { kind, guess }: KeyedGuess,
  said: { kind: GuessKind } | { ofKind: GuessKind; sheet: string; column: string },
): boolean {
  if ('kind' in said) return kind === said.kind;
  return kind === said.ofKind && guess.sheet === said.sheet && (guess.column ?? '') === said.column;
}

function byKind(keyed: readonly KeyedGuess[]): { kind: GuessKind; all: KeyedGuess[] }[] {
  const groups = new Map<GuessKind, KeyedGuess[]>();
  for (const one of keyed) {
    const group = groups.get(one.kind);
    if (group) group.push(one);
    else groups.set(one.kind, [one]);
  }
  return [...groups]
    .map(([kind, all]) => ({ kind, all }))
    .sort((a, b) => b.all.length - a.all.length || (a.kind < b.kind ? -1 : 1));
}
