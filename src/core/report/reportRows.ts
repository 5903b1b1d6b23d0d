// Rows of the report that rest on one kind of entry each: tests of ends, how far a renaming is, moves of the audit to
// another plan. Values only; the document puts them into words.
import type { AuditId } from '../plan/identity.ts';
import { bindingOf } from '../record/binding.ts';
import type { Fold } from '../rules/foldView.ts';
import { type EndTest, testsOf } from '../rules/testDiscrepancies.ts';
import { endToWords } from './decisionsView.ts';
import { type RenameLine, type RenamingView, renamingView } from './renamingView.ts';

export interface ReportTest extends Pick<EndTest, 'label' | 'place' | 'result' | 'words' | 'author' | 'at' | 'again'> {
  /** In words; empty where the plan does not say. */
  end: string;
}

export interface ReportRenaming {
  counts: Pick<RenamingView['counts'], 'all' | 'done' | 'half' | 'untouched'>;
  half: Pick<RenameLine, 'old' | 'new' | 'todo' | 'handedOver' | 'place'>[];
}

export interface PlanMove {
  author: string;
  at: number;
  name: string;
}

export function testRows(fold: Fold): ReportTest[] {
  return testsOf(fold).map(({ label, end, place, result, words, author, at, again }) => ({
    label,
    end: end === null ? '' : endToWords(end),
    place: fold.wordsOf(place),
    result,
    words,
    author,
    at,
    again,
  }));
}

export function renamingOf(fold: Fold, audit: AuditId): ReportRenaming | null {
  const view = renamingView(fold, audit, null);
  if (!view || view.counts.all === 0) return null;
  const { all, done, half, untouched } = view.counts;
  return {
    counts: { all, done, half, untouched },
    half: view.half.map((one) => ({
      old: one.old,
      new: one.new,
      todo: one.todo,
      handedOver: one.handedOver,
      place: one.place,
    })),
  };
}

export function movesOf(fold: Fold): PlanMove[] {
  if (!fold.started) return [];
  return bindingOf(fold.started, fold.of('audit-bound')).heads.map(({ author, at, payload }) => ({
    author,
    at,
    name: payload.name,
  }));
}
