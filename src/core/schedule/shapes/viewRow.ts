// A row seen as another: a hop of a chain, a further to end, a row with the number that the rows above give it. The cells,
// their numbers and titles stay those of the sheet.
import type { ListRow } from '../readCells.ts';

/**
 * @param meaningOf Which of the row's meanings answers for one that is asked for.
 * @param texts What no cell says, by meaning.
 */
export function viewRow(
  base: ListRow,
  meaningOf: (meaning: string) => string,
  texts: Readonly<Record<string, string>> = {},
): ListRow {
  const { row, blank, filled, first, remark } = base;
  return {
    row,
    blank,
    filled,
    first,
    ...(remark ? { remark } : {}),
    get: (meaning) => texts[meaning] ?? base.get(meaningOf(meaning)),
    title: (meaning) => base.title(meaningOf(meaning)),
    // A jack that was put together is no text to take apart.
    literal: (meaning) => (texts[meaning] === undefined ? base.literal(meaningOf(meaning)) : /Jack$/.test(meaning)),
    noted: (meaning) => base.noted(meaningOf(meaning)),
    above: (meaning) => (texts[meaning] === undefined ? base.above(meaningOf(meaning)) : ''),
  };
}

/** What stands at one station of the row as an end of it: `panel1Unit` asked for as `fromUnit`. */
export function atStations(from: string, to: string): (meaning: string) => string {
  return (meaning) => {
    const [, side = '', part = ''] = /^(from|to)([A-Z]\w*)?$/.exec(meaning) ?? [];
    if (side === '') return meaning;
    return (side === 'from' ? from : to) + part;
  };
}
