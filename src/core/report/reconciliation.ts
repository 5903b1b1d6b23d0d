// The reconciliation report of one audit as data: what was checked, what differs, what was not looked at and why.

import { explain } from '../causes/explain.ts';
import { decisionsOf } from '../fixes/decisions.ts';
import { placesOver } from '../plan/containment.ts';
import type { AuditId, PlaceId } from '../plan/identity.ts';
import type { Occasion, Permission } from '../record/events.ts';
import { exclusionsOf } from '../record/scope.ts';
import { isConflict } from '../rules/conflicts.ts';
import type { Fold } from '../rules/fold.ts';
import { isComplete } from '../rules/planDiscrepancies.ts';
import { changesOf } from '../rules/work.ts';
import { SEVERITIES, type Severity } from '../trade/kinds.ts';
import { type CausesView, causesView } from './causesView.ts';
import { type Coverage, cablesInScope, coverageOf } from './coverage.ts';
import {
  type AmendmentsView,
  amendmentsView,
  type DecisionLine,
  decisionLine,
  decisionToLine,
  type SaidLine,
} from './decisionsView.ts';
import { differenceNumbers } from './differenceNumbers.ts';
import { type ConflictSide, conflictSides, type EvidenceLine, evidenceOf, whereToGo } from './evidenceView.ts';
import { type LeftLine, leftLines } from './leftView.ts';
import { documentsAt, type PhotosView, photosView } from './photosView.ts';
import {
  movesOf,
  oneEndRows,
  type PlanMove,
  pairRows,
  type ReportRenaming,
  type ReportTest,
  racksLookedAt,
  remarkRows,
  renamingOf,
  testRows,
} from './reportRows.ts';
import { type Certainty, marksLeft } from './walk/marksView.ts';
import { type AddedLine, addedLines } from './walk/scopeView.ts';
import { type WindowItem, windowList } from './walk/windowList.ts';
import { pairToWords } from './words/markWords.ts';
import { discrepancyToWords, SEVERITY_WORDS } from './words/words.ts';

export interface DifferenceLine {
  id: string;
  /** Its own for good, on every phone: differenceNumbers.ts. */
  number: number;
  kind: string;
  severity: Severity;
  severityWords: string;
  title: string;
  line: string;
  /** For the walk: in a blind audit without where a label belongs. */
  walkLine: string;
  order: string | null;
  places: string[];
  placeIds: PlaceId[];
  labels: string[];
  found: string | null;
  plan: string | null;
  evidence: EvidenceLine[];
  photos: string[];
  notes: string[];
  decision: DecisionLine;
  /** Entries that contradict each other, side by side; null where none do. */
  conflict: ConflictSide[] | null;
  /** Jack to go to; null where there is none to stand at. */
  goTo: { place: PlaceId; words: string } | null;
}

export interface DifferencesView {
  audit: AuditId;
  name: string;
  lines: DifferenceLine[];
  counts: { severity: Severity; words: string; count: number }[];
  explained: CausesView;
  /** Without a decision that stands. */
  undecided: number;
  /** Decided, and no longer different. */
  past: (SaidLine & { about: string })[];
  amendments: AmendmentsView;
}

export interface Reconciliation extends DifferencesView {
  station: string;
  occasion: Occasion | null;
  plan: {
    name: string;
    revision: string | null;
    source: string | null;
    /** Who moved it to another revision while it ran, the move that counts first. */
    moves: PlanMove[];
  };
  people: string[];
  startedAt: number;
  lastAt: number;
  closedAt: number | null;
  permission: Permission;
  coverage: Coverage;
  complete: boolean;
  byRack: { label: string; places: number; seen: number; differ: number }[];
  confirmed: string[];
  oneEnd: { label: string; missing: string }[];
  notSeen: string[];
  notLooked: { place: string; reason: string }[];
  exclusions: { label: string; reason: string }[];
  /** What was added to the scope while it ran. */
  added: AddedLine[];
  /** Changed during the audit: as found beside as left. */
  left: LeftLine[];
  /** What needs a hand, a key or another time. */
  forWindow: WindowItem[];
  /** Put against the plan on purpose, those that wait for their end first; `until` in words or as a date. */
  changes: { place: string; label: string; reason: string; until: string | null; author: string; at: number }[];
  /** Cables that land pair by pair, and what is known of their pairs. */
  pairs: { label: string; words: string }[];
  /** Ends that may be one cable by jacket and marks: left to prove, joined nowhere. */
  toProve: { ends: string; certainty: Certainty; words: string }[];
  /** Every test of an end, by time. */
  tests: ReportTest[];
  /** How far a renaming is; null where none was begun. */
  renaming: ReportRenaming | null;
  /** Notes that hang on no difference, and what was said on closing; `place` is where, in words. */
  remarks: { place: string | null; text: string; at: number; author: string }[];
  photoCount: number;
  /** Pictures and voice notes of the audit, each with its place, marks and pins. */
  media: Pick<PhotosView, 'photos' | 'voices'>;
}

