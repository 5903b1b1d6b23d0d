// Sizes of the exchange that are needed without its schemas, and how a text is measured.

/** The cache of entries that the database would not take: no clearing of cached builds may touch it. */
export const NOT_SAVED_CACHE = 'asfound-not-saved';

export const DOCUMENT_CHUNK_BYTES = 1024 * 1024;

/** UTF-8 length without an encoder; a lone surrogate counts as the three bytes it is replaced with. */
export function utf8Bytes(text: string): number {
  let bytes = 0;
  for (const char of text) {
    const point = char.codePointAt(0) ?? 0;
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
  }
  return bytes;
}
