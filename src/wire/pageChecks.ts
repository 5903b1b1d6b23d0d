// Questions about what was just read or checked: what it means beside the plan.
import type { EventId } from '../core/plan/identity.ts';
import type { ValueRead } from '../core/report/walk/valueRead.ts';

export interface CheckQuestions {
  /** What a value that was read off a unit means. */
  valueRead: { ask: { audit: string; event: EventId }; answer: ValueRead | null };
}
