// Letters of another script that nobody can tell from Latin ones by eye, in names that are otherwise Latin. They are read
// as the Latin letters, each name told; a list in Greek or Cyrillic stays as it is.
import type { Columns } from '../columns.ts';
import type { Table } from './readTypes.ts';

/** Unicode Technical Standard 39, confusables.txt: capitals and the small letters that are drawn alike. */
const ALIKE = new Map<string, string>([
  ...pairs('АВЕКМНОРСТУХІЈЅаеорсухіјѕ', 'ABEKMHOPCTYXIJSaeopcyxijs'),
  ...pairs('ΑΒΕΖΗΙΚΜΝΟΡΤΥΧο', 'ABEZHIKMNOPTYXo'),
]);

function pairs(others: string, latin: string): [string, string][] {
  return [...others].map((letter, i) => [letter, latin[i] ?? '']);
}

/** Greek and Cyrillic. */
const OTHER = /[\u0370-\u03ff\u0400-\u04ff]/u;
const LATIN = /[A-Za-z]/;
const NAMES = /^(number|unit|jack|rack|cable|(from|to)(Unit|Jack|Rack|Row|Pair)?)$/;

/**
 * Columns of names with letters of another script: true where most of the cells are Latin, or figures in a list that is
 * Latin elsewhere.
 */
export function columnsOfTwoScripts({ rows }: Table, { at, header }: Columns): ReadonlyMap<number, boolean> {
  const counts = [...at].flatMap(([meaning, column]) => {
    if (!NAMES.test(meaning)) return [];
    const count = { column, latin: 0, other: 0, figures: 0 };
    for (let i = header + 1; i < rows.length; i += 1) {
      const text = rows[i]?.[column] ?? '';
      if (OTHER.test(text)) count.other += 1;
      else if (LATIN.test(text)) count.latin += 1;
      else if (text.trim() !== '') count.figures += 1;
    }
    return [count];
  });
  const sum = (script: 'latin' | 'other') => counts.reduce((all, count) => all + count[script], 0);
  const isLatin = sum('latin') > sum('other') * 3;
  return new Map(
    counts.flatMap(({ column, latin, other, figures }) =>
      other === 0 ? [] : [[column, latin > other || (isLatin && latin + figures > other)]],
    ),
  );
}

/**
 * The name in Latin letters; null where it is another script's own.
 * @param isLatin False where only a name that mixes both is taken.
 */
export function toLatin(text: string, isLatin: boolean): string | null {
  if (!OTHER.test(text) || !(isLatin || LATIN.test(text))) return null;
  const letters = [...text].map((letter) => ALIKE.get(letter) ?? letter).join('');
  return OTHER.test(letters) ? null : letters;
}
