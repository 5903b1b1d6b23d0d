// What can be wrong with a file that should hold a sheet, as data. The screen turns each into a sentence.

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
