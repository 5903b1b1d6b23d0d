// Jackets and metre marks for the walk and the report: what is written down at a jack, which end it fits and how sure
// that is, in sentences. It tells an estimate and joins nothing; what it says is never a finding.

import type { EventId, PlaceId } from '../../plan/identity.ts';
import { rackOfPlace } from '../../plan/planIndex.ts';
import type { MarkUnit } from '../../record/events.ts';
import type { Fold } from '../../rules/fold.ts';
import { agreedJacket, type JacketReading, jacketsByPlace, printToKey } from '../../rules/jackets.ts';
import { type EndCandidate, type EndPairing, limitOf, looseJackets, pairEnds } from '../../rules/pairing.ts';
import { METRES_PER_FOOT } from '../../trade/lengths.ts';
import { listed } from '../words/plain.ts';
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
const CANDIDATES_SHOWN = 3;
const PLACES_SHOWN = 6;

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
    const bears = far.twin === null ? '' : `, which has tag ${far.twin}`;
    const line =
      `Jacket and marks fit the end at ${wordsOf(fold, far.place)}${bears} ` +
      `(about ${lengthToWords(metres, pairing.unit)} of cable between the marks). ${surely(pairing)}`;
    return { ...base, fits: { line, certainty, far: endAt(fold, far.place, far.twin) } };
  }
  if (!pairing || pairing.fitting === 0) return { ...base, fits: null };
  const fits = { line: undecidedAt(fold, pairing), certainty: 'undecided' as const, far: null };
  return { ...base, fits };
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

/** "Probable." or "Possible", with what stands against more. */
function surely({ partner, shared }: EndPairing): string {
  if (partner?.certainty === 'probable') return 'Probable.';
  return shared > 2
    ? `Possible: ${shared} ends have this print, and this length suits its places best.`
    : 'Possible: the length is odd for these two places.';
}

function undecidedAt(fold: Fold, { shared, candidates, fitting, unit }: EndPairing): string {
  const give = (one: EndCandidate) => `${lengthToWords(one.metres, unit)} to ${wordsOf(fold, one.place)}`;
  const rest = fitting - Math.min(candidates.length, CANDIDATES_SHOWN);
  const more = rest > 0 ? ` and ${rest} more` : '';
  const given = candidates.slice(0, CANDIDATES_SHOWN).map(give).join(', ');
  return `${shared} ends have this print; the marks give ${given}${more}. They cannot show which one it is.`;
}

/** In whole metres or feet; below ten with one decimal where the marks have one. */
export function lengthToWords(metres: number, unit: MarkUnit): string {
  const round = (n: number) => String(n < 10 ? Math.round(n * 10) / 10 : Math.round(n));
  return unit === 'm' ? `${round(metres)} m` : `${round(metres / METRES_PER_FOOT)} ft (${round(metres)} m)`;
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
      const line = `About ${lengthToWords(one.partner.metres, one.unit)} of cable between the marks. ${surely(one)}`;
      const places = [one.place, one.partner.place];
      const evidence = `Printed: ${one.print}, ${marksAt(places.flatMap((place) => byPlace.get(place) ?? []))}.`;
      pairs.push({ certainty: one.partner.certainty, places: ends(places), line, evidence });
    } else if (one.fitting > 0) {
      const key = `${one.unit} ${printToKey(one.print)}`;
      undecided.set(key, [...(undecided.get(key) ?? []), one]);
    }
  }
  for (const group of undecided.values()) {
    const places = ends(group.map(({ place }) => place));
    const open = places.length > 1 ? 'which two belong together' : 'which of them this one goes to';
    const line = `${group[0]!.shared} ends have the print “${group[0]!.print}”; the marks cannot show ${open}.`;
    pairs.push({ certainty: 'undecided', places, line, evidence: `Marks: ${marksAt(group)}.` });
  }
  return pairs.sort((a, b) => ORDER.indexOf(a.certainty) - ORDER.indexOf(b.certainty));
}

/** "212 m and 226 m", in the order of the places; long lists end in the number of the rest. */
function marksAt(ends: readonly EndPairing[]): string {
  const marks = ends.slice(0, PLACES_SHOWN).map(({ mark, unit }) => (mark === null ? 'no mark' : `${mark} ${unit}`));
  const rest = ends.length - marks.length;
  return listed(rest > 0 ? [...marks, `${rest} more`] : marks);
}

/** "R1 SW1 P03 and R2 SW1 P07"; long lists end in the number of the rest. */
export function pairToWords({ places }: Pick<MarksPair, 'places'>): string {
  const shown = places.slice(0, PLACES_SHOWN).map(({ words }) => words);
  const rest = places.length - shown.length;
  return listed(rest > 0 ? [...shown, `${rest} more`] : shown);
}
