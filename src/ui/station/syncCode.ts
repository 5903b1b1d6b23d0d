// The text inside a pairing code's symbol. A plain text with a mark in front, never an address that a phone would open.

const MARK = 'ASFOUND-PAIR:';

export function codeToText(code: string): string {
  return MARK + code;
}

/** The code out of what was typed or read: the mark goes, the rest stays for the server to judge. */
export function textToCode(text: string): string {
  const plain = text.trim();
  return plain.toUpperCase().startsWith(MARK) ? plain.slice(MARK.length).trim() : plain;
}
