// Names to ids: ids of places are made and taken apart here and nowhere else.
import { nameToKey } from '../trade/names.ts';

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
