// What the walk does when a statement was written and its answer did not come: it says what became of the statement,
// and finds the jack to go on at. Records nothing.
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import type { Recorded, Services } from '../services.ts';

/** Where a statement is now; `nothing`: the label was read before, so none was made. */
export type Whereabouts = Recorded['type'] | 'nothing';

export function unseenWords(at: WalkView, places: readonly PlaceId[], where: Whereabouts): string {
  const here = places.length === 1 && places[0] === at.current.place;
  const what = here
    ? `${at.unit.label} ${at.current.jack}`
    : places.length > 1
      ? `The row of ${places.length}`
      : 'That';
  const compared = 'could not be compared with the plan';
  if (where === 'nothing') return `Nothing was recorded. ${what} ${compared}: try again.`;
  const kept = where === 'saved' ? 'is kept' : 'is noted, but not on disk yet';
  return `${what} ${kept}. It ${compared}: check it under Differences. Go on with the next jack.`;
}

/** The jack in hand where another one was spoken about, else the next open one, as far as the worker can tell. */
export async function goOnAt(services: Services, audit: AuditId, at: WalkView, places: readonly PlaceId[]) {
  const { place } = at.current;
  if (!places.includes(place)) return place;
  return (await services.ask('nextOpen', { audit, after: place }).catch(() => null)) ?? place;
}
