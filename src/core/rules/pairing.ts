// Which two ends may be one cable, by the print on the jacket and the lengths marked on it. An estimate, never a claim:
// at most probable, silent where it cannot tell, and it joins nothing anywhere.
import type { PlaceId } from '../plan/identity.ts';
import { factsAt } from '../plan/planIndex.ts';
import type { MarkUnit } from '../record/events.ts';
import { lengthSuits, longestRun } from '../trade/lengths.ts';
import type { Fold } from './foldView.ts';
import { agreedJacket, jacketsByPlace, markToMetres, printToKey } from './jackets.ts';
import { twinToNumber } from './numbers.ts';

/** One end whose far end nobody knows, with what its jacket bears. */
export interface LooseJacket {
  place: PlaceId;
  /** Exactly as written. */
  print: string;
  unit: MarkUnit;
  /** Null where the running length cannot be read, or two readings of it differ. */
  mark: number | null;
  /** A temporary number that stands here alone. */
  twin: string | null;
}

export interface EndCandidate {
  place: PlaceId;
  /** Between the two marks; the tails beyond the marks come on top. */
  metres: number;
}

export interface EndPairing extends LooseJacket {
  /** Ends that bear this print and wait for their far end, this one included. */
  shared: number;
  /** How many ends it may go to. */
  fitting: number;
  /** The likeliest of them, the likelier first. */
  candidates: EndCandidate[];
  /** `probable`: no other end fits either of the two. `possible`: others fit, this one suits its places best. */
  partner: (EndCandidate & { certainty: 'probable' | 'possible' }) | null;
}

/** How far apart two places are: 0 on one unit, 1 in one rack, 2 in one room, 3 elsewhere or not known. */
type Near = (a: PlaceId, b: PlaceId) => number;
/** Longest run in metres that a place allows; null without a limit. */
type Limit = (place: PlaceId) => number | null;
/** Many cables of one drum fit one another; more than this nobody goes through. */
const CANDIDATES_AT_MOST = 8;

/**
 * Ends with a jacket on record that are not settled: no label but a twin that stands nowhere else, nobody followed the
 * cable, nobody disagrees about the jack. Where several plugs stand, a print does not say whose it is.
 */
export function looseJackets(fold: Fold): LooseJacket[] {
  const ends: LooseJacket[] = [];
  for (const [place, readings] of jacketsByPlace(fold)) {
    const state = fold.stateAt(place);
    if (state.type === 'conflict' || state.plugs.length > 1 || fold.joined(place).length > 0) continue;
    const labels = fold.readingsAt(place);
    const twins = labels.filter(
      ({ cable, text, others }) =>
        cable === null && others.length === 0 && twinToNumber(text) !== null && fold.placesOfUnknown(text).length === 1,
    );
    if (twins.length < labels.length) continue;
    const agreed = agreedJacket(readings);
    const { print, unit } = agreed ?? readings[0]!;
    ends.push({ place, print, unit, mark: agreed?.mark ?? null, twin: twins[0]?.text ?? null });
  }
  return ends.sort((a, b) => (a.place < b.place ? -1 : 1));
}

/** The limit that the signal of a place sets, where a list or plan names one; what a row only suggests sets none. */
export function limitOf(fold: Fold): Limit {
  return (place) => {
    const { signal, inferred } = factsAt(fold.index, place);
    return inferred ? null : longestRun(signal);
  };
}

interface Fit extends EndCandidate {
  /** The less the likelier; from `UNLIKELY` on it is no more than possible. */
  strain: number;
}
/** Of one drum each length is printed once, so another end between two marks speaks against their pair. */
const BETWEEN = 2;
const STRAIN = { well: 0, fairly: 1, badly: 3 } as const;
const UNLIKELY = 2;

/** Pairs ends in one step, the same in any order: two that suit each other better than anything else suits either. */
export function pairEnds(ends: readonly LooseJacket[], near: Near, limit: Limit): EndPairing[] {
  const groups = new Map<string, LooseJacket[]>();
  for (const end of ends) {
    // A drum is marked in one unit, so metres and feet are two drums.
    const key = `${end.unit} ${printToKey(end.print)}`;
    const group = groups.get(key);
    if (group) group.push(end);
    else groups.set(key, [end]);
  }
  const found = [...groups.values()].flatMap((group) => pairGroup(group, near, limit));
  return found.sort((a, b) => (a.place < b.place ? -1 : 1));
}

/** An end with all that is asked once for each pair of a group: a site may bear hundreds of one print. */
interface Marked {
  place: PlaceId;
  metres: number;
  /** Place of its mark among those of the group. */
  rank: number;
  limit: number;
}

function pairGroup(group: readonly LooseJacket[], near: Near, limit: Limit): EndPairing[] {
  const marks = [...new Set(group.flatMap(({ mark }) => mark ?? []))].sort((a, b) => a - b);
  const rank = new Map(marks.map((mark, i) => [mark, i]));
  const marked = group.flatMap(({ place, mark, unit }): Marked[] =>
    mark === null
      ? []
      : [{ place, metres: markToMetres(mark, unit), rank: rank.get(mark)!, limit: limit(place) ?? Infinity }],
  );
  const fits = new Map(marked.map((end) => [end.place, fitsOf(end, marked, near)]));
  const best = (place: PlaceId): Fit | null => {
    const [first, second] = fits.get(place)?.best ?? [];
    return first && first.strain !== second?.strain ? first : null;
  };
  const alone = marked.length === group.length;
  return group.map((end): EndPairing => {
    const mine = best(end.place);
    const chosen = mine && best(mine.place)?.place === end.place ? mine : null;
    const count = fits.get(end.place)?.count ?? 0;
    const only = alone && count === 1 && fits.get(chosen?.place ?? '')?.count === 1;
    return {
      ...end,
      shared: group.length,
      fitting: count,
      candidates: (fits.get(end.place)?.best ?? []).map(({ place, metres }) => ({ place, metres })),
      partner: chosen && {
        place: chosen.place,
        metres: chosen.metres,
        certainty: only && chosen.strain < UNLIKELY ? 'probable' : 'possible',
      },
    };
  });
}

/** How many ends one may go to, and the likeliest of them in order. */
function fitsOf(end: Marked, marked: readonly Marked[], near: Near): { count: number; best: Fit[] } {
  const best: Fit[] = [];
  let count = 0;
  for (const other of marked) {
    const metres = Math.abs(end.metres - other.metres);
    if (other.rank === end.rank || other.place === end.place || metres > Math.min(end.limit, other.limit)) continue;
    count += 1;
    const between = Math.abs(end.rank - other.rank) > 1 ? BETWEEN : 0;
    const strain = STRAIN[lengthSuits(metres, near(end.place, other.place))] + between;
    const fit = { place: other.place, metres, strain };
    if (best.length === CANDIDATES_AT_MOST && !likelier(fit, best[best.length - 1]!)) continue;
    const at = best.findIndex((one) => likelier(fit, one));
    best.splice(at < 0 ? best.length : at, 0, fit);
    best.length = Math.min(best.length, CANDIDATES_AT_MOST);
  }
  return { count, best };
}

function likelier(a: Fit, b: Fit): boolean {
  if (a.strain !== b.strain) return a.strain < b.strain;
  return a.metres !== b.metres ? a.metres < b.metres : a.place < b.place;
}
