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
  type: 'empty' | 'too-large' | 'not-a-sheet' | 'encrypted' | 'old-format' | 'damaged';
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
  ['a PDF', [0x25, 0x50, 0x44, 0x46]],
  ['a PNG picture', [0x89, 0x50, 0x4e, 0x47]],
  ['a JPEG picture', [0xff, 0xd8, 0xff]],
  ['a GIF picture', [0x47, 0x49, 0x46, 0x38]],
  ['a gzip archive', [0x1f, 0x8b]],
  ['a RAR archive', [0x52, 0x61, 0x72, 0x21]],
  ['a 7z archive', [0x37, 0x7a, 0xbc, 0xaf]],
];

/** Files that are known not to be a sheet by their first bytes; null for those that may be one. */
export function magicToError(bytes: Uint8Array): SheetError | null {
  if (bytes.length === 0) return { type: 'empty', what: 'no bytes', where: '' };
  if (bytes.length > CAPS.bytes) return { type: 'too-large', what: `${bytes.length} bytes`, where: '' };
  for (const [what, magic] of MAGICS) if (startsWith(bytes, magic)) return { type: 'not-a-sheet', what, where: '' };
  if (startsWith(bytes, [0xd0, 0xcf, 0x11, 0xe0])) {
    return holdsUtf16(bytes, 'EncryptedPackage')
      ? { type: 'encrypted', what: 'a workbook locked with a password', where: '' }
      : { type: 'old-format', what: 'a workbook of the old binary kind (.xls)', where: '' };
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
  ['encrypted', 'the file is locked with a password'],
  ['old-format', 'the old workbook format cannot be read'],
  ['damaged', 'the file is damaged'],
]);
const STEPS = new Map([
  ['empty', 'Open it in the spreadsheet program, check that the list is there, and save it again.'],
  ['too-large', 'Keep only the sheets with lists, or split it by rack.'],
  ['not-a-sheet', 'Choose the cable schedule as XLSX or CSV.'],
  ['encrypted', 'Save a copy without a password and choose that.'],
  ['old-format', 'Save it as XLSX and choose that.'],
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
