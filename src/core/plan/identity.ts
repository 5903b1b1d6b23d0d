// Names to ids: ids of places are made and taken apart here and nowhere else.
import { nameToKey } from '../trade/names.ts';

declare const tag: unique symbol;

/**
 * The tag is optional and never there: a text that was read, parsed or written down in a test is an id without a cast,
 * while an id of one kind is refused where another kind is wanted.
 */
type Id<Of extends string> = string & { readonly [tag]?: Of };

/** A jack, a rack position, a whole face of a rack, a loose end, or a unit as a whole (settings, hazards, photos). */
export type PlaceId = Id<'place' | 'unit'>;
export type UnitId = Id<'unit'>;
export type RackId = Id<'rack'>;
export type CableId = Id<'cable'>;
export type EventId = Id<'event'>;
export type AuditId = Id<'audit'>;

const LOOSE = '~';
const SLOT = '@';

/** Id of a jack: `unit key/jack key`; the slash cannot occur in a key. */
export function jackToPlace(unitId: UnitId, jackLabel: string): PlaceId {
  return jackOnUnit(unitId, nameToKey(jackLabel));
}

/** The same from the key of a jack, as `placeToParts` gives it. */
export function jackOnUnit(unitId: UnitId, jackKey: string): PlaceId {
  return `${unitId}/${jackKey}`;
}

/** Id of a rack position, for sightings of units: `@R2/U26`. */
export function slotToPlace(rackId: RackId, u: number): PlaceId {
  return `${SLOT}${rackId}/U${u}`;
}

/** Id of a whole face of a rack, for photos of it: `@R2/U0` is the front, `@R2/U-1` the rear. */
export function rackFaceToPlace(rackId: RackId, face: 'front' | 'rear'): PlaceId {
  return slotToPlace(rackId, face === 'front' ? 0 : -1);
}

/** Id of a place in words, for loose ends: `~TRAY-OF-R2`. */
export function looseToPlace(words: string): PlaceId {
  return `${LOOSE}${nameToKey(words)}`;
}

type PlaceParts =
  | { type: 'jack'; unit: UnitId; jack: string }
  | { type: 'unit'; unit: UnitId }
  | { type: 'slot'; rack: RackId; u: number }
  | { type: 'loose'; words: string };

/** Takes a place id apart. */
export function placeToParts(place: PlaceId): PlaceParts {
  if (isLooseEnd(place)) return { type: 'loose', words: place.slice(1) };
  const text: string = place;
  const slash = text.lastIndexOf('/');
  if (isSlot(place)) return { type: 'slot', rack: text.slice(1, slash), u: Number(text.slice(slash + 2)) };
  if (slash < 0) return { type: 'unit', unit: text };
  return { type: 'jack', unit: text.slice(0, slash), jack: text.slice(slash + 1) };
}

/** A position or a face of a rack. */
export function isSlot(place: PlaceId): boolean {
  return place.startsWith(SLOT);
}

export function isLooseEnd(place: PlaceId): boolean {
  return place.startsWith(LOOSE);
}

/** A jack or landing of a unit: the only places that a plan can name. */
export function isJack(place: PlaceId): boolean {
  return place.includes('/') && !isSlot(place) && !isLooseEnd(place);
}

/** A unit as a whole. */
export function isUnit(place: PlaceId): place is UnitId {
  return !place.includes('/') && !isLooseEnd(place);
}

/** The unit that a jack is on; empty for all other places, so that two of them are never on one unit. */
export function unitOf(place: PlaceId): UnitId {
  return isJack(place) ? place.slice(0, place.lastIndexOf('/')) : '';
}

/** Key of a jack on its unit, for whoever has no label of it. */
export function jackOf(place: PlaceId): string {
  return place.slice(place.lastIndexOf('/') + 1);
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
