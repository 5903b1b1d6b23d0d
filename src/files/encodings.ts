// Bytes of a text file to letters and back. The encoding is guessed from the letters that come out: those of a language
// stand in words, and signs do not.
//
// Limits: Of the old code pages those of Western and Central Europe, Cyrillic and the old Macintosh are told apart; any
// other is read as one of these. A text without letters beyond ASCII has nothing to guess by, and none to get wrong.

import { TEXT_ENCODINGS, type TextEncoding } from '../core/schedule/answers/encodings.ts';

export type Encoding = TextEncoding;

/** By its name; undefined for one that is not read here. */
export function toEncoding(name: string | undefined): Encoding | undefined {
  const key = name?.toLowerCase();
  // What pages call ISO 8859-1 is Windows-1252 (WHATWG Encoding, 4.2).
  if (key === 'iso-8859-1' || key === 'latin1' || key === 'us-ascii') return 'Windows-1252';
  return TEXT_ENCODINGS.find((one) => one.toLowerCase() === key);
}

export interface Decoded {
  text: string;
  encoding: Encoding;
  /** Bytes in front that only tell the encoding. */
  mark: number;
  /** Bytes that are none of the encoding's; each is read as the old Western code page has it. */
  bad: number;
}

/** @param chosen By a person; else it is told by the bytes. */
export function decodeText(bytes: Uint8Array, chosen?: Encoding): Decoded {
  const marked = markOf(bytes);
  const encoding = chosen ?? marked?.encoding ?? wideWithoutMark(bytes) ?? guess(bytes);
  const mark = marked?.encoding === encoding ? marked.mark : 0;
  const own = bytes.subarray(mark);
  if (encoding !== 'UTF-8') return { text: decodeAs(own, encoding), encoding, mark, bad: 0 };
  try {
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(own), encoding, mark, bad: 0 };
  } catch {
    return { ...decodeBroken(own), encoding, mark };
  }
}

/** Null where the encoding has no place for one of the characters. */
export function encodeText(text: string, encoding: Encoding): Uint8Array<ArrayBuffer> | null {
  if (encoding === 'UTF-8') return new TextEncoder().encode(text);
  if (encoding === 'UTF-16LE' || encoding === 'UTF-16BE') {
    const bytes = new Uint8Array(text.length * 2);
    const view = new DataView(bytes.buffer);
    for (let i = 0; i < text.length; i += 1) view.setUint16(i * 2, text.charCodeAt(i), encoding === 'UTF-16LE');
    return bytes;
  }
  const codes = codesOf(encoding);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) {
    const code = codes.get(text[i]!);
    if (code === undefined) return null;
    bytes[i] = code;
  }
  return bytes;
}

function markOf(bytes: Uint8Array): { encoding: Encoding; mark: number } | null {
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) return { encoding: 'UTF-8', mark: 3 };
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return { encoding: 'UTF-16LE', mark: 2 };
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return { encoding: 'UTF-16BE', mark: 2 };
  return null;
}

function decodeAs(bytes: Uint8Array, encoding: Encoding): string {
  const text = new TextDecoder(encoding.toLowerCase(), { ignoreBOM: true }).decode(bytes);
  return encoding === 'Windows-1252' ? text.replace(/[\u0080-\u009f]/g, toWestern) : text;
}

/**
 * Characters of 0x80 to 0x9F in Windows-1252 (WHATWG Encoding, index windows-1252; a blank is a byte without one). Some
 * versions of Node decode the label as ISO 8859-1 and leave control characters there.
 */
const WESTERN = '€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ';

function toWestern(control: string): string {
  const character = WESTERN[control.charCodeAt(0) - 0x80] ?? ' ';
  return character === ' ' ? control : character;
}

const codePages = new Map<Encoding, Map<string, number>>();

/** The byte of each character of an encoding with one byte for each. */
function codesOf(encoding: Encoding): Map<string, number> {
  const known = codePages.get(encoding);
  if (known) return known;
  const letters = decodeAs(
    Uint8Array.from({ length: 256 }, (_, i) => i),
    encoding,
  );
  const codes = new Map([...letters].map((letter, i) => [letter, i]));
  codePages.set(encoding, codes);
  return codes;
}

/** Length of the sequence that begins here (RFC 3629, section 4); 0 where none does. */
function sequenceAt(bytes: Uint8Array, i: number): number {
  const lead = bytes[i]!;
  if (lead < 0x80) return 1;
  const length =
    lead >= 0xc2 && lead < 0xe0 ? 2 : lead >= 0xe0 && lead < 0xf0 ? 3 : lead >= 0xf0 && lead < 0xf5 ? 4 : 0;
  for (let k = 1; k < length; k += 1) if ((bytes[i + k]! & 0xc0) !== 0x80) return 0;
  return length;
}

