// When a photo was taken, in words that a sentence can hold, by the clock of the phone that took it. Pure: the zone
// comes with the event.
import type { Fold } from '../../rules/foldView.ts';

interface Moment {
  /** Milliseconds since 1970. */
  at: number;
  /** Minutes east of UTC. */
  zone: number;
}

const local = ({ at, zone }: Moment): string => new Date(at + zone * 60_000).toISOString();

/** `10:31`, with the day in front when it was read on another day: `2026-11-24 10:31`. */
export function photoTime(taken: Moment, readAt: number): string {
  const [day = '', clock = ''] = local(taken).split('T');
  const [readDay] = local({ at: readAt, zone: taken.zone }).split('T');
  return day === readDay ? clock.slice(0, 5) : `${day} ${clock.slice(0, 5)}`;
}

/** How a look was made that was made on a photo; `taken` is null while the photo's own event has not arrived. */
export function offPhotoWords(taken: Moment | null, readAt: number): string {
  return taken ? `read off a photo of ${photoTime(taken, readAt)}` : 'read off a photo';
}

/** How a look was made, when it was made on a photo; undefined for a look with the eye at the place. */
export function lookToPhotoWords(fold: Fold, look: { photo?: string | undefined; at: number }): string | undefined {
  if (look.photo === undefined) return undefined;
  const taken = fold.of('photo').find(({ payload }) => payload.document === look.photo);
  return offPhotoWords(taken ?? null, look.at);
}
