// A formula as it reads when it is moved. Nothing is calculated.
import { type Cell, columnToLetters, lettersToColumn } from '../xlsxCells.ts';

/**
 * Texts, names of sheets in quotes and names of tables in brackets, each to be left alone; cells, whole columns and
 * whole rows (ECMA-376 part 1, 18.17.2.2: A1 references).
 */
const PARTS =
  /"(?:[^"]|"")*"|'(?:[^']|'')*'|\[[^\]]*\]|(?<![\w.$])(\$?)([A-Z]{1,3})(\$?)(\d{1,7})(?![\w.(!])|(?<![\w.$])(\$?)([A-Z]{1,3}):(\$?)([A-Z]{1,3})(?![\w.(!])|(?<![\w.$])(\$?)(\d{1,7}):(\$?)(\d{1,7})(?![\w.(!])/g;

/** The formula of a cell as another cell that shares it means it: what is not held by a `$` moves with it. */
export function moveFormula(formula: string, by: Cell): string {
  const column = (held: string, letters: string) =>
    held + (held ? letters : columnToLetters(lettersToColumn(letters) + by.column));
  const row = (held: string, digits: string) => held + (held ? digits : String(Number(digits) + by.row));
  return formula.replace(PARTS, (whole, ...groups: (string | undefined)[]) => {
    const [a, b, c, d, e, f, g, h, i, j, k, l] = groups;
    if (b !== undefined && d !== undefined) return column(a ?? '', b) + row(c ?? '', d);
    if (f !== undefined && h !== undefined) return `${column(e ?? '', f)}:${column(g ?? '', h)}`;
    if (j !== undefined && l !== undefined) return `${row(i ?? '', j)}:${row(k ?? '', l)}`;
    return whole;
  });
}
