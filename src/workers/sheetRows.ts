// Rows of a file as it has them, each with what became of it and what is open: a window of them, one of them whole, and
// the next that is open. Reads what the reader keeps; decides nothing.
import type { Plan } from '../core/plan/model.ts';
import { guessKey, type KeyedGuess } from '../core/report/plan/guessKinds.ts';
import { questionKey } from '../core/report/plan/questionGroups.ts';
import { rowToReading } from '../core/report/walk/rowReading.ts';
import { isLeft, isLike, rowToLike } from '../core/schedule/answers/leftRows.ts';
import type { Question, Table } from '../core/schedule/rows/readTypes.ts';
import { columnsOf, holdsRow, type SheetAnswers } from '../core/schedule/sheetAnswers.ts';
import type { RowFacts, RowLine, SheetRequest } from '../wire/sheet.ts';
import { rowCells } from './sheetShapes.ts';

/** More rows than a screen has room for are not handed over at once. */
const ROWS_AT_ONCE = 200;
const LINE_CELLS = 20;
const LINE_TEXT = 60;
const OPEN_SHOWN = 20;

/** Of what the reader keeps. */
interface From {
  lists: readonly Table[];
  answers: SheetAnswers;
  plan: Plan | null;
  guesses: readonly KeyedGuess[];
  questions: readonly Question[];
  agreed: ReadonlySet<string>;
}

export function rowLines(from: From, { sheet, from: first, n }: Extract<SheetRequest, { type: 'rows' }>): RowLine[] {
  const last = first + Math.min(n, ROWS_AT_ONCE) - 1;
  const open = openIn(from, sheet, first, last);
  const lines: RowLine[] = [];
  for (const table of from.lists) {
    if (table.name !== sheet) continue;
    const begin = table.firstRow ?? 1;
    const header = begin + (columnsOf(table, from.answers)?.header ?? -1);
    for (let row = Math.max(first, begin); row <= Math.min(last, begin + table.rows.length - 1); row += 1) {
      const cells = table.rows[row - begin] ?? [];
      const readAs = from.plan ? rowToReading(from.plan, sheet, row) : '';
      lines.push({
        row,
        cells: cells.slice(0, LINE_CELLS).map((cell) => cell.trim().slice(0, LINE_TEXT)),
        readAs: readAs.slice(0, 2 * LINE_TEXT),
        open: open.get(row) ?? 0,
        is: sortOf(from, sheet, row, cells, row === header, readAs),
      });
    }
  }
  return lines;
}

function sortOf(
  { answers }: From,
  sheet: string,
  row: number,
  cells: readonly string[],
  isHeader: boolean,
  readAs: string,
): RowLine['is'] {
  if (isHeader) return 'header';
  if (cells.every((cell) => cell.trim() === '')) return 'blank';
  if (answers.left?.some((one) => one.sheet === sheet && isLeft(one, row, cells))) return 'left';
  return readAs === '' ? 'nothing' : 'item';
}

export function rowFacts(from: From, sheet: string, row: number): RowFacts {
  const { lists, answers, plan } = from;
  const table = lists.find((one) => holdsRow(one, sheet, row)) ?? null;
  const begin = table?.firstRow ?? 1;
  const cells = table?.rows[row - begin] ?? [];
  const like = rowToLike(cells);
  const header = (table && columnsOf(table, answers)?.header) ?? -1;
  const below = table?.rows.slice(header + 1) ?? [];
  return {
    cells: rowCells(table, row, answers),
    readAs: plan ? rowToReading(plan, sheet, row) : '',
    open: openOf(from, sheet, row).slice(0, OPEN_SHOWN),
    like,
    alike: like === null ? 0 : below.filter((one) => isLike(one, like)).length,
    list: { from: begin + header + 1, to: begin + (table?.rows.length ?? 1) - 1 },
    left: answers.left?.find((one) => one.sheet === sheet && isLeft(one, row, cells)) ?? null,
  };
}

function openOf({ guesses, questions, agreed }: From, sheet: string, row: number): RowFacts['open'] {
  return [
    ...questions
      .filter((one) => one.sheet === sheet && one.row === row && !agreed.has(questionKey(one)))
      .map(({ said, question }) => ({ said, words: question })),
    ...guesses
      .filter(({ guess, key }) => guess.sheet === sheet && guess.row === row && !agreed.has(key))
      .map(({ guess: { said, readAs } }) => ({ said, words: `read as ${readAs}` })),
  ];
}

/** How many are open, by row. */
function openIn({ guesses, questions, agreed }: From, sheet: string, first: number, last: number): Map<number, number> {
  const open = new Map<number, number>();
  const isIn = (one: { sheet: string; row: number }) => one.sheet === sheet && one.row >= first && one.row <= last;
  const add = (row: number) => open.set(row, (open.get(row) ?? 0) + 1);
  for (const one of questions) if (isIn(one) && !agreed.has(questionKey(one))) add(one.row);
  for (const { guess } of guesses) if (isIn(guess) && !agreed.has(guessKey(guess))) add(guess.row);
  return open;
}

/** Below the row, else from the top of the sheet again; null where nothing of the sheet is open. */
export function nextOpen({ guesses, questions, agreed }: From, sheet: string, row: number): number | null {
  let below = Number.POSITIVE_INFINITY;
  let first = Number.POSITIVE_INFINITY;
  const see = (at: number) => {
    first = Math.min(first, at);
    if (at > row) below = Math.min(below, at);
  };
  for (const one of questions) if (one.sheet === sheet && !agreed.has(questionKey(one))) see(one.row);
  for (const { guess, key } of guesses) if (guess.sheet === sheet && !agreed.has(key)) see(guess.row);
  const next = Number.isFinite(below) ? below : first;
  return Number.isFinite(next) ? next : null;
}
