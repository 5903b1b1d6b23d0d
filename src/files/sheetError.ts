// What can be wrong with a file that should hold a sheet, as data, and the sentence for each.

/** Caps of everything that is read: a schedule is never bigger, a hostile file often is. */
export const CAPS = {
  bytes: 20_000_000,
  rows: 200_000,
  columns: 512,
  zipEntries: 2_000,
  inflatedBytes: 200_000_000,
  /** Inflated to packed; sheets of repeated cells reach some 60. */
  zipRatio: 200,
} as const;

export interface SheetError {
  type: 'empty' | 'too-large' | 'not-a-sheet' | 'printed' | 'encrypted' | 'old-format' | 'damaged';
  /** What was found, in a few words: `a PDF`, `200,001 rows`. */
  what: string;
  /** Sheet, row or entry, where one can be named; else ''. */
  where: string;
}

const startsWith = (bytes: Uint8Array, magic: readonly number[]) => magic.every((byte, i) => bytes[i] === byte);

export function isZip(bytes: Uint8Array): boolean {
  return startsWith(bytes, [0x50, 0x4b, 0x03, 0x04]) || startsWith(bytes, [0x50, 0x4b, 0x05, 0x06]);
}

const MAGICS: readonly [string, readonly number[]][] = [
  ['a PNG picture', [0x89, 0x50, 0x4e, 0x47]],
  ['a JPEG picture', [0xff, 0xd8, 0xff]],
  ['a GIF picture', [0x47, 0x49, 0x46, 0x38]],
  ['a gzip archive', [0x1f, 0x8b]],
  ['a RAR archive', [0x52, 0x61, 0x72, 0x21]],
  ['a 7z archive', [0x37, 0x7a, 0xbc, 0xaf]],
];

const OLD_BINARY: SheetError = { type: 'old-format', what: 'a workbook of the old binary kind (.xls)', where: '' };

/** Texts that hold a sheet in a way that is not read here, by how they begin; null for the others. */
export function textToError(head: string): SheetError | null {
  const old = (what: string): SheetError => ({ type: 'old-format', what, where: '' });
  if (/<(?:\w+:)?Workbook\b[^>]*urn:schemas-[\w-]+:office:spreadsheet/.test(head)) {
    return old('a workbook as XML of 2003');
  }
  if (/^ID;P/.test(head)) return old('a sheet of the kind SYLK (.slk)');
  if (/^(?:From:|MIME-Version:)[\s\S]{0,2000}?multipart\/related/i.test(head))
    return old('a web page in one file (.mht)');
  if (head.startsWith('{\\rtf')) return { type: 'not-a-sheet', what: 'a text document (.rtf)', where: '' };
  return null;
}

/** Archives that are no workbook of ours, by the names of their entries; null for the others. */
export function entriesToError(names: readonly string[]): SheetError | null {
  const has = (name: RegExp) => names.some((one) => name.test(one));
  if (has(/^xl\/workbook\.bin$/i))
    return { type: 'old-format', what: 'a workbook of a binary kind (.xlsb)', where: '' };
  if (has(/^(Index\/Document\.iwa|Index\.zip|index\.apxl|index\.xml)$/)) {
    return { type: 'old-format', what: 'a sheet of the kind .numbers', where: '' };
  }
  if (has(/^(word|ppt)\//)) return { type: 'not-a-sheet', what: 'a text document or slides', where: '' };
  return null;
}

/** Files that are known not to be a sheet by their first bytes; null for those that may be one. */
export function magicToError(bytes: Uint8Array): SheetError | null {
  if (bytes.length === 0) return { type: 'empty', what: 'no bytes', where: '' };
  if (bytes.length > CAPS.bytes) return { type: 'too-large', what: `${bytes.length} bytes`, where: '' };
  if (startsWith(bytes, [0x25, 0x50, 0x44, 0x46])) return { type: 'printed', what: 'a PDF', where: '' };
  // The first record of a workbook that no container holds: BOF, of 1987 to 1995.
  if (bytes[0] === 0x09 && [0x00, 0x02, 0x04, 0x08].includes(bytes[1] ?? 1) && bytes[3] === 0) return OLD_BINARY;
  for (const [what, magic] of MAGICS) if (startsWith(bytes, magic)) return { type: 'not-a-sheet', what, where: '' };
  if (startsWith(bytes, [0xd0, 0xcf, 0x11, 0xe0])) {
    return holdsUtf16(bytes, 'EncryptedPackage')
      ? { type: 'encrypted', what: 'a workbook locked with a password', where: '' }
      : OLD_BINARY;
  }
  return null;
}

function holdsUtf16(bytes: Uint8Array, word: string): boolean {
  const codes = [...word].map((letter) => letter.charCodeAt(0));
  for (let i = 0; i + codes.length * 2 <= bytes.length; i += 1) {
    if (codes.every((code, k) => bytes[i + 2 * k] === code && bytes[i + 2 * k + 1] === 0)) return true;
  }
  return false;
}

const WORDS = new Map([
  ['empty', 'the file is empty'],
  ['too-large', 'the file is too large'],
  ['not-a-sheet', 'this is not a spreadsheet'],
  ['printed', 'a printed page has no cells'],
  ['encrypted', 'the file is locked with a password'],
  ['old-format', 'this kind of sheet cannot be read'],
  ['damaged', 'the file is damaged'],
]);
const STEPS = new Map([
  ['empty', 'Open it in the spreadsheet program, check that the list is there, and save it again.'],
  ['too-large', 'Keep only the sheets with lists, or split it by rack.'],
  ['not-a-sheet', 'Choose the cable schedule as XLSX, ODS or CSV.'],
  [
    'printed',
    'Ask for the sheet it was printed from; or copy its table into a spreadsheet and save that as XLSX or CSV.',
  ],
  ['encrypted', 'Save a copy without a password and choose that.'],
  ['old-format', 'Open it in the program that made it, save or export it as XLSX or CSV, and choose that.'],
  ['damaged', 'Save it again as XLSX or CSV and choose that.'],
]);

/** What a person is told, and what to do next. */
export function sheetErrorToWords(
  file: string,
  { type, what }: { type: string; what: string },
): { what: string; nextStep: string } {
  return {
    what: `${file}: ${WORDS.get(type) ?? 'cannot be read'} (${what}).`,
    nextStep: STEPS.get(type) ?? 'Save it again as XLSX or CSV.',
  };
}
