// Questions about a renaming and their answers. Types alone; the answers are made in workers/answersRenaming.ts.
import type { AuditId } from '../core/plan/identity.ts';
import type { RenamedPlan } from '../core/renaming/renamedPlan.ts';
import type { CheckedPair, ListedPair } from '../core/renaming/renamingCheck.ts';
import type { RenameRule } from '../core/renaming/renamingRead.ts';
import type { RenamingLabel, RenamingView } from '../core/report/renamingView.ts';

/** What stands half done, for the line that is always in view. */
interface HalfDone {
  /** Old names of all that are half done. */
  half: string[];
  /** Those of them that nobody was told about: they keep the audit open. */
  left: string[];
  listed: number;
}

export interface RenamingQuestions {
  renaming: { ask: { audit: AuditId; from: string | null }; answer: RenamingView | null };
  renamingHalf: { ask: { audit: AuditId }; answer: HalfDone };
  renamingCheck: {
    ask: { audit: AuditId; pairs: ListedPair[]; answers: Record<string, string> };
    answer: CheckedPair[];
  };
  renamingRule: { ask: { audit: AuditId; rule: RenameRule }; answer: ListedPair[] };
  /** With `whole` the plan itself comes along, to be adopted; without it only what would change. */
  renamingPlan: {
    ask: { audit: AuditId; whole: boolean };
    answer: (Omit<RenamedPlan, 'plan'> & { plan: RenamedPlan['plan'] | null }) | null;
  };
  renamingLabels: { ask: { audit: AuditId }; answer: RenamingLabel[] };
}
