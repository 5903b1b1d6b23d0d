// What screens may ask of what is kept beside the record, and what may be wrong with it. Types only.
import type { AsideDraft } from '../../store/drafts.ts';
import type { StoreFailure, StoreResult } from '../../store/failures.ts';
import type { DraftKind } from './draftKind.ts';
import type { DraftKey } from './draftNames.ts';

export type DraftTrouble =
  /** Of another form than this build reads; it stands in the list of what was put aside. */
  | { type: 'aside'; key: DraftKey; why: null }
  /** It may be there: what is kept in its place from now on does not take it away. */
  | { type: 'unread' | 'not-kept'; key: DraftKey; why: StoreFailure['type'] };

export interface KeptServices {
  /** Null where there is none; where it does not fit or cannot be read the person is told. */
  draft<T>(key: DraftKey, kind: DraftKind<T>): Promise<T | null>;
  saveDraft<T>(key: DraftKey, value: T, kind: DraftKind<T>): Promise<void>;
  dropDraft(key: DraftKey): Promise<void>;
  draftsAside(): Promise<StoreResult<AsideDraft[]>>;
  dropAside(key: string): Promise<StoreResult<void>>;
}
