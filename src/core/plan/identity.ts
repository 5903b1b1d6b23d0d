// Names to ids. The key is the only folding that identity ever does; lenient matching is look-up only (lookUp.ts).

/** Unicode spaces, dashes, underscores, slashes, dots, commas, colons: one run of them is one separator. */
const SEPARATORS = /[\s\p{Pd}_/\\.,:;]+/gu;

/**
 * The comparison key of a name: NFKC, upper case, each run of separators as one `-`. Nothing else is folded, so
 * `I1` and `11`, `0101` and `101` keep apart. A sign in front (`-48V`) stays.
 */
export function nameToKey(name: string): string {
  // Most names are plain letters and figures, and a schedule has a hundred thousand of them.
  if (/^[A-Za-z0-9]+$/.test(name)) return name.toUpperCase();
  return name.normalize('NFKC').trim().toUpperCase().replace(SEPARATORS, '-');
}

/**
 * A form for look-up only: the key with no separator beside a letter, so that `AIO-21`, `AIO 21` and `aio21` are one.
 * Between digits it stays: `1-1` is not `11`.
 */
export function nameToLoose(name: string): string {
  const key = nameToKey(name);
  if (!key.includes('-')) return key;
  return key.replace(/(?<=\p{L})-(?=[\p{L}\p{N}])/gu, '').replace(/(?<=\p{N})-(?=\p{L})/gu, '');
}

/** A form for look-up only: the key without separators, O read as 0, I and L as 1, leading zeros dropped. */
export function nameToFolded(name: string): string {
  const bare = nameToKey(name).replace(/-/g, '').replace(/O/g, '0').replace(/[IL]/g, '1');
  return bare.replace(/^0+(?=.)/, '');
}

/** Id of a jack: `unit key/jack key`; the slash cannot occur in a key. */
export function jackToPlace(unitId: string, jackLabel: string): string {
  return `${unitId}/${nameToKey(jackLabel)}`;
}

/** Id of a rack position, for sightings of units: `@R2/U26`. */
export function slotToPlace(rackId: string, u: number): string {
  return `@${rackId}/U${u}`;
}

/** Id of a whole face of a rack, for photos of it: `@R2/U0` is the front, `@R2/U-1` the rear. */
export function rackFaceToPlace(rackId: string, face: 'front' | 'rear'): string {
  return slotToPlace(rackId, face === 'front' ? 0 : -1);
}

/** Id of a place in words, for loose ends: `~TRAY-OF-R2`. */
export function looseToPlace(words: string): string {
  return `~${nameToKey(words)}`;
}

export type PlaceParts =
  | { type: 'jack'; unit: string; jack: string }
  | { type: 'slot'; rack: string; u: number }
  | { type: 'loose'; words: string };

/** Takes a place id apart; ids are made by the functions above and nowhere else. */
export function placeToParts(place: string): PlaceParts {
  const slash = place.lastIndexOf('/');
  if (place.startsWith('~')) return { type: 'loose', words: place.slice(1) };
  if (place.startsWith('@')) return { type: 'slot', rack: place.slice(1, slash), u: Number(place.slice(slash + 2)) };
  return { type: 'jack', unit: place.slice(0, slash), jack: place.slice(slash + 1) };
}

/**
 * Expands `P05` to `P24` into the labels between, both included, keeping the width of the number. Null when the two
 * do not differ in one trailing number, run backwards, or span more than 512 jacks.
 */
export function expandRange(from: string, to: string): string[] | null {
  const a = /^(.*?)(\d+)$/.exec(from.trim());
  const b = /^(.*?)(\d+)$/.exec(to.trim());
  if (!a || !b) return null;
  const [, prefixA = '', digitsA = ''] = a;
  const [, prefixB = '', digitsB = ''] = b;
  if (prefixB !== '' && nameToKey(prefixA) !== nameToKey(prefixB)) return null;
  // `1-002` is number 2 of rack 1.
  if (digitsB.startsWith('0') && digitsB.length > digitsA.length) return null;
  const first = Number(digitsA);
  const last = Number(digitsB);
  if (last < first || last - first >= 512) return null;
  const width = digitsA.startsWith('0') || digitsA.length === digitsB.length ? digitsA.length : 0;
  return Array.from({ length: last - first + 1 }, (_, i) => prefixA + String(first + i).padStart(width, '0'));
}
