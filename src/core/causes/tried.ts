// Checks that somebody made and that told nothing: by whom, when, at which jack. They stay in the record and weigh for no
// story; they only move the next check on to another jack or another way.
import type { PlaceId } from '../plan/identity.ts';
import type { Look } from '../record/looks.ts';
import type { FoldView } from '../rules/foldView.ts';
import type { LookHow } from './cause.ts';

/** The reason that such an entry is recorded with. */
export const CANNOT_TELL = 'checked, cannot tell';

const isVain = ({ state, reason }: Look) => state === 'not-visible' && reason === CANNOT_TELL;

/** Made in vain at these places, the earliest first. */
export function triedAt(view: FoldView, places: Iterable<PlaceId>): Look[] {
  const looks = [...new Set(places)].flatMap((place) => view.stateAt(place).looks.filter(isVain));
  return looks.sort((a, b) => a.at - b.at || (a.event < b.event ? -1 : 1));
}

/** Was it tried this way here? The eye that did not see into a jack has followed nothing. */
export function isTriedAt(view: FoldView, place: PlaceId, how: LookHow): boolean {
  return view.stateAt(place).looks.some((look) => {
    if (look.state !== 'not-visible') return false;
    if (how === 'look') return isVain(look) && look.basis === 'seen';
    return how === 'follow' ? look.basis === 'followed' : look.basis !== 'seen';
  });
}
