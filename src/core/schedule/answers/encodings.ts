// Encodings that text files come in, as the WHATWG Encoding Standard calls them.
export const TEXT_ENCODINGS = [
  'UTF-8',
  'UTF-16LE',
  'UTF-16BE',
  'Windows-1252',
  'Windows-1250',
  'Windows-1251',
  'Macintosh',
] as const;
export type TextEncoding = (typeof TEXT_ENCODINGS)[number];