export function differencesView(fold: Fold, audit: AuditId): DifferencesView {
  const evidence = evidenceOf(fold);
  const blind = fold.started?.payload.blind === true;
  const found = fold.discrepancies();
  const explanation = explain(fold, found);
  const decisions = decisionsOf(fold, found);
  const numbers = differenceNumbers(found.map(({ id }) => id));
  const lines = found.map((d): DifferenceLine => {
    const words = discrepancyToWords(fold.index, d);
    return {
      id: d.id,
      number: numbers.get(d.id) ?? 0,
      kind: d.kind,
      severity: d.severity,
      severityWords: words.severity,
      title: words.title,
      line: words.line,
      walkLine: blind ? discrepancyToWords(fold.index, d, { blind }).line : words.line,
      order: words.order,
      places: d.places.map(fold.wordsOf),
      placeIds: d.places,
      labels: d.labels,
      found: d.found ?? null,
      plan: d.plan ?? null,
      evidence: d.evidence.flatMap((event) => evidence.get(event) ?? []).sort((a, b) => a.at - b.at),
      photos: documentsAt(fold, d.places),
      notes: fold
        .of('note')
        .filter((n) => n.payload.place && d.places.includes(n.payload.place))
        .map((n) => n.payload.text),
      decision: decisionLine(fold, d, words.line, decisions.ofDifference(d)),
      conflict: isConflict(d) ? d.places.flatMap((place) => conflictSides(fold, place)) : null,
      goTo: whereToGo(fold, d.places),
    };
  });
  return {
    audit,
    name: fold.started?.payload.name ?? '',
    lines,
    explained: causesView(fold, found, explanation, decisions),
    undecided: decisions.open.length,
    past: decisions.past.map((one) => ({ ...decisionToLine(one), about: one.about })),
    amendments: amendmentsView(fold, found, explanation.causes, decisions),
    counts: SEVERITIES.map((severity) => ({
      severity,
      words: SEVERITY_WORDS[severity],
      count: found.filter((d) => d.severity === severity).length,
    })).filter(({ count }) => count > 0),
  };
}

export function reconciliation(fold: Fold, audit: AuditId, station: string): Reconciliation {
  const differences = differencesView(fold, audit);
  const started = fold.started?.payload;
  const lines = cablesInScope(fold);
  const differing = new Set(
    // A landing that differs makes the place differ whose part it is. A test that nobody made says nothing of the wiring.
    differences.lines
      .filter(({ kind }) => kind !== 'not-tested')
      .flatMap((line) => line.placeIds.flatMap((place) => [place, ...placesOver(fold.index, place)])),
  );
  const explained = new Set(differences.lines.flatMap((line) => line.notes));
  return {
    ...differences,
    station,
    occasion: started?.occasion ?? null,
    plan: {
      name: fold.index.plan.name,
      revision: fold.revision,
      source: fold.index.plan.source?.name ?? null,
      moves: movesOf(fold),
    },
    people: [...fold.people].sort(),
    startedAt: fold.started?.at ?? 0,
    lastAt: fold.lastAt,
    closedAt: fold.closed?.at ?? null,
    permission: fold.permission,
    coverage: coverageOf(fold, lines),
    complete: isComplete(fold),
    ...racksLookedAt(fold, differing),
    confirmed: lines.filter(({ status }) => status.type === 'confirmed').map(({ label }) => label),
    oneEnd: oneEndRows(fold, lines),
    notSeen: lines.filter(({ status }) => status.type === 'not-seen').map(({ label }) => label),
    added: addedLines(fold),
    exclusions: exclusionsOf(started?.exclusions ?? [], fold.of('scope-added')).map(({ label, reason }) => ({
      label,
      reason,
    })),
    left: leftLines(fold),
    forWindow: windowList(fold),
    changes: changesOf(fold)
      .map((one) => ({ ...one, place: fold.wordsOf(one.place) }))
      .sort((a, b) => Number(a.until === null) - Number(b.until === null)),
    pairs: pairRows(fold, lines),
    toProve: marksLeft(fold).map((pair) => ({
      ends: pairToWords(pair),
      certainty: pair.certainty,
      words: `${pair.line} ${pair.evidence}`,
    })),
    tests: testRows(fold),
    renaming: renamingOf(fold, audit),
    remarks: remarkRows(fold, explained),
    photoCount: fold.of('photo').length,
    media: photosView(fold, null),
  };
}
