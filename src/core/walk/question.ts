// What a walk asks before something is recorded, and what it records. Types only; they are kept in drafts.
import type { EventId, PlaceId } from '../plan/identity.ts';
import type { Payload, Sighting, State } from '../record/events.ts';

/** A look that stands and that what is said now contradicts. */
export interface Earlier {
  event: EventId;
  author: string;
  at: number;
  label: string | null;
  state: State;
  /** Where, and in what words; absent in drafts of earlier builds, which asked about one place alone. */
  place?: PlaceId;
  said?: string;
}

export interface Candidate {
  id: string;
  label: string;
  line: string;
  /** Absent in drafts of earlier builds, where `line` was the type of what is no cable. */
  type?: 'cable' | 'unit' | 'rack' | 'jack';
}

/** A label that was read already, and where. */
export interface NearLabel {
  label: string;
  line: string;
}

/** A label about which something is asked before it counts. */
interface LabelAsked {
  text: string;
  by: By;
  /** What it was said in, where that is not a reading at the jack in hand: told by a helper, at a loose end. */
  of?: Sighting;
}

export type LabelQuestion = LabelAsked &
  (
    | { type: 'candidates'; candidates: Candidate[] }
    | { type: 'named'; what: 'unit' | 'rack' | 'jack'; id: string; label: string }
    /** No plan knows it, and it is hardly to be told from what was read elsewhere. */
    | { type: 'near'; near: NearLabel[] }
  );

export type WalkQuestion =
  | LabelQuestion
  | { type: 'unlikely'; text: string; by: By; length: number }
  | { type: 'earlier'; sighting: Sighting; earlier: Earlier[] };

/** Those on which something waits that was said already. */
export type OwedQuestion = Extract<WalkQuestion, { type: 'candidates' | 'near' | 'unlikely' | 'earlier' }>;

/** How a label was taken. */
export type By = 'camera' | 'wedge' | 'typed' | 'tapped' | 'still' | 'double';

export type LabelStatement =
  | { kind: 'label-put'; payload: Payload<'label-put'> }
  | { kind: 'label-off'; payload: Payload<'label-off'> };

/** What the walk records after the judgement. */
export type Statement = LabelStatement | { kind: 'sighting'; payload: Sighting };
