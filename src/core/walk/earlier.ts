// Does what is said now contradict what was seen before, and what follows from the person's answer? A contradiction is
// whatever the fold would call a conflict, and nothing else: both ask the same function.
import type { Permission, Sighting, Withdrawal } from '../record/events.ts';
import type { Looks } from '../record/keptLooks.ts';
import { isLook, type Look, looksToState, sightingToLook } from '../record/looks.ts';
import { type Visit, withdrawalsAt } from './memory.ts';
import type { Earlier } from './question.ts';

export type EarlierAnswer = 'misread' | 'changed' | 'unsure';

const isConflict = (looks: readonly Look[]) => looksToState('', looks).type === 'conflict';

/** The looks among these that have to go, by whichever answer, for the new one to stand without conflict. */
function contradicted(standing: readonly Look[], now: Look): Look[] {
  if (!isLook(now) || !isConflict([...standing, now])) return [];
  const real = standing.filter(isLook);
  const against: Look[] = real.filter((look) => isConflict([look, now]));
  const rest = standing.filter((look) => !against.includes(look));
  // Those that do not differ from it may differ among each other: then the place was in conflict before.
  return isConflict([...rest, now]) ? real : against;
}

/**
 * What the visit said about these places gives way to what is said now. Where something may be touched, only what the
 * new statement does not contradict gives way by itself: the plug may have been moved in between.
 */
export function replaced(looks: Looks, visit: Visit, permission: Permission, sighting: Sighting): Withdrawal[] {
  const all = withdrawalsAt(visit, sighting.places);
  if (permission === 'look') return all;
  return all.flatMap((target) => {
    const places = target.places ?? looks.placesOf(target.event);
    const kept = sighting.places.filter((place, i) => {
      const now = sightingToLook(sighting, i);
      return looks.standing(place).some((look) => look.event === target.event && contradicted([look], now).length > 0);
    });
    if (kept.length === 0) return [target];
    const gone = places.filter((place) => sighting.places.includes(place) && !kept.includes(place));
    return gone.length === 0 ? [] : [{ event: target.event, places: gone }];
  });
}

/** Standing looks that the statement would be in conflict with, at each of its places. */
export function earlierLooks(looks: Looks, sighting: Sighting): Earlier[] {
  const { withdraws = [], changedSince = [] } = sighting;
  return sighting.places.flatMap((place, i) => {
    const stays = ({ event }: Look) =>
      !changedSince.includes(event) &&
      !withdraws.some((target) => target.event === event && (target.places?.includes(place) ?? true));
    return contradicted(looks.standing(place).filter(stays), sightingToLook(sighting, i)).map(lookToEarlier);
  });
}

function lookToEarlier({ event, author, at, state, plugs, place, said }: Look): Earlier {
  const label = plugs[0]?.labels[0]?.text ?? null;
  return { event, author, at, state, label, place, said };
}

/** The person's answer to "Misread before, or changed since?"; the two are kept apart for the as-left record. */
export function resolveEarlier(sighting: Sighting, earlier: readonly Earlier[], answer: EarlierAnswer): Sighting {
  const [first] = sighting.places;
  if (answer === 'unsure' || first === undefined) return sighting;
  if (answer === 'changed') return { ...sighting, changedSince: [...new Set(earlier.map(({ event }) => event))] };
  const more = earlier.map(({ event, place = first }) => ({ event, places: [place] }));
  return { ...sighting, withdraws: [...(sighting.withdraws ?? []), ...more] };
}
