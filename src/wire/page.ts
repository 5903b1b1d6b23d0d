// What the page asks the record worker, and what comes back, inside the envelope of worker.ts.
import * as z from 'zod/mini';
import type { AuditId, PlaceId, UnitId } from '../core/plan/identity.ts';
import type { Permission } from '../core/record/events.ts';
import type { CableView, PlanOverview, UnitView } from '../core/report/plan/planView.ts';
import type { SearchGroup } from '../core/report/plan/searchPlan.ts';
import type { DifferencesView, Reconciliation } from '../core/report/reconciliation.ts';
import type { EndsLeft } from '../core/report/walk/endsLeft.ts';
import type { HomeView } from '../core/report/walk/homeView.ts';
import type { Verdict } from '../core/report/walk/verdict.ts';
import type { WalkOrder } from '../core/report/walk/walkOrder.ts';
import type { StopView } from '../core/report/walk/walkStops.ts';
import type { WalkView } from '../core/report/walk/walkView.ts';
import type { FarQuestion, WindowItem } from '../core/report/walk/windowList.ts';
import type { CheckQuestions } from './pageChecks.ts';
import type { DescribeQuestions } from './pageDescribe.ts';
import type { DeskQuestions } from './pageDesk.ts';
import type { FixesQuestions } from './pageFixes.ts';
import type { MarkQuestions } from './pageMarks.ts';
import type { PartQuestions } from './pageParts.ts';
import type { PhotoQuestions } from './pagePhotos.ts';
import type { RecordQuestions } from './pageRecord.ts';
import type { RenamingQuestions } from './pageRenaming.ts';
import type { RevisionQuestions } from './pageRevisions.ts';
import type { ScopeQuestions } from './pageScope.ts';
import type { TwinQuestions } from './pageTwins.ts';
import type { WalkQuestions } from './pageWalk.ts';
import type { WorkQuestions } from './pageWork.ts';

export interface ScopeOptions {
  racks: { id: string; label: string; room: string | null; units: number; jacks: number }[];
  rooms: { name: string; units: number; jacks: number }[];
  plan: { revision: string; name: string } | null;
}

/** Rows of the printable page of labels. */
interface LabelRow {
  text: string;
  line: string;
}

export interface Questions
  extends RenamingQuestions,
    DescribeQuestions,
    PhotoQuestions,
    RecordQuestions,
    TwinQuestions,
    WorkQuestions,
    PartQuestions,
    MarkQuestions,
    FixesQuestions,
    DeskQuestions,
    CheckQuestions,
    RevisionQuestions,
    ScopeQuestions,
    WalkQuestions {
  home: { ask: Record<never, never>; answer: HomeView };
  walk: { ask: { audit: AuditId; place: PlaceId | null }; answer: WalkView | null };
  /** Sets which way this phone's walk of the audit goes. */
  way: { ask: { audit: AuditId; way: WalkOrder }; answer: null };
  stops: { ask: { audit: AuditId }; answer: StopView[] };
  verdict: { ask: { audit: AuditId; place: PlaceId }; answer: Verdict | null };
  nextOpen: { ask: { audit: AuditId; after: string | null }; answer: string | null };
  farQuestion: { ask: { audit: AuditId; place: PlaceId | null; skipped: string[] }; answer: FarQuestion | null };
  window: { ask: { audit: AuditId }; answer: WindowItem[] };
  endsLeft: { ask: { audit: AuditId; place: PlaceId | null; author: string }; answer: EndsLeft | null };
  /** Where the plan has the ends of the cables that a label may name. */
  homes: { ask: { audit: AuditId; text: string }; answer: { place: PlaceId; unit: UnitId; words: string }[] };
  suggest: { ask: { audit: AuditId; place: PlaceId | null; text: string }; answer: { label: string; line: string }[] };
  /** Jack ids between two, both included, in the printed order of their unit; null when not on one unit. */
  range: {
    ask: { audit: AuditId; first: string; last: string };
    answer: { place: PlaceId; label: string; planned: boolean }[] | null;
  };
  search: { ask: { text: string }; answer: SearchGroup[] };
  cable: { ask: { id: string }; answer: CableView | null };
  plan: { ask: Record<never, never>; answer: PlanOverview | null };
  unit: { ask: { id: string }; answer: UnitView | null };
  scope: { ask: Record<never, never>; answer: ScopeOptions };
  differences: { ask: { audit: AuditId }; answer: DifferencesView | null };
  report: { ask: { audit: AuditId }; answer: Reconciliation | null };
  labels: { ask: { audit: AuditId | null }; answer: LabelRow[] };
  /** Plans to be handed over; `missing` are known not to be on this phone. */
  wanted: { ask: { missing: string[] }; answer: string[] };
  permission: { ask: { audit: AuditId }; answer: Permission };
}
export type Question = keyof Questions;

export const pageToWorker = z.discriminatedUnion('type', [
  z.object({ type: z.literal('texts'), texts: z.array(z.string()) }),
  z.object({
    type: z.literal('plan'),
    revision: z.string(),
    bytes: z.custom<ArrayBuffer>((value) => value instanceof ArrayBuffer),
  }),
  /** One of the questions, with what it asks with. */
  z.object({ type: z.literal('ask'), question: z.string(), with: z.unknown() }),
]);
export type PageToWorker = z.infer<typeof pageToWorker>;

/** Answer to `texts`. */
export interface TextsTaken {
  audits: string[];
  kept: number;
  unreadable: number;
}
