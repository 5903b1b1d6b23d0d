// The order in which pinned jacks are read off their photos, and the statement that each answer makes. Pure.
import type { Payload, State } from '../../core/record/events.ts';
import type { PhotoView, PinToRead, ReadingList } from '../../core/report/photosView.ts';

export interface ReadStop {
  photo: PhotoView;
  pin: PinToRead;
}

/** What was answered or passed over on this page, by place. */
export type Passed = ReadonlySet<string>;

/** All that waits, photo by photo; a jack on two photos comes once. */
export function readStops(list: ReadingList, passed: Passed): ReadStop[] {
  const met = new Set(passed);
  return list.photos.flatMap(({ photo, open }) =>
    open.flatMap((pin) => {
      if (met.has(pin.place)) return [];
      met.add(pin.place);
      return [{ photo, pin }];
    }),
  );
}

/** The rest of the photo in hand first: it is open already. */
export function nextStop(stops: readonly ReadStop[], document: string | null): ReadStop | null {
  return stops.find(({ photo }) => photo.document === document) ?? stops[0] ?? null;
}

/** Plugged, whether or not the label says a name. */
const BARE_PLUG: ReadonlySet<State> = new Set(['unlabelled', 'illegible']);

/** `own`: it looks like another name, and a person says that it is a cable's. */
export interface ReadLabel {
  text: string;
  means?: string | undefined;
  own?: true;
}

/** A look with the eye, only later and on a photo; the photo is named so that everybody can look again. */
export function stopToSighting(
  { photo, pin }: ReadStop,
  said: { state: State; label?: ReadLabel; by: 'tapped' | 'typed' },
): Payload<'sighting'> {
  const { label } = said;
  const { text = '', means, own } = label ?? {};
  const labels = label ? [{ text, ...(means === undefined ? {} : { means }), ...(own ? { own } : {}) }] : [];
  return {
    places: [pin.place],
    said: [pin.words],
    state: said.state,
    plugs: label || BARE_PLUG.has(said.state) ? [{ labels }] : [],
    basis: 'seen',
    by: said.by,
    photo: photo.document,
  };
}
