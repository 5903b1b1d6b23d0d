// Names in quotes inside the one-line notation of jacks: where one begins and ends, and how it is written. Any of the
// quotes that a keyboard puts in counts; one inside a name is doubled. What the names mean is not known here.

const QUOTE = /["“”„]/u;
/** Inside a name a quote is part of it, as in `1/4"`; it opens one only at the start of a word or of a range's end. */
const MAY_STAND_BEFORE = /[\s,;\-–.]/u;

/** A name as it stands between its quotes and what follows them; `open` when the closing one is missing. */
type Quoted = { text: string; after: string } | 'open' | null;

/** Reads the quoted name that a text begins with; null when it begins with none. */
export function readQuoted(text: string): Quoted {
  if (!QUOTE.test(text[0] ?? '')) return null;
  let name = '';
  for (let i = 1; i < text.length; i++) {
    const sign = text[i]!;
    if (!QUOTE.test(sign)) name += sign;
    else if (text[i + 1] === sign) {
      name += sign;
      i += 1;
    } else return { text: name, after: text.slice(i + 1) };
  }
  return 'open';
}

export function toQuoted(name: string): string {
  return `"${name.replace(new RegExp(QUOTE, 'gu'), (sign) => sign + sign)}"`;
}

/** `8 XLR + 1 RJ45`, `8 XLR and 1 RJ45`; not the two legs of `IN L + R`. */
const JOINED = /^\s(?:\+\s|(?:and|plus|&)\s+(?=\d))/iu;

/**
 * Parts between commas, semicolons, line ends and joining words that stand in no quotes and no brackets, with the place
 * where each begins.
 */
export function splitOutsideQuotes(text: string): { at: number; said: string }[] {
  const parts: { at: number; said: string }[] = [];
  let start = 0;
  const end = (to: number) => {
    const part = text.slice(start, to);
    if (part.trim() !== '') parts.push({ at: start + part.length - part.trimStart().length, said: part.trim() });
    start = to + 1;
  };
  for (let i = 0; i < text.length; i++) {
    const sign = text[i]!;
    const joined = /\s/u.test(sign) ? JOINED.exec(text.slice(i, i + 16)) : null;
    if (/[,;\n]/.test(sign)) end(i);
    else if (
      joined &&
      !(/\bL\s*$/iu.test(text.slice(start, i)) && /^\s*R\b/iu.test(text.slice(i + joined[0].length)))
    ) {
      end(i);
      i += joined[0].length - 1;
      start = i + 1;
    } else if (sign === '(') i += closedBracket(text.slice(i)) ?? 0;
    else if (QUOTE.test(sign) && (i === start || MAY_STAND_BEFORE.test(text[i - 1]!))) {
      const quoted = readQuoted(text.slice(i));
      // An open quote reaches to the end: what is in it is not known yet.
      i = quoted === 'open' || quoted === null ? text.length : text.length - quoted.after.length - 1;
    }
  }
  end(text.length);
  return parts;
}

/** How far behind an opening bracket its closing one stands; null when none does before the next one or a quote. */
function closedBracket(text: string): number | null {
  const closed = /^\([^()"“”„]*\)/u.exec(text);
  return closed ? closed[0].length - 1 : null;
}
