// Rows of text to a CSV file that a spreadsheet opens without running anything. What is escaped here, csv.ts takes off.

/**
 * Texts that a spreadsheet takes for a formula, and those that our own escape would be taken off of. A text that begins
 * with a delimiter or a line break would look like the lone quotation mark of a ditto once it is quoted.
 */
const FORMULA_LIKE = /^'*[=+\-@\t\r\n,;|]/;

export function cellToCsv(cell: string, delimiter = ','): string {
  const harmless = FORMULA_LIKE.test(cell) ? `'${cell}` : cell;
  const mustQuote = harmless.includes(delimiter) || /["\r\n,;\t]|^\s|\s$/.test(harmless);
  return mustQuote ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

/** RFC 4180 with CRLF, the last line ended as well. */
export function rowsToCsv(rows: readonly (readonly string[])[], delimiter = ','): string {
  return rows.map((row) => `${row.map((cell) => cellToCsv(cell, delimiter)).join(delimiter)}\r\n`).join('');
}

/** With a byte order mark, without which some spreadsheets read UTF-8 as an old code page. */
export function rowsToCsvBytes(rows: readonly (readonly string[])[], delimiter = ','): Uint8Array {
  return new TextEncoder().encode(`\uFEFF${rowsToCsv(rows, delimiter)}`);
}
