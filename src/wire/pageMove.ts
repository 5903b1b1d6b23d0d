// Questions of the walk after a move: what hangs on a jack, and who else walks.
import type { AuditId, PlaceId } from '../core/plan/identity.ts';
import type { SaidSince, StatementAt } from '../core/report/walk/statementsAt.ts';

export interface MoveQuestions {
  /** Statements, notes, hazards and pictures that stand at these places, each as it can be said again elsewhere. */
  hung: { ask: { audit: AuditId; places: PlaceId[] }; answer: StatementAt[] };
  /** Statements that this log made at or after a time and that stand, in their order. */
  saidSince: { ask: { audit: AuditId; log: string; since: number }; answer: SaidSince[] };
}
