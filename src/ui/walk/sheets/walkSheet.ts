// Which question of the walk is open. Plain data: sheets are opened by setting it and closed by null.
import type { PlaceId } from '../../../core/plan/identity.ts';
import type { MarkedEnd } from '../../../core/report/walk/marksView.ts';
import type { WalkQuestion } from '../../../core/walk/question.ts';

export interface PhotoAt {
  place: PlaceId | null;
  words: string;
  /** A unit with all its jacks, whose labels are read later. */
  whole?: boolean | undefined;
  /** What photos may show was not read in this audit yet. */
  caution?: boolean | undefined;
}

/** `open`: a photo to begin with; `again`: only to be read. */
export interface PhotoSheetState extends PhotoAt {
  type: 'photos' | 'voice' | 'photo-caution';
  open?: string;
  again?: boolean;
}

/** Sheets that need nothing but their name. */
export type PlainSheet =
  | ('pattern' | 'type' | 'setting' | 'work' | 'left-to-build' | 'jacket' | 'twins' | 'refused' | 'hazard')
  | ('more' | 'jump' | 'ends' | 'way' | 'radio' | 'window' | 'loose' | 'unit-here')
  | ('permission' | 'scope' | 'camera' | 'finish');

export type Sheet =
  | WalkQuestion
  | { type: PlainSheet | 'name' }
  /** Two ends that jacket and marks fit, to be proven by following the cable. */
  | { type: 'follow'; end: MarkedEnd; far: MarkedEnd }
  | { type: 'change'; place: PlaceId; jack: string; label: string }
  | ({ type: 'note' | 'photo' } & PhotoAt)
  | PhotoSheetState;
