// What was solved before and rests on nothing that has changed since: notes which places and cables were asked for, and
// keeps the answer while all of them are as they were. Knows nothing of causes.
import type { CableId, PlaceId } from '../plan/identity.ts';
import type { Fold, FoldView } from '../rules/foldView.ts';
import type { Settings } from '../rules/settings.ts';

interface Asked {
  places: Map<PlaceId, number>;
  cables: Map<CableId, number>;
  /** Set once a setting was asked for: what it stood for then. */
  settings: unknown;
  /** Something was asked for that is not watched: never kept. */
  other: boolean;
}

export interface Kept<T> {
  answer: T;
  asked: Asked;
}

/** Answers a question of a view, noting what it rests on. */
export function keep<T>(fold: Fold, answer: (view: FoldView) => T): Kept<T> {
  const asked: Asked = { places: new Map(), cables: new Map(), settings: null, other: false };
  const place = (one: PlaceId) => asked.places.set(one, fold.stampOfPlace(one));
  const unwatched = <R>(given: R): R => {
    asked.other = true;
    return given;
  };
  const view: FoldView = {
    index: fold.index,
    pairOrder: fold.pairOrder,
    airWords: fold.airWords,
    occasion: fold.occasion,
    stateAt: (one) => place(one) && fold.stateAt(one),
    isSaid: (one) => place(one) && fold.isSaid(one),
    wordsOf: (one) => place(one) && fold.wordsOf(one),
    readingsAt: (one) => place(one) && fold.readingsAt(one),
    joined: (one) => place(one) && fold.joined(one),
    placesOfCable(cable) {
      asked.cables.set(cable, fold.stampOfCable(cable));
      return fold.placesOfCable(cable);
    },
    placesOfUnknown: (text) => unwatched(fold.placesOfUnknown(text)),
    unitSeenAt: (unit) => unwatched(fold.unitSeenAt(unit)),
    get settings(): Settings {
      asked.settings = settingsNow(fold);
      return fold.settings;
    },
    get scope() {
      return unwatched(fold.scope);
    },
  };
  return { answer: answer(view), asked };
}

/** Is all that it rests on as it was? The plan and the occasion are for the caller to compare. */
export function isFresh(fold: Fold, { asked }: Kept<unknown>): boolean {
  if (asked.other || (asked.settings !== null && asked.settings !== settingsNow(fold))) return false;
  for (const [place, stamp] of asked.places) if (fold.stampOfPlace(place) !== stamp) return false;
  for (const [cable, stamp] of asked.cables) if (fold.stampOfCable(cable) !== stamp) return false;
  return true;
}

/** Settings make their differences anew after each reading, and hand out the same list until then. */
const settingsNow = (fold: Fold): unknown => fold.settings.discrepancies();
