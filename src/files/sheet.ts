// One file of any kind that a schedule comes in, to tables: decides by the first bytes, never by the name.
import type { Table } from '../core/schedule/rows/readTypes.ts';
import { type Delimiter, readCsv } from './csv.ts';
import { decodeText, type Encoding, toEncoding } from './encodings.ts';
import { charsetOf, isHtml, readHtml } from './htmlTable.ts';
import { isOds, readOds } from './ods.ts';
import { isZip, magicToError, type SheetError, textToError } from './sheetError.ts';
import { readXlsx } from './xlsx.ts';

type SheetRead =
  | {
      type: 'tables';
      tables: Table[];
      /** How a text file was taken, for the preview; absent for workbooks. */
      text?: { encoding: Encoding; delimiter: Delimiter };
    }
  | { type: 'sheet-error'; error: SheetError };

/** As much of a text as tells what kind of file it is. */
const HEAD = 64_000;

/**
 * @param name File name, whose ending is dropped to name the only sheet of a text file.
 * @param encoding Of a text file, where a person chose it.
 * @param onRow Hears how many rows of a workbook have been read so far. A text file is read at one go.
 */
export async function readSheetFile(
  bytes: Uint8Array,
  name: string,
  onRow?: (rows: number) => void,
  encoding?: Encoding,
): Promise<SheetRead> {
  const wrong = magicToError(bytes);
  if (wrong) return { type: 'sheet-error', error: wrong };
  if (isZip(bytes)) return isOds(bytes) ? readOds(bytes, onRow) : readXlsx(bytes, onRow);
  const head = decodeText(bytes.subarray(0, HEAD), encoding).text;
  const other = textToError(head);
  if (other) return { type: 'sheet-error', error: other };
  if (isHtml(head)) {
    const { text } = decodeText(bytes, encoding ?? toEncoding(charsetOf(head)));
    return readHtml(text, fileToName(name));
  }
  const read = readCsv(bytes, { encoding });
  if (read.type === 'sheet-error') return read;
  const table: Table = {
    name: fileToName(name),
    rows: read.rows,
    ...(read.notes.length > 0 ? { notes: read.notes } : {}),
  };
  return { type: 'tables', tables: [table], text: { encoding: read.encoding, delimiter: read.delimiter } };
}

/** `schedule rev C.csv` is called `schedule rev C`. */
export function fileToName(file: string): string {
  return file.replace(/^.*[\\/]/, '').replace(/\.[A-Za-z0-9]{1,5}$/, '') || file;
}
