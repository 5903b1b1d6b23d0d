// Which rename is under way at one place, and how its end there stands. Derived; it says nothing of what is to be done.

import type { PlaceId } from '../plan/identity.ts';
import type { NameChange } from '../plan/planIndex.ts';
import type { Fold } from '../rules/fold.ts';
import { type RenameEnd, type RenameStatus, renameStatus } from './renaming.ts';

/** The rename of the cable at this place, as it stands: of the cable read there, else of the one planned there. */
export function renameAt(fold: Fold, place: PlaceId): RenameStatus | null {
  const { index } = fold;
  if (!index.renames) return null;
  const read = fold.readingsAt(place).flatMap(({ cable }) => cable ?? []);
  const planned = index.endsAt.get(place)?.map(({ cable }) => cable.id) ?? [];
  const one = [...read, ...planned].flatMap((cable): readonly NameChange[] => index.renames?.get(cable) ?? [])[0];
  return one ? renameStatus(fold, one) : null;
}

export function endAtPlace(status: RenameStatus, place: PlaceId): RenameEnd | null {
  return status.ends.find((end) => end.place === place) ?? null;
}
