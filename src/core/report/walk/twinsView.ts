// Twins for the walk: the next number, where one is still wanted at the jack just spoken about, the ones that wait for
// their other end, nearest first, and numbers given twice.

import type { PlaceId, RackId, UnitId } from '../../plan/identity.ts';
import { placeToParts } from '../../plan/identity.ts';
import { roomOfUnit } from '../../plan/planIndex.ts';
import type { Fold } from '../../rules/fold.ts';
import {
  type Block,
  blocksOf,
  duplicateNumbers,
  type NextNumber,
  nextNumber,
  numberToText,
  TWIN_DIGITS,
  TWIN_PREFIX,
  twinsOf,
} from '../../rules/numbers.ts';
import { isBare, looksUpon } from '../../walk/twinOnto.ts';

export interface TwinLine {
  text: string;
  places: { place: PlaceId; words: string }[];
}

export interface TwinsView {
  next: NextNumber;
  /** The plug at the place asked about bears nothing that can be read: a twin may be put on it. */
  offer: { place: PlaceId; words: string; upon: string[] } | null;
  /** Plugs that bear nothing and have no number yet, nearest first; `owedCount` tells of all. */
  owed: { place: PlaceId; words: string }[];
  owedCount: number;
  /** One end known, nearest to the place asked about first. */
  open: TwinLine[];
  both: TwinLine[];
  given: {
    text: string;
    /** First the one to change: with fewer labels stuck, or given later. */
    issuers: { author: string; at: number; places: { place: PlaceId; words: string; upon: string[] }[] }[];
    /** Places in words where nothing tells which of the cables it is. */
    unclear: string[];
  }[];
  /** Blocks of other logs: a printed strip that this phone is to give out keeps clear of them. */
  foreign: Block[];
}

const SHOWN = 60;

/**
 * @param log This phone's log; a block of numbers belongs to it alone.
 * @param others The station's other audits.
 */
export function twinsView(fold: Fold, place: PlaceId | null, log: string, others: readonly Fold[] = []): TwinsView {
  const line = ({ text, places }: { text: string; places: PlaceId[] }): TwinLine => ({
    text,
    places: places.map((one) => ({ place: one, words: fold.wordsOf(one) })),
  });
  const twins = twinsOf(fold);
  const bare = [...fold.seenPlaces()].filter((one) => isBare(fold, one));
  const near = (one: { places: PlaceId[] }) => distance(fold, place, one.places[0] ?? '');
  return {
    next: nextNumber(fold, log, others),
    offer: place === null ? null : offerAt(fold, place),
    owed: bare
      .map((one) => ({ place: one, far: distance(fold, place, one) }))
      .sort((a, b) => a.far - b.far || (a.place < b.place ? -1 : 1))
      .slice(0, SHOWN)
      .map((one) => ({ place: one.place, words: fold.wordsOf(one.place) })),
    owedCount: bare.length,
    open: twins
      .filter(({ places }) => places.length === 1)
      .sort((a, b) => near(a) - near(b))
      .map(line),
    both: twins.filter(({ places }) => places.length > 1).map(line),
    given: duplicateNumbers(fold).map(({ text, issuers, unclear }) => ({
      text,
      unclear: unclear.map((one) => fold.wordsOf(one)),
      issuers: [...issuers]
        .sort((a, b) => a.places.length - b.places.length || b.at - a.at || (a.log < b.log ? 1 : -1))
        .map(({ author, at, places }) => ({
          author,
          at,
          places: places.map((one) => ({ place: one, words: fold.wordsOf(one), upon: looksUpon(fold, one) })),
        })),
    })),
    foreign: blocksOf([fold, ...others.filter((other) => other !== fold)])
      .filter((block) => block.log !== log)
      .map(({ payload: { prefix, first, last, digits } }) => ({ prefix, first, last, digits })),
  };
}

function offerAt(fold: Fold, place: PlaceId): TwinsView['offer'] {
  return isBare(fold, place) ? { place, words: fold.wordsOf(place), upon: looksUpon(fold, place) } : null;
}

/** 0 on the same unit, 1 in the same rack, 2 in the same room, 3 elsewhere. */
export function distance(fold: Fold, from: string | null, to: string): number {
  return from === null ? 3 : apart(homeOf(fold, from), homeOf(fold, to));
}

export interface Home {
  unit: UnitId;
  rack: RackId | undefined;
  room: string | null;
}

/** What tells how far a place is from others; null for a loose end or a unit that nobody described. */
export function homeOf({ index }: Fold, place: PlaceId): Home | null {
  const parts = placeToParts(place);
  const unit = parts.type === 'jack' ? index.units.get(parts.unit) : undefined;
  return unit ? { unit: unit.id, rack: unit.rack, room: roomOfUnit(index, unit) } : null;
}

/** The steps of `distance`, for many places against each other. */
export function apart(a: Home | null, b: Home | null): number {
  if (!a || !b) return 3;
  if (a.unit === b.unit) return 0;
  if (a.rack !== undefined && a.rack === b.rack) return 1;
  return a.room !== null && a.room === b.room ? 2 : 3;
}

/** Numbers of a printed strip, each to be printed twice. */
export function stripOf(first: number, count: number): string[] {
  return Array.from({ length: count }, (_, i) => numberToText({ prefix: TWIN_PREFIX, digits: TWIN_DIGITS }, first + i));
}
