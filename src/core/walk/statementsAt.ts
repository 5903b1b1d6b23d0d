// What stands at a place as it could be said again at another one: for putting a slip right. It moves nothing itself.
import type { EventId, PlaceId } from '../plan/identity.ts';
import type { Payload } from '../record/events.ts';
import type { Look } from '../record/looks.ts';
import type { Fold } from '../rules/fold.ts';
import { uncorrected } from '../rules/jackets.ts';

export type StatementAt = { event: EventId; place: PlaceId } & {
  [K in StatementKind]: { kind: K; payload: Payload<K> };
}[StatementKind];
export type StatementKind = 'sighting' | 'note' | 'photo' | 'voice-note' | 'hazard-seen' | 'jacket-read';

const BESIDE = ['note', 'photo', 'voice-note', 'hazard-seen', 'jacket-read'] as const;

/** Statements about one place alone come first; a range is never said again in parts. */
export function statementsAt(fold: Fold, places: readonly PlaceId[]): StatementAt[] {
  const wanted = new Set(places);
  const looks = places.flatMap((place) =>
    fold.looks
      .standing(place)
      .filter(({ event }) => fold.looks.placesOf(event).length === 1)
      .map((look): StatementAt => ({ event: look.event, place, kind: 'sighting', payload: lookToPayload(look) })),
  );
  const beside = BESIDE.flatMap((kind) =>
    (kind === 'jacket-read' ? uncorrected(fold) : fold.of(kind)).flatMap(({ id, payload }) => {
      const { place } = payload;
      // Kind and payload are of one event, which the types of a loop over kinds cannot follow.
      return place !== undefined && wanted.has(place) ? [{ event: id, kind, place, payload } as StatementAt] : [];
    }),
  );
  return [...looks, ...beside];
}

export interface SaidSince {
  event: EventId;
  places: PlaceId[];
  said: string[];
  state: Payload<'sighting'>['state'];
  plugs: Payload<'sighting'>['plugs'];
}

/** What one log said at or after a time and did not take back: an undo that a reload cut off is found here. */
export function saidSince(fold: Fold, log: string, since: number): SaidSince[] {
  const found = new Map<string, { at: number; said: SaidSince }>();
  for (const place of fold.seenPlaces()) {
    for (const look of fold.looks.standing(place)) {
      if (look.log !== log || look.at < since) continue;
      const { event, at, state, plugs } = look;
      const one = found.get(event) ?? { at, said: { event, places: [], said: [], state, plugs } };
      one.said.places.push(place);
      one.said.said.push(look.said);
      found.set(event, one);
    }
  }
  const byTime = [...found.values()].sort((a, b) => a.at - b.at || (a.said.event < b.said.event ? -1 : 1));
  return byTime.map(({ said }) => said);
}

/** How the label was taken is not kept in a look; who asks for this knows it. */
function lookToPayload(look: Look): Payload<'sighting'> {
  const { place, said, state, plugs, basis, joinedTo, reason, note, photo, order, change, teller } = look;
  const known = Object.entries({ joinedTo, reason, note, photo, order, change, teller });
  return {
    places: [place],
    said: [said],
    state,
    plugs,
    basis,
    ...Object.fromEntries(known.filter(([, value]) => value !== undefined)),
  };
}
