// What has to wait for a window: looks that need a hand, jacks that nobody could see or open, plugs that want a label.
// Collected, so that nothing is offered to a hand that may only look.
import { isSlot, type PlaceId, unitOf } from '../../plan/identity.ts';
import type { Fold } from '../../rules/fold.ts';
import { owedToWords } from '../words/openWords.ts';
import { compareLabels } from './walkOrder.ts';

export interface WindowItem {
  place: PlaceId;
  words: string;
  /** What is owed there. */
  owed: string;
  /** Why it was not done, in the words of the person who stood there. */
  why: string;
  author: string;
  at: number;
}

export function windowList(fold: Fold): WindowItem[] {
  const items: WindowItem[] = [];
  for (const place of fold.seenPlaces()) {
    if (isSlot(place)) continue;
    const state = fold.stateAt(place);
    const look = state.looks.at(-1);
    if (!look) continue;
    const owed = owedToWords(state);
    if (owed) items.push({ place, words: fold.wordsOf(place), ...owed, author: look.author, at: look.at });
  }
  return items.sort((a, b) => compareLabels(a.words, b.words));
}

/** The next end that a helper far away can be asked about: an open end of a cable whose other end was seen. */
export interface FarQuestion {
  place: PlaceId;
  words: string;
  /** Label that the plan expects there; null in a blind audit. */
  plan: string | null;
}

export function nextFarQuestion(fold: Fold, here: string | null, skipped: readonly string[]): FarQuestion | null {
  const blind = fold.started?.payload.blind === true;
  const away = (place: PlaceId) => here === null || unitOf(place) !== unitOf(here);
  const passed = new Set(skipped);
  let later: FarQuestion | null = null;
  for (const cable of fold.index.plan.cables) {
    const seen = cable.ends.some(
      ({ place }) => place !== null && fold.readingsAt(place).some((r) => r.cable === cable.id),
    );
    for (const { place } of cable.ends) {
      if (place === null || passed.has(place) || fold.isSaid(place) || !fold.scope.owed.has(place) || !away(place))
        continue;
      const question = { place, words: fold.wordsOf(place), plan: blind ? null : cable.label || null };
      if (seen) return question;
      later ??= question;
    }
  }
  return later;
}
