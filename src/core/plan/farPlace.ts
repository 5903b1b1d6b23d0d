// A far place as a person types it, matched as labels are: exactly, by key, folded. One that nobody knows, or that fits
// several, is asked with the nearest known ones beside it; nothing is chosen here and nothing is refused.
import { nameToFolded, nameToKey, nameToLoose } from '../trade/names.ts';
import { looseToPlace, type PlaceId, placeToParts } from './identity.ts';
import type { Jack, Unit } from './model.ts';
import { type PlanIndex, placeToWords, roomOfUnit } from './planIndex.ts';
import { planToPlaceNames, textToPlaces } from './saidPlace.ts';

interface OfferedPlace {
  place: PlaceId;
  words: string;
  /** Rack or room, so that two units of one name are told apart. */
  where: string | null;
}

export type FarPlace =
  | { type: 'found'; place: PlaceId; words: string }
  | {
      type: 'ask';
      /** What is wrong: it fits several places, the unit has no such jack, nobody knows the unit, the rack is not so high. */
      why: 'several' | 'no-such-jack' | 'no-such-unit' | 'outside-rack';
      /** The unit or rack that was understood. */
      known: string | null;
      offers: OfferedPlace[];
      /** The place in the words as typed, for whoever knows better. */
      kept: { place: PlaceId; words: string };
    }
  | { type: 'unreadable' };

/** More than these are no help to somebody with a cable in the hand. */
const OFFERED = 6;

/** @param isKnown Somebody spoke about the place already: then it is known, whatever the plan says. */
export function textToFarPlace(index: PlanIndex, text: string, isKnown: (place: PlaceId) => boolean): FarPlace {
  const said = textToPlaces(text, planToPlaceNames(index.plan));
  // `SW2P15` has no blank between unit and jack, and may be a jack all the same.
  const isOneWord = said.type === 'unreadable' && nameToKey(text) !== '';
  const [place] =
    said.type === 'places' && said.places.length === 1 ? said.places : isOneWord ? [looseToPlace(text)] : [];
  if (place === undefined) return { type: 'unreadable' };
  const parts = placeToParts(place);
  const kept = { place, words: text.trim() };
  if (parts.type === 'loose' && !isOneWord) return { type: 'found', ...kept };
  if (parts.type === 'slot') {
    const rack = index.racks.get(parts.rack);
    const isInside = rack === undefined || (parts.u >= 1 && parts.u <= rack.heightU);
    if (isInside) return { type: 'found', place, words: placeToWords(index, place) };
    return { type: 'ask', why: 'outside-rack', known: rack.label, offers: [], kept };
  }
  const level = (['exact', 'key', 'folded'] as const).map((how) => jacksNamed(index, text, how));
  const found = level.find((ids) => ids.length > 0) ?? [];
  const [only] = found;
  if (only !== undefined && found.length === 1) return { type: 'found', place: only, words: placeToWords(index, only) };
  if (found.length > 1) return { type: 'ask', why: 'several', known: null, offers: toOffers(index, found), kept };
  if (isOneWord) return { type: 'unreadable' };
  if (isKnown(place) || index.endsAt.has(place)) return { type: 'found', place, words: placeToWords(index, place) };
  return toQuestion(index, text, kept);
}

/** Jacks whose unit and name the text gives at this level; figures may lack their leading zeros only at the last one. */
function jacksNamed(index: PlanIndex, text: string, how: 'exact' | 'key' | 'folded'): string[] {
  const ids = new Set(index.names.jacks.find(text, how).map(({ id }) => id));
  if (how === 'folded') {
    for (const { unit, jack } of splits(index, text)) {
      const wanted = foldNumbers(jack);
      for (const one of index.jacksOf.get(unit.id) ?? []) if (foldNumbers(one.label) === wanted) ids.add(one.id);
    }
  }
  return [...ids];
}

/** `P5` and `P05` are one here. */
function foldNumbers(label: string): string {
  return nameToFolded(label).replace(/(?<!\d)0+(?=\d)/g, '');
}

/** Every way in which the text begins with the name of a known unit, the longest name first. */
function splits(index: PlanIndex, text: string): { unit: Unit; jack: string }[] {
  const words = text.trim().split(/\s+/);
  for (let length = words.length - 1; length >= 1; length -= 1) {
    const name = words.slice(0, length).join(' ');
    const jack = words.slice(length).join(' ');
    for (const form of [nameToKey, nameToLoose, nameToFolded]) {
      const wanted = form(name);
      const units = index.plan.units.filter(({ label }) => form(label) === wanted);
      if (units.length > 0) return units.map((unit) => ({ unit, jack }));
    }
  }
  return [];
}

function toQuestion(index: PlanIndex, text: string, kept: { place: PlaceId; words: string }): FarPlace {
  const [first, ...more] = splits(index, text);
  if (first) {
    const offers = [first, ...more].flatMap(({ unit, jack }) => nearestJacks(index, unit, jack));
    return { type: 'ask', why: 'no-such-jack', known: first.unit.label, offers: toOffers(index, offers), kept };
  }
  const [unitText = '', jack = ''] = /^(.*\S)\s+(\S+)$/s.exec(text.trim())?.slice(1) ?? [];
  const wanted = nameToFolded(unitText);
  const near = index.plan.units
    .map((unit) => ({ unit, far: distance(nameToFolded(unit.label), wanted, 2) }))
    .filter(({ far }) => far <= 2 && far < wanted.length)
    .sort((a, b) => a.far - b.far || (a.unit.id < b.unit.id ? -1 : 1));
  const offers = near.slice(0, OFFERED).flatMap(({ unit }) => nearestJacks(index, unit, jack).slice(0, 1));
  return { type: 'ask', why: 'no-such-unit', known: null, offers: toOffers(index, offers), kept };
}

/** Jacks of the unit with the same number first, then those whose name differs least. */
function nearestJacks(index: PlanIndex, unit: Unit, jack: string): string[] {
  const wanted = foldNumbers(jack);
  const number = numberOf(jack);
  const rank = ({ label }: Jack) => {
    const same = number !== null && numberOf(label) === number ? 0 : 1;
    const step =
      number === null ? Number.POSITIVE_INFINITY : Math.abs((numberOf(label) ?? Number.POSITIVE_INFINITY) - number);
    return { same, far: distance(foldNumbers(label), wanted, 8), step };
  };
  return [...(index.jacksOf.get(unit.id) ?? [])]
    .map((one) => ({ one, ...rank(one) }))
    .sort((a, b) => a.same - b.same || a.far - b.far || a.step - b.step || (a.one.id < b.one.id ? -1 : 1))
    .slice(0, OFFERED)
    .map(({ one }) => one.id);
}

function numberOf(label: string): number | null {
  const digits = /\d+/.exec(label)?.[0];
  return digits === undefined ? null : Number(digits);
}

function toOffers(index: PlanIndex, places: readonly PlaceId[]): OfferedPlace[] {
  return [...new Set(places)].slice(0, OFFERED).map((place) => {
    const parts = placeToParts(place);
    const unit = parts.type === 'jack' ? index.units.get(parts.unit) : undefined;
    const rack = unit?.rack === undefined ? undefined : index.racks.get(unit.rack)?.label;
    return { place, words: placeToWords(index, place), where: (unit && (rack ?? roomOfUnit(index, unit))) ?? null };
  });
}

/** Letters that have to be put in, taken out or changed; no more than `most` are counted. */
function distance(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1)));
    row = next;
  }
  return Math.min(row[b.length]!, most + 1);
}
