// How a workbook's styles show a number, and what a number looks like under each. A name that a spreadsheet took for a
// number is told by that; nothing is calculated. ECMA-376 part 1, 18.8.30 (numFmt) and 18.17.4.1 (dates).
import { attributeOf, scanXml } from './xml.ts';

export type NumberLook =
  | { type: 'plain' }
  | { type: 'date' }
  | { type: 'time' }
  | { type: 'exponent' }
  /** Groups of figures with words between, such as `C-0000` or `000-000`: a number counts its figures. */
  | { type: 'zeros'; parts: (string | number)[] }
  /** So many figures behind the point, such as `0.00`. */
  | { type: 'decimals'; places: number }
  /** Words around the number, such as ` m` behind a length. */
  | { type: 'words'; before: string; after: string };

/** How each style shows a number, by its index. */
export function readStyles(xml: string): NumberLook[] {
  const formats = new Map<number, string>();
  const looks: NumberLook[] = [];
  let isCells = false;
  scanXml(xml, {
    open(name, attributes) {
      if (name === 'numFmt') {
        formats.set(Number(attributeOf(attributes, 'numFmtId')), attributeOf(attributes, 'formatCode') ?? '');
      } else if (name === 'cellXfs') isCells = true;
      else if (name === 'xf' && isCells) {
        const id = Number(attributeOf(attributes, 'numFmtId') ?? 0);
        looks.push(formatToLook(id, formats.get(id)));
      }
    },
    text: () => undefined,
    close(name) {
      if (name === 'cellXfs') isCells = false;
    },
  });
  return looks;
}

function formatToLook(id: number, format: string | undefined): NumberLook {
  if (format === undefined) {
    if ((id >= 18 && id <= 21) || (id >= 45 && id <= 47)) return { type: 'time' };
    if ((id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 50 && id <= 58)) return { type: 'date' };
    if (id === 11 || id === 48) return { type: 'exponent' };
    // Built-in formats with two decimals: 18.8.30.
    return id === 2 || id === 4 || id === 39 || id === 40 ? { type: 'decimals', places: 2 } : { type: 'plain' };
  }
  const tokens = firstSection(format);
  const signs = tokens.map(({ sign }) => sign).join('');
  if (/e[+-]/i.test(signs)) return { type: 'exponent' };
  if (/[dmyhs]/i.test(signs) && !/general/i.test(signs))
    return { type: /[hs]/i.test(signs) && !/[dy]/i.test(signs) ? 'time' : 'date' };
  if (/^0{1,15}$/.test(signs)) return zerosLook(tokens);
  const [, places = ''] = /^[#?0,]*0\.(0{1,15})$/.exec(tokens.map(({ sign, words }) => sign + words).join('')) ?? [];
  if (places !== '') return { type: 'decimals', places: places.length };
  const first = tokens.findIndex(({ sign }) => sign !== '');
  const last = tokens.findLastIndex(({ sign }) => sign !== '');
  const [before, after] = [tokens.slice(0, Math.max(0, first)), tokens.slice(last + 1)].map((some) =>
    some.map(({ words }) => words).join(''),
  );
  if (first < 0 || signs.includes('%') || `${before}${after}`.trim() === '') return { type: 'plain' };
  return { type: 'words', before: before ?? '', after: after ?? '' };
}

interface Token {
  /** A sign of the format, such as `0`; '' for words. */
  sign: string;
  words: string;
}

/** The section for positive numbers: signs, and words in quotes, behind a stroke, or that stand for themselves. */
function firstSection(format: string): Token[] {
  const tokens: Token[] = [];
  for (const [token] of format.matchAll(/"[^"]*"|\\.|\[[^\]]*\]|[_*].|./gsu)) {
    if (token === ';') break;
    if (token.startsWith('"')) tokens.push({ sign: '', words: token.slice(1, -1) });
    else if (token.startsWith('\\')) tokens.push({ sign: '', words: token.slice(1) });
    // `[h]` counts hours beyond a day; colours, conditions and languages show nothing.
    else if (/^\[[hms]+\]$/i.test(token)) tokens.push({ sign: 'h', words: '' });
    else if (/^[[_*]/.test(token)) continue;
    else if (/[-\s/():'!&~{}<>=$+]/.test(token) && !/e$/i.test(tokens.at(-1)?.sign ?? ''))
      tokens.push({ sign: '', words: token });
    else tokens.push({ sign: token, words: '' });
  }
  return tokens;
}

function zerosLook(tokens: readonly Token[]): NumberLook {
  const parts: (string | number)[] = [];
  for (const { sign, words } of tokens) {
    const last = parts.at(-1);
    if (sign === '') parts.push(words);
    else if (typeof last === 'number') parts[parts.length - 1] = last + 1;
    else parts.push(1);
  }
  return parts.length === 1 && parts[0] === 1 ? { type: 'plain' } : { type: 'zeros', parts };
}

/** The figures of a whole number in their groups; what is more than the format wants stands in the first of them. */
export function zerosToText(parts: readonly (string | number)[], value: string): string {
  let rest = value.padStart(
    parts.reduce<number>((sum, part) => (typeof part === 'number' ? sum + part : sum), 0),
    '0',
  );
  const firstGroup = parts.findIndex((part) => typeof part === 'number');
  return parts
    .map((part, i): [string | number, number] => [part, i])
    .reverse()
    .map(([part, i]) => {
      if (typeof part === 'string') return part;
      const figures = i === firstGroup ? rest : rest.slice(-part);
      rest = rest.slice(0, rest.length - figures.length);
      return figures;
    })
    .reverse()
    .join('');
}

/** Parts of a day as `1:12`, hours beyond a day counted on. */
export function serialToTime(serial: number): string {
  const seconds = Math.round(serial * 86_400);
  const two = (n: number) => String(n).padStart(2, '0');
  const rest = seconds % 60 === 0 ? '' : `:${two(seconds % 60)}`;
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}${rest}`;
}

/** Days since the end of 1899, with a 29 February 1900 that never was, or since 1 January 1904. */
export function serialToDate(serial: number, from1904: boolean): string {
  const days = from1904 ? serial + 1462 : serial < 60 ? serial + 1 : serial;
  const milliseconds = Math.round((days - 25_569) * 86_400_000);
  const date = new Date(milliseconds);
  if (Number.isNaN(date.getTime())) return String(serial);
  return date.toISOString().replace(/T00:00:00\.000Z$/, '');
}

/** A file holds `1.1000000000000001` for what a sheet shows as `1.1`. */
export function numberToText(value: string): string {
  return /^-?\d*\.\d{10,}$/.test(value) ? String(Number(value)) : value;
}
