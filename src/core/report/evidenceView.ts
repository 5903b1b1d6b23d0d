// What a difference rests on, for those who read it: who and when, the entries that contradict each other side by side,
// and the jack to stand at for another look.

import { type EventId, type PlaceId, placeToParts } from '../plan/identity.ts';
import { placeToWords } from '../plan/planIndex.ts';
import type { Basis, WorkStage } from '../record/events.ts';
import { contradicting } from '../rules/conflicts.ts';
import type { Fold } from '../rules/fold.ts';
import { unitPlannedAt } from '../rules/unitDiscrepancies.ts';
import { type Said, saidOf } from './leftView.ts';
import { lookToPhotoWords } from './words/photoTime.ts';

export interface EvidenceLine {
  at: number;
  author: string;
  /** For work on an end what was done. */
  basis: Basis | WorkStage;
  /** Read off a photo, in words. */
  photo?: string | undefined;
}

/** One of the entries of a conflict: what it says, who and when, and the pictures that its author took there. */
export interface ConflictSide extends Said {
  event: EventId;
  basis: Basis;
  photo?: string | undefined;
  photos: string[];
}

/**
 * Everything that a difference may rest on, by its event: looks, values read, hazards seen, units
 * described, work on ends.
 */
export function evidenceOf(fold: Fold): ReadonlyMap<EventId, EvidenceLine> {
  const lines = new Map<EventId, EvidenceLine>();
  for (const place of fold.seenPlaces()) {
    for (const look of fold.stateAt(place).looks) {
      const photo = lookToPhotoWords(fold, look);
      lines.set(look.event, { at: look.at, author: look.author, basis: look.basis, ...(photo ? { photo } : {}) });
    }
  }
  for (const { reads } of fold.settings.history()) {
    for (const { id, at, author, payload } of reads) lines.set(id, { at, author, basis: payload.basis });
  }
  for (const kind of ['hazard-seen', 'unit-described'] as const) {
    for (const { id, at, author } of fold.of(kind)) lines.set(id, { at, author, basis: 'seen' });
  }
  for (const { id, at, author, payload } of fold.of('worked')) lines.set(id, { at, author, basis: payload.stage });
  return lines;
}

export function conflictSides(fold: Fold, place: PlaceId): ConflictSide[] {
  const pictures = fold.of('photo').filter(({ payload }) => payload.place === place);
  return contradicting(fold.stateAt(place))
    .sort((a, b) => a.at - b.at || (a.event < b.event ? -1 : 1))
    .map((look) => {
      const own = pictures.filter(({ author }) => author === look.author).map(({ payload }) => payload.document);
      const photos = [...new Set([...(look.photo ? [look.photo] : []), ...own])];
      return { ...saidOf(look), event: look.event, basis: look.basis, photo: lookToPhotoWords(fold, look), photos };
    });
}

/** The first jack among the places; for a rack position a jack of the unit that the plan has there. */
export function whereToGo(fold: Fold, places: readonly PlaceId[]): { place: PlaceId; words: string } | null {
  const jacks = places.flatMap((place) => {
    const parts = placeToParts(place);
    if (parts.type === 'jack') return [place];
    const unit = parts.type === 'slot' ? unitPlannedAt(fold.index, parts.rack, parts.u) : null;
    return unit ? (fold.index.jacksOf.get(unit.id) ?? []).slice(0, 1).map(({ id }) => id) : [];
  });
  const [place] = jacks;
  return place === undefined ? null : { place, words: placeToWords(fold.index, place) };
}
