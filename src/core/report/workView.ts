// What is left to build, nearest first, the work on one jack's ends, and changes and lash-ups in words.
import type { PlaceId } from '../plan/identity.ts';
import type { Fold } from '../rules/fold.ts';
import { changesOf, type EndWork, type PlannedChange, workAt, workLeft } from '../rules/work.ts';
import { distance } from './walk/twinsView.ts';

export interface WorkView {
  here: EndWork[];
  left: (EndWork & { words: string })[];
  /** Ends in all that still want something; `left` shows the nearest of them. */
  leftCount: number;
  changes: (PlannedChange & { words: string })[];
}

const SHOWN = 60;

export function workView(fold: Fold, place: PlaceId | null): WorkView {
  const left = workLeft(fold);
  const near = new Map(left.map((one) => [one, distance(fold, place, one.place)]));
  return {
    here: place === null ? [] : workAt(fold, place),
    left: [...left]
      .sort((a, b) => near.get(a)! - near.get(b)!)
      .slice(0, SHOWN)
      .map((one) => ({ ...one, words: fold.wordsOf(one.place) })),
    leftCount: left.length,
    changes: changesOf(fold).map((one) => ({ ...one, words: fold.wordsOf(one.place) })),
  };
}
