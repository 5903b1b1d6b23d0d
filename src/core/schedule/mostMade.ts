// How much a schedule may hold. A kilobyte of ranges can claim a million cables, and a cell may hold a book: both are
// stopped while they are read, with a sentence that says where.

/** Many times what a large house has; a phone walks through no more. */
const MOST = { cables: 100_000, jacks: 400_000 } as const;
/** Some 100 numbers in one cell. A longer text is no name, and taking it apart costs more than its length. */
const NAME_LENGTH = 600;
/** What people write sentences in. */
const SENTENCES = new Set(['notes', 'via', 'description']);

export type Made = keyof typeof MOST;

export interface Overfull {
  what: Made;
  sheet: string;
  row: number;
}

/** Counts what the rows make. */
export function countMade(): {
  add(what: Made, n: number, sheet: string, row: number): boolean;
  over: () => Overfull | null;
} {
  const made = { cables: 0, jacks: 0 };
  let over: Overfull | null = null;
  return {
    add(what, n, sheet, row) {
      made[what] += n;
      if (made[what] > MOST[what]) over ??= { what, sheet, row };
      return over === null;
    },
    over: () => over,
  };
}

export function isTooLong(meaning: string | undefined, text: string): boolean {
  return text.length > NAME_LENGTH && meaning !== undefined && !SENTENCES.has(meaning);
}

/** What a person is told, and what to do next. */
export function overfullToWords({ what, sheet, row }: Overfull): { why: string; nextStep: string } {
  return {
    why: `Row ${row} of ${sheet} brings it to more than ${MOST[what].toLocaleString('en')} ${what}.`,
    nextStep:
      what === 'cables'
        ? 'Look for numbers such as 0-499 that are one name and no range, and write them without the dash; or keep only the rows of one site.'
        : 'Look for jacks such as 1-512 that are one name and no range, and write them without the dash; or keep only the rows of one site.',
  };
}
