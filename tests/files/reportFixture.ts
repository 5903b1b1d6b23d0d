// A small reconciliation, invented, whose numbers add up; tests change what they are about.
import type { DecisionLine } from '../../src/core/report/decisionsView.ts';
import { type ReportAbout, reportDocument } from '../../src/core/report/document/reportDocument.ts';
import type { DifferenceLine, Reconciliation } from '../../src/core/report/reconciliation.ts';
import { documentToHtml } from '../../src/files/reportHtml.ts';

/** The file of a report, as the screen has it made; cells without what only a narrow page needs. */
export function reportToHtml(
  of: Reconciliation,
  about: ReportAbout & { pictures?: ReadonlyMap<string, string> },
): string {
  const html = documentToHtml(reportDocument(of, about), about.pictures);
  return html.replace(/<t[a-z]+ [^>]*>/g, (tag) => tag.replace(/ (?:role|data-head)="[^"]*"/g, ''));
}

export const AT = Date.UTC(2026, 10, 25, 10, 43);

export function line(change: Partial<DifferenceLine> = {}): DifferenceLine {
  return {
    id: 'wrong-jack R1-SW1/P03 1004',
    number: 1,
    kind: 'wrong-jack',
    severity: 'undecided',
    severityWords: 'Undecided, treated as on-air',
    title: 'Label not in its planned jack',
    line: 'SW1 P03: 1004 is here, plan 1003.',
    walkLine: 'SW1 P03: 1004 is here, plan 1003.',
    order: null,
    places: ['SW1 P03'],
    placeIds: ['SW1/P03'],
    labels: ['1004', '1003'],
    found: '1004',
    plan: '1003',
    evidence: [{ at: AT, author: 'I. Halloran', basis: 'seen' }],
    photos: [],
    notes: [],
    conflict: null,
    goTo: null,
    decision: undecided({ type: 'discrepancy', id: 'wrong-jack R1-SW1/P03 1004' }),
    ...change,
  };
}

export function undecided(target: DecisionLine['target']): DecisionLine {
  return {
    target,
    about: 'SW1 P03: 1004 is here, plan 1003.',
    facts: ['e40c292c'],
    usual: 'fix-floor',
    usualWords: 'Usual after a move: fix the wiring.',
    amendWords: null,
    choice: null,
    disputed: false,
    said: [],
  };
}

export function report(change: Partial<Reconciliation> = {}): Reconciliation {
  const lines = change.lines ?? [line()];
  return {
    audit: 'audit-1',
    name: 'After the move: R1',
    lines,
    counts: [{ severity: 'undecided', words: 'Undecided, treated as on-air', count: lines.length }],
    station: 'Quillmere Community Radio',
    occasion: 'after-move',
    plan: { name: 'Schedule', revision: 'ab'.repeat(32), source: 'schedule.xlsx', moves: [] },
    people: ['I. Halloran'],
    startedAt: AT - 3_600_000,
    lastAt: AT,
    closedAt: null,
    permission: 'look',
    coverage: {
      places: 10,
      seen: 7,
      notVerified: 1,
      cables: 6,
      bothEnds: 2,
      oneEnd: 1,
      differ: 1,
      notSeen: 1,
      cablesNotVerified: 1,
    },
    complete: false,
    byRack: [
      { label: 'Rack R1', places: 6, seen: 5, differ: 1 },
      { label: 'Studio', places: 4, seen: 2, differ: 0 },
    ],
    confirmed: ['1001', '1002'],
    oneEnd: [{ label: '1005', missing: 'MIO31 NET' }],
    notSeen: ['1006'],
    notLooked: [
      { place: 'MIO31 NET', reason: 'not looked at' },
      { place: 'WP2 J1', reason: 'could not be seen: behind furniture' },
      { place: 'WP2 J2', reason: 'not looked at' },
    ],
    added: [],
    exclusions: [{ label: '5001', reason: 'belongs to the telephone carrier' }],
    left: [],
    forWindow: [
      { place: 'WP2/J1', words: 'WP2 J1', owed: 'A check', why: 'behind furniture', author: 'I. Halloran', at: AT },
    ],
    changes: [],
    pairs: [],
    toProve: [],
    tests: [],
    renaming: null,
    remarks: [],
    photoCount: 0,
    media: { photos: [], voices: [] },
    explained: { causes: [], nextLook: null, alone: lines.map(({ id }) => id), exact: true, refused: [], reopened: [] },
    undecided: lines.length,
    past: [],
    amendments: { ends: [], byHand: [] },
    ...change,
  };
}
