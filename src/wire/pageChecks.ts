// Questions about what was just read or checked: what it means beside the plan.
import type { EventId, PlaceId } from '../core/plan/identity.ts';
import type { CheckDone, Checked, CheckView } from '../core/report/checkView.ts';
import type { NewCable } from '../core/report/walk/newCableView.ts';
import type { ValueRead } from '../core/report/walk/valueRead.ts';

export interface CheckQuestions {
  /** What a value that was read off a unit means. */
  valueRead: { ask: { audit: string; event: EventId }; answer: ValueRead | null };
  /** The check that settles a cause at this jack, as a form. */
  check: { ask: { audit: string; place: PlaceId }; answer: CheckView | null };
  /** What is recorded where somebody typed another answer. */
  checkTyped: { ask: { audit: string; place: PlaceId; text: string }; answer: Checked | null };
  /** What an answer did. */
  checkDone: { ask: { audit: string; place: PlaceId }; answer: CheckDone | null };
  /** A cable off the plan with an end at this jack, both of whose ends were read. */
  newCable: { ask: { audit: string; place: PlaceId }; answer: NewCable | null };
}
