// Phantom power in words: whether a text says that it is on or off, and what must never meet it. P48 is 48 V through two
// equal resistors of 6.8 kΩ onto both signal wires of a balanced input (IEC 61938); a ribbon, an unbalanced source and a
// line output are not made for it (trade practice, see the cautions in hazards.ts).

/** What phantom power harms or may harm. */
export type PhantomVictim = 'ribbon' | 'unbalanced' | 'line';

const NAMED = String.raw`(?:\+\s?48\s?v?(?:olts?)?|\b48\s?v(?:olts?)?|\bp\s?48|\bphantom(?:\s?(?:power|supply))?)`;
const ON = String.raw`(?:on|yes|enabled)`;
const OFF = String.raw`(?:off|no|none|disabled)`;
/** Between the name and what it is: `phantom: off`, `+48V = on`, `48V (off)`. */
const SAYS = new RegExp(String.raw`(?:(${NAMED})\s*[:=(]?\s*(${ON}|${OFF})\b|\b(${OFF}|without)\s+(${NAMED}))`, 'i');
const BARE = new RegExp(String.raw`^${NAMED}$`, 'i');
const WORD_ON = new RegExp(String.raw`^(?:${ON}|y|1|true|✓|✔)$`, 'i');
const WORD_OFF = new RegExp(String.raw`^(?:${OFF}|n|0|false|-+|[–—]+)$`, 'i');

/** A cell, a page or a person that answers whether phantom is on; null for a text that does not tell. */
export function textToPhantom(text: string): 'on' | 'off' | null {
  const said = text.trim();
  if (WORD_ON.test(said) || BARE.test(said)) return 'on';
  if (WORD_OFF.test(said)) return 'off';
  return phantomIn(said)?.value ?? null;
}

/** Phantom told among other words: `ribbon, 48V OFF!`. A bare `48 V` there may be any supply and tells nothing. */
export function phantomIn(text: string): { value: 'on' | 'off'; said: string } | null {
  const found = SAYS.exec(text);
  if (!found) return null;
  const isOn = found[2] !== undefined && new RegExp(`^${ON}$`, 'i').test(found[2]);
  return { value: isOn ? 'on' : 'off', said: found[0] };
}

/** Does the text name a ribbon microphone? A flat ribbon cable, or the ribbon of a printer, is none. */
export function saysRibbon(text: string | undefined): boolean {
  return text !== undefined && /\bribbon\b(?!\s*(?:cable|lead|connector|header|label|printer))/i.test(text);
}

/** Plugs and words that tell an unbalanced source. */
export function saysUnbalanced(text: string | undefined): boolean {
  return (
    text !== undefined && /\bunbal(?:anced)?\b|\brca\b|\bphono\b|\bcinch\b|\bmini-?jack\b|\b3[.,]5\s?mm\b/i.test(text)
  );
}
