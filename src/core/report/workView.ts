// What is left to build, nearest first, the work on one jack's ends, and changes and lash-ups in words.
import type { PlaceId } from '../plan/identity.ts';
import { factsAt } from '../plan/planIndex.ts';
import { takesWires } from '../record/jackWords.ts';
import type { Fold } from '../rules/fold.ts';
import { changesOf, type EndWork, type PlannedChange, workAt, workLeft } from '../rules/work.ts';
import { distance } from './walk/twinsView.ts';

/** `wires`: the end is landed there, not plugged. */
export type EndOfWork = EndWork & { wires: boolean };

export interface WorkView {
  here: EndOfWork[];
  left: (EndOfWork & { words: string })[];
  /** Ends in all that are still to do; `left` shows the nearest of them. */
  leftCount: number;
  changes: (PlannedChange & { words: string })[];
}

const SHOWN = 60;

export function workView(fold: Fold, place: PlaceId | null): WorkView {
  const left = workLeft(fold);
  const withWires = (one: EndWork) => ({ ...one, wires: takesWires(factsAt(fold.index, one.place).connector) });
  const near = new Map(left.map((one) => [one, distance(fold, place, one.place)]));
  return {
    here: place === null ? [] : workAt(fold, place).map(withWires),
    left: [...left]
      .sort((a, b) => near.get(a)! - near.get(b)!)
      .slice(0, SHOWN)
      .map((one) => ({ ...withWires(one), words: fold.wordsOf(one.place) })),
    leftCount: left.length,
    changes: changesOf(fold).map((one) => ({ ...one, words: fold.wordsOf(one.place) })),
  };
}
