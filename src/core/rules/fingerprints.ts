// Short, stable names for facts and stories, so that an event can say on what somebody judged without growing past its
// limit. The same facts give the same keys on every phone; nothing here is secret or secure.

/** A story of a thousand cables has a name of a thousand labels; past this length it is cut and its sum put behind. */
const LONGEST_KEY = 400;

/** The key of a cause or difference by its id; the id itself wherever it is short. */
export function idToFingerprint(id: string): string {
  return id.length <= LONGEST_KEY ? id : `${id.slice(0, LONGEST_KEY - 10)} #${fingerprint(id)}`;
}

/** FNV-1a with 32 bits (draft-eastlake-fnv) over UTF-16 units, as eight hex digits. Two facts of one audit hardly ever share it. */
export function fingerprint(id: string): string {
  return fingerprintSum(id).toString(16).padStart(8, '0');
}

export function fingerprintSum(id: string): number {
  let sum = 0x811c9dc5;
  for (let i = 0; i < id.length; i++) sum = Math.imul(sum ^ id.charCodeAt(i), 0x01000193);
  return sum >>> 0;
}
