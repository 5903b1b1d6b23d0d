// What a walk shows of a renaming, as data.
import type { CableId, PlaceId } from '../../plan/identity.ts';

import type { RenameStep } from '../../walk/renameStep.ts';

export interface JackRename {
  cable: CableId;
  old: string;
  new: string;
  place: PlaceId;
  step: RenameStep;
  /** Texts on the plug now. */
  bears: string[];
  /** Looks that a label act here speaks about. */
  upon: string[];
  plug: number | null;
  /** The old label exactly as it was read, to be taken off. */
  oldText: string | null;
  /** What was read under the new name here and is not yet believed, and the cable that has that name by plan. */
  unclear: { text: string; other: string } | null;
  others: string;
  far: { place: PlaceId; words: string } | null;
  followed: boolean;
  onAir: boolean;
  tired: boolean;
}

/** What a walk shows of a renaming, at one jack and as a whole. */
export interface WalkRenaming {
  here: JackRename | null;
  /** Old names of all that is half done. */
  half: string[];
  /** False in a relabelling that has no list yet. */
  listed: boolean;
}
