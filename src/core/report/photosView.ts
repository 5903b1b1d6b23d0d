// Photos and voice notes as screens show them: tied to their place and time, with marks and pins; and which pinned
// jacks still wait to be read. In a blind audit nothing planned leaves here before it was stated.

import { derived } from '../plan/derived.ts';
import { type EventId, isUnit, type PlaceId, placeToParts, type UnitId } from '../plan/identity.ts';
import type { EventOf, PhotoMark, Spot } from '../record/events.ts';
import type { Fold, FoldView } from '../rules/foldView.ts';
import { walkOf } from './walk/walkStops.ts';

interface PinView {
  event: EventId;
  place: PlaceId;
  words: string;
  /** Label of the jack alone. */
  jack: string;
  at: Spot;
  /** Nobody has said yet which label is there. */
  open: boolean;
}

export interface PhotoView {
  event: EventId;
  document: string;
  place: PlaceId | null;
  words: string;
  /** A unit with all its jacks, not one jack. */
  whole: boolean;
  at: number;
  author: string;
  width: number;
  height: number;
  marks: PhotoMark[];
  pins: PinView[];
}

export interface VoiceView {
  event: EventId;
  document: string;
  place: PlaceId | null;
  words: string;
  at: number;
  author: string;
  /** Milliseconds. */
  lasts: number;
}

export interface PhotosView {
  words: string;
  photos: PhotoView[];
  voices: VoiceView[];
}

/** What the auditor is asked at a pin: what the walk would offer there, and nothing more. */
export interface PinToRead {
  place: PlaceId;
  words: string;
  jack: string;
  /** Planned label; null where the plan has none, and in a blind audit. */
  plan: string | null;
  /** False where the audit has no plan: then nothing is as planned. */
  hasPlan: boolean;
  blind: boolean;
}

export interface ReadingList {
  /** Photos with pinned jacks that wait, in the order in which they were taken. */
  photos: { photo: PhotoView; open: PinToRead[] }[];
  /** Whole units without any pin yet. */
  unpinned: PhotoView[];
  /** Jacks read off photos so far. */
  read: number;
  /** Jacks that wait, each once however many photos show it. */
  left: number;
}

export interface PinJack {
  place: PlaceId;
  label: string;
  words: string;
  pinned: boolean;
  said: boolean;
}

export interface PinChoice {
  unit: UnitId;
  unitLabel: string;
  jacks: PinJack[];
  /** The jack that the next tap means; null when every jack of the unit is on the photo. */
  next: string | null;
  /** Units of the walk near this one, for a photo that shows more than one. */
  units: { unit: UnitId; label: string }[];
}

/** A unit, or a whole face of a rack: several jacks are on such a photo. */
function isWhole(fold: FoldView, place: PlaceId | undefined): boolean {
  if (place === undefined) return false;
  if (isUnit(place) && fold.index.units.has(place)) return true;
  const parts = placeToParts(place);
  // Below the first U are the whole faces (identity.ts).
  return parts.type === 'slot' && parts.u <= 0;
}

/** A place in words; a photo may also be of a whole unit or of a rack's face. */
function photoPlaceToWords(fold: FoldView, place: PlaceId | null | undefined): string {
  if (!place) return 'No place';
  const unit = isUnit(place) ? fold.index.units.get(place) : undefined;
  if (unit) return `Whole ${unit.label}`;
  return isWhole(fold, place) ? `Rack ${fold.wordsOf(place)}` : fold.wordsOf(place);
}

/** A jack waits for its label until somebody looked into it; a plug whose label was not in view still waits. */
function isPinOpen(fold: FoldView, place: PlaceId): boolean {
  const { type } = fold.stateAt(place);
  return type === 'unseen' || type === 'plugged' || type === 'not-verified';
}

/** @param place Only of this place; null for the whole audit. */
export function photosView(fold: Fold, place: PlaceId | null): PhotosView {
  const here = (one: { payload: { place?: PlaceId | undefined } }) => place === null || one.payload.place === place;
  const pinned = new Set(
    fold.of('photo-pinned').flatMap(({ payload }) => (payload.place === place ? [payload.document] : [])),
  );
  return {
    words: place === null ? '' : photoPlaceToWords(fold, place),
    photos: fold
      .of('photo')
      .filter((one) => here(one) || pinned.has(one.payload.document))
      .map((one) => photoToView(fold, one)),
    voices: fold
      .of('voice-note')
      .filter(here)
      .map(({ id, at, author, payload }) => ({
        event: id,
        document: payload.document,
        place: payload.place ?? null,
        words: photoPlaceToWords(fold, payload.place),
        at,
        author,
        lasts: payload.lasts,
      })),
  };
}

/** Documents of the photos taken at any of these places, and of those on which one of them is pinned. */
export function documentsAt(fold: Fold, places: readonly PlaceId[]): string[] {
  const there = new Set(fold.of('photo').map(({ payload }) => payload.document));
  const shown = [...fold.of('photo'), ...fold.of('photo-pinned')].filter(
    ({ payload }) => payload.place !== undefined && places.includes(payload.place) && there.has(payload.document),
  );
  return [...new Set(shown.map(({ payload }) => payload.document))];
}

export function photoView(fold: Fold, document: string): PhotoView | null {
  const event = fold.of('photo').find(({ payload }) => payload.document === document);
  return event ? photoToView(fold, event) : null;
}

