// What stands at a place as it could be said again at another one: for putting a slip right. It moves nothing itself.
import type { Payload } from '../audit/events.ts';
import type { Fold } from '../audit/fold.ts';
import { uncorrected } from '../audit/jackets.ts';
import type { Look } from '../audit/looks.ts';

export type HungItem = { event: string; place: string } & {
  [K in HungKind]: { kind: K; payload: Payload<K> };
}[HungKind];
export type HungKind = 'sighting' | 'note' | 'photo' | 'voice-note' | 'hazard-seen' | 'jacket-read';

const BESIDE = ['note', 'photo', 'voice-note', 'hazard-seen', 'jacket-read'] as const;

/** Statements about one place alone come first; a range is never said again in parts. */
export function hungAt(fold: Fold, places: readonly string[]): HungItem[] {
  const wanted = new Set(places);
  const looks = places.flatMap((place) =>
    fold.looks
      .standing(place)
      .filter(({ event }) => fold.looks.placesOf(event).length === 1)
      .map((look): HungItem => ({ event: look.event, place, kind: 'sighting', payload: lookToPayload(look) })),
  );
  const beside = BESIDE.flatMap((kind) =>
    (kind === 'jacket-read' ? uncorrected(fold) : fold.of(kind)).flatMap(({ id, payload }) => {
      const { place } = payload;
      return place !== undefined && wanted.has(place) ? [{ event: id, kind, place, payload } as HungItem] : [];
    }),
  );
  return [...looks, ...beside];
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
