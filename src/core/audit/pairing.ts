// Which two ends may be one cable, by the print on the jacket and the lengths marked on it. An estimate, never a claim:
// at most probable, silent where it cannot tell, and it joins nothing anywhere.
import { factsAt } from '../plan/planIndex.ts';
import { lengthSuits, longestRun } from '../trade/lengths.ts';
import type { MarkUnit } from './events.ts';
import type { Fold } from './foldView.ts';
import { agreedJacket, jacketsByPlace, markToMetres, printToKey } from './jackets.ts';
import { twinToNumber } from './numbers.ts';

/** One end whose far end nobody knows, with what its jacket bears. */
export interface LooseJacket {
  place: string;
  /** Exactly as written. */
  print: string;
  unit: MarkUnit;
  /** Null where the running length cannot be read, or two readings of it differ. */
  mark: number | null;
  /** A temporary number that stands here alone. */
  twin: string | null;
}

export interface EndCandidate {
  place: string;
  /** Between the two marks; the tails beyond the marks come on top. */
  metres: number;
}

export interface EndPairing extends LooseJacket {
  /** Ends that bear this print and wait for their far end, this one included. */
  shared: number;
  /** Every end it may go to, the likelier first. */
  candidates: EndCandidate[];
  /** `probable`: no other end fits either of the two. `possible`: others fit, this one suits its places best. */
  partner: (EndCandidate & { certainty: 'probable' | 'possible' }) | null;
}

/** How far apart two places are: 0 on one unit, 1 in one rack, 2 in one room, 3 elsewhere or not known. */
export type Near = (a: string, b: string) => number;
/** Longest run in metres between two places; null without a limit. */
export type Limit = (a: string, b: string) => number | null;

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

/** The limit that the signals of two places set, where a list or plan names one; what a row only suggests sets none. */
export function limitOf(fold: Fold): Limit {
  const at = (place: string) => {
    const { signal, inferred } = factsAt(fold.index, place);
    return inferred ? null : longestRun(signal);
  };
  return (a, b) => {
    const known = [at(a), at(b)].filter((one) => one !== null);
    return known.length > 0 ? Math.min(...known) : null;
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
    groups.set(key, [...(groups.get(key) ?? []), end]);
  }
  const found = [...groups.values()].flatMap((group) => pairGroup(group, near, limit));
  return found.sort((a, b) => (a.place < b.place ? -1 : 1));
}

function pairGroup(group: readonly LooseJacket[], near: Near, limit: Limit): EndPairing[] {
  const marked = group.flatMap((end) => (end.mark === null ? [] : [{ ...end, mark: end.mark }]));
  const marks = [...new Set(marked.map(({ mark }) => mark))].sort((a, b) => a - b);
  const rank = new Map(marks.map((mark, i) => [mark, i]));
  const fits = new Map<string, Fit[]>();
  for (const a of marked) {
    const list = marked.flatMap((b): Fit[] => {
      const metres = markToMetres(Math.abs(a.mark - b.mark), a.unit);
      const most = limit(a.place, b.place);
      if (a.place === b.place || metres <= 0 || (most !== null && metres > most)) return [];
      const between = Math.abs(rank.get(a.mark)! - rank.get(b.mark)!) > 1 ? BETWEEN : 0;
      return [{ place: b.place, metres, strain: STRAIN[lengthSuits(metres, near(a.place, b.place))] + between }];
    });
    list.sort((x, y) => x.strain - y.strain || x.metres - y.metres || (x.place < y.place ? -1 : 1));
    fits.set(a.place, list);
  }
  const best = (place: string): Fit | null => {
    const [first, second] = fits.get(place) ?? [];
    return first && first.strain !== second?.strain ? first : null;
  };
  const alone = marked.length === group.length;
  return group.map((end): EndPairing => {
    const list = fits.get(end.place) ?? [];
    const mine = best(end.place);
    const chosen = mine && best(mine.place)?.place === end.place ? mine : null;
    const only = alone && list.length === 1 && fits.get(chosen?.place ?? '')?.length === 1;
    return {
      ...end,
      shared: group.length,
      candidates: list.map(({ place, metres }) => ({ place, metres })),
      partner: chosen && {
        place: chosen.place,
        metres: chosen.metres,
        certainty: only && chosen.strain < UNLIKELY ? 'probable' : 'possible',
      },
    };
  });
}
