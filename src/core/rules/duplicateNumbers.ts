// One number on several cables: which of its labels belong together, and who gave each cable its number. Derived from
// who put a label without knowing of another, free of order; it never guesses where nothing tells.

import type { PlaceId } from '../plan/identity.ts';
import type { EventOf } from '../record/events.ts';
import { nameToKey } from '../trade/names.ts';
import type { Fold } from './foldView.ts';

/** One cable of a number: who gave it, when, and the places where its labels stand. */
interface Issuer {
  log: string;
  author: string;
  at: number;
  places: PlaceId[];
}

/** One number that several logs gave: as many cables as issuers, never one with four ends. */
export interface DuplicateNumber {
  text: string;
  issuers: Issuer[];
  /** It stands here too, and nothing tells on which of the cables. */
  unclear: PlaceId[];
}

type Put = EventOf<'label-put'>;
type Claim = Pick<Issuer, 'log' | 'author' | 'at'>;

/** Every number that was given twice. @param temporary Tells a temporary number, which strips bear too. */
export function duplicateNumbersOf(fold: Fold, temporary: (text: string) => boolean): DuplicateNumber[] {
  const puts = new Map<string, { text: string; puts: Put[] }>();
  for (const event of fold.of('label-put')) {
    if (event.payload.why === 'rename') continue;
    const key = nameToKey(event.payload.text);
    const one = puts.get(key) ?? { text: event.payload.text, puts: [] };
    puts.set(key, one);
    one.puts.push(event);
  }
  for (const text of fold.unknownTexts()) {
    if (temporary(text) && !puts.has(nameToKey(text))) puts.set(nameToKey(text), { text, puts: [] });
  }
  return [...puts.values()].flatMap((one) => splitNumber(fold, one.text, one.puts) ?? []);
}

/** Which giver's cable at a place; null where the number was given once, or nothing tells. */
export function issuerAt(given: readonly DuplicateNumber[], text: string, place: PlaceId): string | null {
  const one = given.find((other) => nameToKey(other.text) === nameToKey(text));
  return one?.issuers.find(({ places }) => places.includes(place))?.log ?? null;
}

/** Where else the label of the cable at this place stands; of a number given twice only this cable's own labels. */
export function otherEnds(fold: Fold, text: string, place: PlaceId): { places: readonly PlaceId[]; twice: boolean } {
  const standing = fold.placesOfUnknown(text).filter((one) => one !== place);
  if (standing.length === 0) return { places: standing, twice: false };
  const key = nameToKey(text);
  const puts = fold
    .of('label-put')
    .filter(({ payload }) => payload.why !== 'rename' && nameToKey(payload.text) === key);
  const split = splitNumber(fold, text, puts);
  if (!split) return { places: standing, twice: false };
  const own = split.issuers.find(({ places }) => places.includes(place))?.places ?? [];
  return { places: own.filter((one) => one !== place), twice: true };
}

/** @param puts By time and id. */
function splitNumber(fold: Fold, text: string, puts: readonly Put[]): DuplicateNumber | null {
  const standing = fold.placesOfUnknown(text);
  if (standing.length < 2) return null;
  const cables = createGroups(standing);
  // A cable that was followed from one to the other is one cable, whoever gave what.
  for (const place of standing) for (const far of fold.joined(place)) cables.join(place, far);
  const claims = new Map<PlaceId, Claim>();
  const firstOf = new Map<string, PlaceId>();
  const claim = (place: PlaceId, { log, author, at }: Claim) => {
    if (!claims.has(place)) claims.set(place, { log, author, at });
    const first = firstOf.get(log);
    if (first === undefined) firstOf.set(log, place);
    else cables.join(first, place);
  };
  const here = puts.filter(({ payload }) => standing.includes(payload.place));
  for (const put of here) {
    const { place, other } = put.payload;
    // Whoever knew of the other end gave no number.
    if (other !== undefined && standing.includes(other)) cables.join(place, other);
    else claim(place, put);
  }
  const borne = new Set(here.map(({ payload }) => payload.place));
  for (const place of standing) {
    if (borne.has(place)) continue;
    // What was only read belongs to whom read it first, if that log gave the number; a strip gives none by itself.
    const [look] = fold.stateAt(place).looks;
    if (look && (here.length === 0 ? standing.length > 2 : firstOf.has(look.log))) claim(place, look);
  }
  const issuers = new Map<PlaceId, Issuer>();
  const unclear: PlaceId[] = [];
  for (const places of cables.all()) {
    const [first] = places
      .flatMap((place) => claims.get(place) ?? [])
      .sort((a, b) => a.at - b.at || (a.log < b.log ? -1 : 1));
    if (first) issuers.set(first.log, { ...first, places });
    else unclear.push(...places);
  }
  if (issuers.size < 2) return null;
  const byTime = [...issuers.values()].sort((a, b) => a.at - b.at || (a.log < b.log ? -1 : 1));
  return { text, issuers: byTime, unclear: unclear.sort() };
}

/** Places that belong to one cable, joined step by step; the result is the same in any order. */
function createGroups(places: readonly PlaceId[]) {
  const group = new Map(places.map((place) => [place, [place]]));
  return {
    join(a: PlaceId, b: PlaceId): void {
      const [one, other] = [group.get(a), group.get(b)];
      if (!one || !other || one === other) return;
      const both = [...one, ...other].sort();
      for (const place of both) group.set(place, both);
    },
    all: () => new Set(group.values()),
  };
}
