// Twins for the walk: the next number, where one is still wanted at the jack just spoken about, the ones that wait for
// their other end, nearest first, and numbers given twice.

import { isSlot, type PlaceId, placeToParts, type RackId, type UnitId } from '../../plan/identity.ts';
import { lookUp } from '../../plan/lookUp.ts';
import { roomOfUnit } from '../../plan/planIndex.ts';
import { needsNoLabel } from '../../rules/adapters.ts';
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
  twinToNumber,
} from '../../rules/numbers.ts';

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
          places: places.map((one) => ({ place: one, words: fold.wordsOf(one), upon: uponAt(fold, one) })),
        })),
    })),
    foreign: blocksOf([fold, ...others.filter((other) => other !== fold)])
      .filter((block) => block.log !== log)
      .map(({ payload: { prefix, first, last, digits } }) => ({ prefix, first, last, digits })),
  };
}

function offerAt(fold: Fold, place: PlaceId): TwinsView['offer'] {
  return isBare(fold, place) ? { place, words: fold.wordsOf(place), upon: uponAt(fold, place) } : null;
}

/** The plug bears nothing that can be read, and no label at a far end that was followed tells its cable. */
function isBare(fold: Fold, place: PlaceId): boolean {
  const state = fold.stateAt(place);
  if (isSlot(place) || (state.type !== 'unlabelled' && state.type !== 'illegible')) return false;
  return !needsNoLabel(fold, place, state) && fold.joined(place).every((far) => fold.readingsAt(far).length === 0);
}

/** A temporary number read while one is offered at a place: the label to put there, and the end known to bear it. */
export interface TwinOnto {
  text: string;
  upon: string[];
  other: string | null;
}

/** Null where the number is no temporary one here: the plan has it, no label may be put, or nothing is wanted. */
export function twinOnto(fold: Fold, place: PlaceId, text: string, log: string): TwinOnto | null {
  const offer = fold.permission === 'look' ? null : offerAt(fold, place);
  const n = twinToNumber(text);
  if (!offer || n === null || lookUp(fold.index.names, text, 'cable').type !== 'none') return null;
  const written = numberToText({ prefix: TWIN_PREFIX, digits: TWIN_DIGITS }, n);
  const ends = twinsOf(fold).filter((twin) => twinToNumber(twin.text) === n);
  const twice = duplicateNumbers(fold).find((one) => twinToNumber(one.text) === n);
  // Of two cables with one number it can only be the one that this phone gave.
  const own = twice ? twice.issuers.find((giver) => giver.log === log)?.places : ends[0]?.places;
  return { text: ends[0]?.text ?? written, upon: offer.upon, other: own?.[0] ?? null };
}

function uponAt(fold: Fold, place: PlaceId): string[] {
  return fold.stateAt(place).looks.map(({ event }) => event);
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
