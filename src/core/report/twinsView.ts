// Twins for the walk: the next number, where one is still wanted at the jack just spoken about, the ones that wait for
// their other end, nearest first, and numbers given twice.
import type { Fold } from '../audit/fold.ts';
import {
  givenTwice,
  type NextNumber,
  nextNumber,
  numberToText,
  TWIN_DIGITS,
  TWIN_PREFIX,
  twinsOf,
} from '../audit/numbers.ts';
import { placeToParts } from '../plan/identity.ts';
import { roomOfUnit } from '../plan/planIndex.ts';

export interface TwinLine {
  text: string;
  places: { place: string; words: string }[];
}

export interface TwinsView {
  next: NextNumber;
  /** The plug at the place asked about bears nothing that can be read: a twin may be put on it. */
  offer: { place: string; words: string; upon: string[] } | null;
  /** One end known, nearest to the place asked about first. */
  open: TwinLine[];
  both: TwinLine[];
  given: {
    text: string;
    /** First the one to change: with fewer labels stuck, or given later. */
    givers: { author: string; at: number; places: { place: string; words: string; upon: string[] }[] }[];
    /** Places in words where nothing tells which of the cables it is. */
    unclear: string[];
  }[];
}

/** @param log This phone's log; a block of numbers belongs to it alone. */
export function twinsView(fold: Fold, place: string | null, log: string): TwinsView {
  const line = ({ text, places }: { text: string; places: string[] }): TwinLine => ({
    text,
    places: places.map((one) => ({ place: one, words: fold.wordsOf(one) })),
  });
  const twins = twinsOf(fold);
  const near = (one: { places: string[] }) => distance(fold, place, one.places[0] ?? '');
  return {
    next: nextNumber(fold, log),
    offer: place === null ? null : offerAt(fold, place),
    open: twins
      .filter(({ places }) => places.length === 1)
      .sort((a, b) => near(a) - near(b))
      .map(line),
    both: twins.filter(({ places }) => places.length > 1).map(line),
    given: givenTwice(fold).map(({ text, givers, unclear }) => ({
      text,
      unclear: unclear.map((one) => fold.wordsOf(one)),
      givers: [...givers]
        .sort((a, b) => a.places.length - b.places.length || b.at - a.at || (a.log < b.log ? 1 : -1))
        .map(({ author, at, places }) => ({
          author,
          at,
          places: places.map((one) => ({ place: one, words: fold.wordsOf(one), upon: uponAt(fold, one) })),
        })),
    })),
  };
}

function offerAt(fold: Fold, place: string): TwinsView['offer'] {
  const state = fold.stateAt(place);
  if (place.startsWith('@') || (state.type !== 'unlabelled' && state.type !== 'illegible')) return null;
  return { place, words: fold.wordsOf(place), upon: uponAt(fold, place) };
}

function uponAt(fold: Fold, place: string): string[] {
  return fold.stateAt(place).looks.map(({ event }) => event);
}

/** 0 on the same unit, 1 in the same rack, 2 in the same room, 3 elsewhere. */
export function distance(fold: Fold, from: string | null, to: string): number {
  const [a, b] = [from, to].map((place) => {
    const parts = place === null ? null : placeToParts(place);
    return parts?.type === 'jack' ? fold.index.units.get(parts.unit) : undefined;
  });
  if (!a || !b) return 3;
  if (a.id === b.id) return 0;
  if (a.rack !== undefined && a.rack === b.rack) return 1;
  const [here, there] = [roomOfUnit(fold.index, a), roomOfUnit(fold.index, b)];
  return here !== null && here === there ? 2 : 3;
}

/** Numbers of a printed strip, each to be printed twice. */
export function stripOf(first: number, count: number): string[] {
  return Array.from({ length: count }, (_, i) => numberToText({ prefix: TWIN_PREFIX, digits: TWIN_DIGITS }, first + i));
}