function decodeBroken(bytes: Uint8Array): { text: string; bad: number } {
  const pieces: string[] = [];
  let from = 0;
  let bad = 0;
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true });
  for (let i = 0; i < bytes.length; ) {
    const length = sequenceAt(bytes, i);
    if (length > 0) {
      i += length;
      continue;
    }
    pieces.push(decoder.decode(bytes.subarray(from, i)), decodeAs(bytes.subarray(i, i + 1), 'Windows-1252'));
    bad += 1;
    i += 1;
    from = i;
  }
  pieces.push(decoder.decode(bytes.subarray(from)));
  return { text: pieces.join(''), bad };
}

/** A text in UTF-8 that was damaged has more whole sequences than broken ones. */
function guess(bytes: Uint8Array): Encoding {
  let whole = 0;
  let broken = 0;
  for (let i = 0; i < bytes.length; ) {
    const length = sequenceAt(bytes, i);
    if (length > 1) whole += 1;
    else if (length === 0) broken += 1;
    i += Math.max(length, 1);
  }
  return broken === 0 || whole >= broken * 2 ? 'UTF-8' : guessPage(bytes);
}

/** The letters beyond ASCII of languages that are written in each code page (their alphabets; small letters). */
const ALPHABETS: readonly [Encoding, readonly string[]][] = [
  [
    'Windows-1252',
    [
      'äöüß',
      'éèêëàâçîïôûùœæÿ',
      'áéíóúñüºª',
      'áâãàçéêíóôõúºª',
      'àèéìíòóùú',
      'æøåéóôü',
      'åäöéü',
      'ëéïöüèê',
      'áéíóúýþæöð',
    ],
  ],
  ['Macintosh', ['äöüß', 'éèêëàâçîïôûùœæÿ', 'áéíóúñüºª', 'áâãàçéêíóôõúºª', 'àèéìíòóùú', 'æøåéóôü', 'åäöéü', 'ëéïöüèê']],
  ['Windows-1250', ['ąćęłńóśźż', 'áčďéěíňóřšťúůýž', 'áäčďéíĺľňóôŕšťúýž', 'áéíóöőúüű', 'čćđšž', 'ăâîşţ', 'äöüß']],
  ['Windows-1251', ['абвгдежзийклмнопрстуфхцчшщъыьэюяё', 'абвгґдеєжзиіїйклмнопрстуфхцчшщьюя']],
];
const SAMPLE = 200_000;

/** The code page under which most of what stands in words are letters of one language; the Western one where two tie. */
function guessPage(bytes: Uint8Array): Encoding {
  const sample = bytes.subarray(0, SAMPLE);
  let best: { encoding: Encoding; share: number } = { encoding: 'Windows-1252', share: 0 };
  for (const [encoding, alphabets] of ALPHABETS) {
    const letters = lettersInWords(decodeAs(sample, encoding), sample);
    for (const alphabet of alphabets) {
      let own = 0;
      for (const [letter, times] of letters.found) if (alphabet.includes(letter)) own += times;
      const share = letters.all === 0 ? 0 : own / letters.all;
      if (share > best.share + 0.001) best = { encoding, share };
    }
  }
  return best.encoding;
}

/** How often each character beyond ASCII touches a letter; what stands alone is a sign and tells nothing. */
function lettersInWords(text: string, bytes: Uint8Array): { all: number; found: Map<string, number> } {
  const found = new Map<string, number>();
  let all = 0;
  const touches = (i: number) => {
    const code = bytes[i] ?? 0;
    return code >= 0x80 || (code >= 0x41 && code <= 0x5a) || (code >= 0x61 && code <= 0x7a);
  };
  for (let i = 0; i < bytes.length; i += 1) {
    if (bytes[i]! < 0x80 || !(touches(i - 1) || touches(i + 1))) continue;
    const letter = text[i]!.toLowerCase();
    found.set(letter, (found.get(letter) ?? 0) + 1);
    all += 1;
  }
  return { all, found };
}

/**
 * UTF-16 whose byte order mark was lost: only ever the upper byte of a pair is zero, and it is zero in many pairs, since
 * figures, blanks and line ends have it so in every script.
 */
function wideWithoutMark(bytes: Uint8Array): 'UTF-16LE' | 'UTF-16BE' | null {
  const head = bytes.subarray(0, 4000);
  if (head.length < 4) return null;
  let even = 0;
  let odd = 0;
  head.forEach((byte, i) => {
    if (byte !== 0) return;
    if (i % 2 === 0) even += 1;
    else odd += 1;
  });
  // One stray zero is no second byte of anything: a line's end has to be written so as well.
  const endsLine = (upper: 0 | 1) =>
    head.some((byte, i) => i % 2 !== upper && (byte === 10 || byte === 13) && head[upper === 1 ? i + 1 : i - 1] === 0);
  const most = (head.length / 2) * 0.1;
  if (odd >= most && even === 0 && endsLine(1)) return 'UTF-16LE';
  return even >= most && odd === 0 && endsLine(0) ? 'UTF-16BE' : null;
}
