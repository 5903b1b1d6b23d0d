// Owns what may be believed of a reading: nothing. Labels are text from strangers.
// Must never open, follow, fetch or interpret what was read; it only bounds it and makes a form fit to show.

/** Long enough for any label, short enough that no symbol can fill a screen or a database. */
export const CAP = 512;

type Sanitized = { text: string; show: string; cut?: { length: number } };

// Tab and line ends part words, so they become a space; every other control character vanishes.
const SPACE_LIKE = /[\t\n\v\f\r\u0085\u2028\u2029]+/gu;
// Control (Cc), format (Cf: zero-width, direction overrides, byte order mark) and whatever Unicode lists as drawing
// nothing by default (DI: fillers, variation selectors).
const UNSEEN = /\p{Cc}|\p{Cf}|\p{DI}/gu;
const LONE_SURROGATE = /\p{Cs}/gu;

/** `null` when there is nothing to see in the text. */
export function sanitize(raw: string): Sanitized | null {
  const text = raw.length > CAP ? cutAt(raw, CAP) : raw;
  const show = text
    .replace(SPACE_LIKE, ' ')
    .replace(UNSEEN, '')
    .replace(LONE_SURROGATE, '\uFFFD')
    .replace(/ {2,}/g, ' ')
    .trim();
  if (show === '') return null;
  return raw.length > CAP ? { text, show, cut: { length: raw.length } } : { text, show };
}

/** Never through the middle of a surrogate pair. */
function cutAt(text: string, cap: number): string {
  const last = text.charCodeAt(cap - 1);
  return text.slice(0, last >= 0xd800 && last <= 0xdbff ? cap - 1 : cap);
}
