// Questions of the walk before and after something is written, and what undo and the slip need to know.
import type { AuditId, PlaceId } from '../core/plan/identity.ts';
import type { Fits } from '../core/report/walk/fitsPattern.ts';
import type { SlipMemory, Stated } from '../core/report/walk/stated.ts';
import type { Decision, Here, Remembered, WalkInput } from '../core/walk/decide.ts';
import type { ReadingView } from '../core/walk/reading.ts';
import type { Slip } from '../core/walk/slip.ts';
import type { SaidSince, StatementAt } from '../core/walk/statementsAt.ts';

export interface WalkQuestions {
  /** Before the write: what is to be asked or recorded. */
  judge: { ask: { audit: AuditId; memory: Remembered; here: Here; input: WalkInput }; answer: Decision };
  /** After the write, all that the walk shows in one answer. `here` is the jack in hand, `open` the slip asked about. */
  stated: {
    ask: { audit: AuditId; places: PlaceId[]; here: PlaceId | null; memory: SlipMemory; open: Slip | null };
    answer: Stated;
  };
  slipLeft: { ask: { audit: AuditId; memory: SlipMemory }; answer: Slip | null };
  /** A text against the plan where nothing is stated by it: what it names. */
  reading: { ask: { audit: AuditId | null; place: PlaceId | null; text: string }; answer: ReadingView };
  /** Statements, notes, hazards and pictures that stand at these places, each as it can be said again elsewhere. */
  statementsAt: { ask: { audit: AuditId; places: PlaceId[] }; answer: StatementAt[] };
  /** Known labels that the worn one at this place fits. */
  fits: { ask: { audit: AuditId; place: PlaceId }; answer: Fits | null };
  /** Statements that this log made at or after a time and that stand, in their order. */
  saidSince: { ask: { audit: AuditId; log: string; since: number }; answer: SaidSince[] };
}
