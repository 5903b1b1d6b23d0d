// Which known labels a worn one fits, of which only some characters can be read: those that the plan has in scope and
// those that were read elsewhere. In a blind audit nothing of the plan leaves here.
import type { PlaceId } from '../../plan/identity.ts';
import { matchesPattern } from '../../record/looks.ts';
import type { Fold } from '../../rules/fold.ts';
import { compareLabels } from './walkOrder.ts';

export interface Fits {
  pattern: string;
  labels: string[];
  /** So many more fit. */
  more: number;
}

const SHOWN = 6;

/** Null where nothing worn was recorded, or not one character of it can be read. */
export function fitsAt(fold: Fold, place: PlaceId): Fits | null {
  const pattern = fold.stateAt(place).plugs.find((plug) => plug.pattern !== undefined)?.pattern ?? '';
  if (!/[^?\s]/u.test(pattern)) return null;
  const known = new Set<string>(fold.unknownTexts());
  if (fold.started?.payload.blind !== true) {
    for (const cable of fold.index.plan.cables) {
      if (cable.ends.some((end) => end.place !== null && fold.scope.has(end.place))) known.add(cable.label);
    }
  }
  const labels = [...known].filter((label) => label !== '' && matchesPattern(label, pattern)).sort(compareLabels);
  return { pattern, labels: labels.slice(0, SHOWN), more: Math.max(0, labels.length - SHOWN) };
}
