// The machine-readable reconciliation: places and labels as strings, nothing that depends on the clock or the machine.
// Fixes are those of the occasion after a move, as nobody has decided anything yet.
//
// Limits: `fixes` takes what the occasion after a move decides; a walk's own decisions are not read here, on the phone
// they are.

import { explain } from '../causes/explain.ts';
import type { Action } from '../fixes/step.ts';
import { isLooseEnd, type PlaceId } from '../plan/identity.ts';
import type { Plan } from '../plan/model.ts';
import { placeToWords } from '../plan/planIndex.ts';
import type { AuditEvent, Payload } from '../record/events.ts';
import { type Fold, foldAll } from '../rules/fold.ts';
import type { Question, QuestionKind, ReadCounts, ReadPlan } from '../schedule/rows/readTypes.ts';
import { cablesInScope, coverageOf } from './coverage.ts';
import { fixesOf } from './fixesView.ts';
import { interruptedToWords, stepToWords, whyToWords } from './words/fixWords.ts';

interface ReconcileOutput {
  plan: {
    cables: { label: string; ends: { end: string; location?: string; unit: string; jack: string }[] }[];
    guesses: Plan['guesses'];
    contradictions: { type: string; labels: string[]; places: string[]; rows: { sheet: string; row: number }[] }[];
    /** What nobody has answered: `said` stands in the cell. */
    questions: Omit<Question, 'kind'>[];
    /** Sheets, columns and rows that are not in the plan; `said` is what stands there first. */
    ignored: { sheet: string; row: number; column?: string; said: string }[];
  };
  coverage: { places: number; seen: number; cables: number; bothEnds: number };
  discrepancies: { kind: string; severity: string; places: string[]; labels: string[]; cause?: string }[];
  causes: {
    kind: string;
    certainty: string;
    places: string[];
    labels: string[];
    /** How many differences it covers. */
    explains: number;
    /** Differences in its reach that it does not cover, as kind and labels. */
    leftover: string[];
    nextLook?: string;
  }[];
  /** In order. What is not settled is a look, never a plug that moves. */
  fixes: {
    step: number;
    action: Action;
    from?: string;
    to?: string;
    label?: string;
    why: string;
    /** What goes off meanwhile, on-air circuits first. */
    interrupts: string[];
  }[];
}

export interface SightingGiven {
  author: string;
  at: number;
  zone: number;
  payload: Payload<'sighting'>;
}

/** Every sighting in one audit of the whole plan. Ids count up with the rows, so the same file gives the same bytes. */
export function foldSightings(plan: Plan, sightings: readonly SightingGiven[]): Fold {
  const envelope = (seq: number) => ({
    v: 1,
    id: `row-${String(seq).padStart(7, '0')}`,
    station: 'list',
    audit: 'list',
    log: 'list',
    seq,
    prev: null,
  });
  const start: AuditEvent = {
    ...envelope(0),
    author: '',
    at: 0,
    zone: 0,
    kind: 'audit-started',
    payload: {
      name: '',
      occasion: 'after-move',
      scope: { racks: [], rooms: [] },
      exclusions: [],
      permission: 'look',
      people: [],
      plan: null,
      blind: false,
    },
  };
  const events = sightings.map(
    ({ author, at, zone, payload }, i): AuditEvent => ({
      ...envelope(i + 1),
      author,
      at,
      zone,
      kind: 'sighting',
      payload,
    }),
  );
  return foldAll(plan, [start, ...events]);
}

/** How the schedule was read, beside the plan. */
type Reading = Pick<Extract<ReadPlan, { type: 'plan' }>, 'questions' | 'guesses'> & {
  counts: Pick<ReadCounts, 'ignored'>;
};

/** Does the answer say which cable it is, where it ends or what it carries? The others say more about what is known. */
const CHANGES_CABLE: Record<QuestionKind, boolean> = {
  end: true,
  jack: true,
  unit: true,
  number: true,
  'row-shape': true,
  several: true,
  'which-is-right': true,
  spelling: true,
  signal: true,
  ditto: true,
  'own-sheet': true,
  column: true,
  'no-item': true,
  gone: true,
  length: false,
  word: false,
  circuit: false,
};

/** Whether a plan with this question open may have a cable wrong. */
export function changesCable({ kind }: Pick<Question, 'kind'>): boolean {
  return CHANGES_CABLE[kind];
}

/** What the reader left aside: sheets without a list, columns without a meaning, rows that list nothing. */
function leftAside({ guesses, counts }: Reading): ReconcileOutput['plan']['ignored'] {
  return [
    ...counts.ignored.map(({ sheet, row, said }) => ({ sheet, row, said })),
    ...guesses
      .filter(({ kind }) => kind === 'column-unread' || kind === 'no-item')
      .map(({ sheet, row, column, said }) => ({ sheet, row, ...(column === undefined ? {} : { column }), said })),
  ];
}

export function foldToOutput(fold: Fold, reading: Reading): ReconcileOutput {
  const { index } = fold;
  const { places, seen, cables, bothEnds } = coverageOf(fold, cablesInScope(fold));
  const differences = fold.discrepancies();
  const { causes } = explain(fold, differences);
  const words = (place: PlaceId) => (isLooseEnd(place) ? `loose: ${fold.wordsOf(place)}` : placeToWords(index, place));
  return {
    plan: {
      cables: index.plan.cables.map((cable) => ({
        label: cable.label,
        ends: cable.ends.map(({ end, location, unit, jack }) => ({
          end,
          ...(location ? { location } : {}),
          unit,
          jack,
        })),
      })),
      guesses: index.plan.guesses,
      contradictions: index.plan.contradictions.map((one) => ({
        type: one.type,
        labels: one.cables.map((id) => index.cables.get(id)?.label ?? id),
        places: one.places.map(words),
        rows: one.rows,
      })),
      questions: reading.questions.map(({ kind: _, ...question }) => question),
      ignored: leftAside(reading),
    },
    coverage: { places, seen, cables, bothEnds },
    discrepancies: differences.map(({ id, kind, severity, places: at, labels }) => {
      const cause = causes.find(({ explains }) => explains.includes(id));
      return { kind, severity, places: at.map(words), labels, ...(cause ? { cause: cause.kind } : {}) };
    }),
    causes: causes.map(({ kind, certainty, places: at, labels, explains, leftover, nextLook }) => ({
      kind,
      certainty,
      places: at.map(words),
      labels,
      explains: explains.length,
      leftover: leftover.flatMap((id) => {
        const left = differences.find((one) => one.id === id);
        return left ? [[left.kind, ...left.labels].join(' ')] : [];
      }),
      ...(nextLook ? { nextLook: words(nextLook.place) } : {}),
    })),
    fixes: fixesToOutput(fold, words),
  };
}

function fixesToOutput(fold: Fold, words: (place: PlaceId) => string): ReconcileOutput['fixes'] {
  const { list, aboutOf } = fixesOf(fold);
  return list.blocks
    .flatMap(({ steps }) => steps)
    .map((step, i) => {
      const about = aboutOf(step);
      const { action, from, to, label, interrupts } = step;
      return {
        step: i + 1,
        action,
        ...(from === null ? {} : { from: words(from) }),
        ...(to === null ? {} : { to: words(to) }),
        ...(label === null ? {} : { label }),
        why: [stepToWords(fold, step, about), whyToWords(fold.index, step, about)].filter(Boolean).join(' '),
        interrupts: interrupts.map(interruptedToWords),
      };
    });
}