function photoToView(fold: Fold, { id, at, author, payload }: EventOf<'photo'>): PhotoView {
  const { document, width, height } = payload;
  return {
    event: id,
    document,
    place: payload.place ?? null,
    words: photoPlaceToWords(fold, payload.place),
    whole: isWhole(fold, payload.place),
    at,
    author,
    width,
    height,
    marks: marksOf(fold, document),
    pins: (pinsByDocument(fold.of('photo-pinned')).get(document) ?? []).map((pin) => {
      const { place, at: spot } = pin.payload;
      const jack = fold.index.jacks.get(place)?.label ?? pin.payload.said;
      return { event: pin.id, place, words: fold.wordsOf(place), jack, at: spot, open: isPinOpen(fold, place) };
    }),
  };
}

/** Marks of all that stand, oldest first. */
function marksOf(fold: Fold, document: string): PhotoMark[] {
  return (marksByDocument(fold.of('photo-marked')).get(document) ?? []).flatMap(({ payload }) => payload.marks);
}

const marksByDocument = derived((list: readonly EventOf<'photo-marked'>[]) => byDocument(list));
const pinsByDocument = derived((list: readonly EventOf<'photo-pinned'>[]) => byDocument(list));

function byDocument<E extends { payload: { document: string } }>(list: readonly E[]): ReadonlyMap<string, E[]> {
  const groups = new Map<string, E[]>();
  for (const one of list) {
    const group = groups.get(one.payload.document);
    if (group) group.push(one);
    else groups.set(one.payload.document, [one]);
  }
  return groups;
}

/** The event that one undo on this photo takes back: the last mark or pin that stands, by time and id. */
export function lastOnPhoto(fold: Fold, document: string, kind: 'photo-marked' | 'photo-pinned'): string | null {
  const events =
    kind === 'photo-marked'
      ? marksByDocument(fold.of('photo-marked')).get(document)
      : pinsByDocument(fold.of('photo-pinned')).get(document);
  return events?.at(-1)?.id ?? null;
}

export function readingList(fold: Fold): ReadingList {
  const blind = fold.started?.payload.blind === true;
  const views = fold.of('photo').map((event) => photoToView(fold, event));
  const once = [...new Map(views.map((view) => [view.document, view])).values()];
  const photos = once.flatMap((photo) => {
    const places = [...new Set(photo.pins.filter(({ open }) => open).map(({ place }) => place))];
    const open = places.map((place) => toRead(fold, place, blind));
    return open.length > 0 ? [{ photo, open }] : [];
  });
  const pins = new Set(once.flatMap((photo) => photo.pins.map(({ place }) => place)));
  return {
    photos,
    unpinned: once.filter((photo) => photo.whole && photo.pins.length === 0),
    read: [...pins].filter((place) => fold.stateAt(place).looks.some(({ photo }) => photo !== undefined)).length,
    left: new Set(photos.flatMap(({ open }) => open.map(({ place }) => place))).size,
  };
}

function toRead(fold: Fold, place: PlaceId, blind: boolean): PinToRead {
  const planned = (fold.index.endsAt.get(place) ?? []).find(({ cable }) => cable.label !== '')?.cable;
  return {
    place,
    words: fold.wordsOf(place),
    jack: fold.index.jacks.get(place)?.label ?? place,
    plan: blind ? null : (planned?.label ?? null),
    hasPlan: fold.revision !== null,
    blind,
  };
}

/** Jacks that a tap on the photo may mean, in walking order; the next is the first open one that is not on it yet. */
export function pinChoice(fold: Fold, document: string, wanted: string | null): PinChoice | null {
  const photo = photoView(fold, document);
  const stops = walkOf(fold);
  const unit = wanted ?? unitOf(fold, photo);
  const mine = stops.filter((stop) => stop.unit === unit);
  const [first] = mine;
  if (!photo || !unit || !first) return null;
  const pinned = new Set(photo.pins.map(({ place }) => place));
  const places = mine.flatMap((stop) => stop.places);
  const jacks = places.map((place) => ({
    place,
    label: fold.index.jacks.get(place)?.label ?? place,
    words: fold.wordsOf(place),
    pinned: pinned.has(place),
    said: !isPinOpen(fold, place),
  }));
  const last = places.indexOf(photo.pins.at(-1)?.place ?? '');
  const onward = [...jacks.slice(last + 1), ...jacks.slice(0, last + 1)].filter((jack) => !jack.pinned);
  const near = stops.filter((stop) => stop.rack === first.rack && stop.room === first.room);
  const units = [...new Set(near.map((stop) => stop.unit))];
  return {
    unit,
    unitLabel: fold.index.units.get(unit)?.label ?? unit,
    jacks,
    next: (onward.find((jack) => !jack.said) ?? onward[0])?.place ?? null,
    units: units.map((one) => ({ unit: one, label: fold.index.units.get(one)?.label ?? one })),
  };
}

function unitOf(fold: Fold, photo: PhotoView | null): string | null {
  const place = photo?.pins.at(-1)?.place ?? photo?.place ?? null;
  if (place === null) return walkOf(fold)[0]?.unit ?? null;
  if (isUnit(place) && fold.index.units.has(place)) return place;
  const parts = placeToParts(place);
  const near = parts.type === 'slot' ? walkOf(fold).find((stop) => stop.rack === parts.rack) : undefined;
  return fold.index.jacks.get(place)?.unit ?? near?.unit ?? walkOf(fold)[0]?.unit ?? null;
}
