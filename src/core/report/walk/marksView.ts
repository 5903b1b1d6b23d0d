// Jackets and metre marks for the walk and the report: what is written down at a jack, which end it fits and how sure
// that is. It tells an estimate and joins nothing; what it says is never a finding.

import type { EventId, PlaceId } from '../../plan/identity.ts';
import { rackOfPlace } from '../../plan/planIndex.ts';
import type { MarkUnit } from '../../record/events.ts';
import type { Fold } from '../../rules/fold.ts';
import { agreedJacket, type JacketReading, jacketsByPlace, printToKey } from '../../rules/jackets.ts';
import { type EndPairing, limitOf, looseJackets, pairEnds } from '../../rules/pairing.ts';
import {
  betweenMarks,
  certaintyToWords,
  fitsToWords,
  lengthToWords,
  marksToWords,
  onlyMarks,
  printedToWords,
  samePrintToWords,
  undecidedToWords,
} from '../words/markWords.ts';
import { apart, homeOf } from './twinsView.ts';

export interface MarkedEnd {
  place: PlaceId;
  /** With its rack, for whoever has to find it. */
  words: string;
  /** As the walk says it. */
  said: string;
  /** Looks that say what is there now; a label put on answers these. */
  upon: string[];
  /** Bears nothing that can be read: a twin may be put on it. */
  bare: boolean;
  /** Temporary number that stands here and nowhere else. */
  twin: string | null;
}

export interface MarksHere {
  end: MarkedEnd;
  /** Every reading that stands here; two that differ are both told. */
  readings: JacketReading[];
  differ: boolean;
  /** Which end it fits; null where nothing can be said. */
  fits: { line: string; certainty: Certainty; far: MarkedEnd | null } | null;
}
export type Certainty = 'probable' | 'possible' | 'undecided';

export interface MarksPair {
  certainty: Certainty;
  places: { place: PlaceId; words: string }[];
  /** What may be one cable, and why it is not more than that. */
  line: string;
  /** What is printed there, for whoever was not. */
  evidence: EventId;
}

export interface MarksView {
  /** Of the places asked about, those with a jacket on record. */
  here: MarksHere[];
  /** Prints already written in this audit, exactly, the latest first, with the unit of their marks. */
  prints: { print: string; unit: MarkUnit }[];
  /** Probable pairs first, then the possible, then ends of one print that cannot be told apart. */
  pairs: MarksPair[];
}

const PRINTS_SHOWN = 6;

export function marksView(fold: Fold, places: readonly PlaceId[]): MarksView {
  const jackets = jacketsByPlace(fold);
  const pairings = pairingsOf(fold);
  const byPlace = new Map(pairings.map((one) => [one.place, one]));
  return {
    here: [...new Set(places)].flatMap((place) => {
      const readings = jackets.get(place);
      return readings ? [hereAt(fold, place, readings, byPlace)] : [];
    }),
    prints: printsOf(jackets),
    pairs: pairsIn(fold, pairings),
  };
}

/** What jackets and marks leave to prove, for the report. */
export function marksLeft(fold: Fold): MarksPair[] {
  return pairsIn(fold, pairingsOf(fold));
}

function pairingsOf(fold: Fold): EndPairing[] {
  // Most audits have none: they pay nothing.
  if (fold.of('jacket-read').length === 0) return [];
  const ends = looseJackets(fold);
  const homes = new Map(ends.map(({ place }) => [place, homeOf(fold, place)]));
  return pairEnds(ends, (a, b) => apart(homes.get(a) ?? null, homes.get(b) ?? null), limitOf(fold));
}

function hereAt(
  fold: Fold,
  place: PlaceId,
  readings: JacketReading[],
  byPlace: ReadonlyMap<string, EndPairing>,
): MarksHere {
  const pairing = byPlace.get(place);
  const far = pairing?.partner && byPlace.get(pairing.partner.place);
  const base = {
    end: endAt(fold, place, pairing?.twin ?? null),
    readings,
    differ: agreedJacket(readings) === null,
  };
  if (pairing?.partner && far) {
    const { certainty, metres } = pairing.partner;
    const fits = fitsToWords(wordsOf(fold, far.place), far.twin, lengthToWords(metres, pairing.unit));
    const line = `${fits} ${certaintyToWords(certainty, pairing.shared)}`;
    return { ...base, fits: { line, certainty, far: endAt(fold, far.place, far.twin) } };
  }
  if (!pairing || pairing.fitting === 0) return { ...base, fits: null };
  const { shared, candidates, fitting, unit } = pairing;
  const ends = candidates.map((one) => ({ length: lengthToWords(one.metres, unit), words: wordsOf(fold, one.place) }));
  return { ...base, fits: { line: undecidedToWords(shared, ends, fitting), certainty: 'undecided', far: null } };
}

function endAt(fold: Fold, place: PlaceId, twin: string | null): MarkedEnd {
  const { type, looks } = fold.stateAt(place);
  return {
    place,
    words: wordsOf(fold, place),
    said: fold.wordsOf(place),
    upon: looks.map(({ event }) => event),
    bare: type === 'unlabelled' || type === 'illegible',
    twin,
  };
}

/** `R1 SW1 P07`: the other end is looked for from another rack. */
function wordsOf(fold: Fold, place: PlaceId): string {
  const rack = rackOfPlace(fold.index, place);
  return [rack && (fold.index.racks.get(rack)?.label ?? rack), fold.wordsOf(place)].filter(Boolean).join(' ');
}

function printsOf(jackets: ReadonlyMap<string, readonly JacketReading[]>): MarksView['prints'] {
  const latest = new Map<string, JacketReading>();
  for (const reading of [...jackets.values()].flat().sort((a, b) => b.at - a.at || (a.event < b.event ? -1 : 1))) {
    const key = printToKey(reading.print);
    if (!latest.has(key)) latest.set(key, reading);
  }
  return [...latest.values()].slice(0, PRINTS_SHOWN).map(({ print, unit }) => ({ print, unit }));
}

const ORDER: readonly Certainty[] = ['probable', 'possible', 'undecided'];

function pairsIn(fold: Fold, pairings: readonly EndPairing[]): MarksPair[] {
  const ends = (places: readonly PlaceId[]) => places.map((place) => ({ place, words: wordsOf(fold, place) }));
  const byPlace = new Map(pairings.map((one) => [one.place, one]));
  const pairs: MarksPair[] = [];
  const undecided = new Map<string, EndPairing[]>();
  for (const one of pairings) {
    if (one.partner) {
      // Told once, from the end that comes first.
      if (one.place > one.partner.place) continue;
      const { certainty, metres } = one.partner;
      const line = `${betweenMarks(lengthToWords(metres, one.unit))} ${certaintyToWords(certainty, one.shared)}`;
      const places = [one.place, one.partner.place];
      const marks = marksToWords(places.flatMap((place) => byPlace.get(place) ?? []));
      pairs.push({ certainty, places: ends(places), line, evidence: printedToWords(one.print, marks) });
    } else if (one.fitting > 0) {
      const key = `${one.unit} ${printToKey(one.print)}`;
      undecided.set(key, [...(undecided.get(key) ?? []), one]);
    }
  }
  for (const group of undecided.values()) {
    const [first] = group;
    if (!first) continue;
    const places = ends(group.map(({ place }) => place));
    const line = samePrintToWords(first.shared, first.print, group.length > 1);
    pairs.push({ certainty: 'undecided', places, line, evidence: onlyMarks(marksToWords(group)) });
  }
  return pairs.sort((a, b) => ORDER.indexOf(a.certainty) - ORDER.indexOf(b.certainty));
}
