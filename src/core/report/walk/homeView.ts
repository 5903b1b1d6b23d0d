// The station's first screen as data: the plan in force, the audits with one count each, and what is owed next.

import type { PlaceId } from '../../plan/identity.ts';
import { placeToWords } from '../../plan/planIndex.ts';
import { halfRenamed } from '../../renaming/renaming.ts';
import type { Fold } from '../../rules/foldView.ts';
import { isLookedAt } from '../../rules/planDiscrepancies.ts';
import type { Station } from '../../rules/station.ts';
import { type Coverage, cablesInScope, coverageOf } from '../coverage.ts';
import { halfToWords } from '../words/renamingWords.ts';
import { discrepancyToWords } from '../words/words.ts';
import { nextOpen, walkOf } from './walkStops.ts';
import { markAt } from './walkView.ts';

export interface Stroke {
  id: string;
  label: string;
  from: StrokeState;
  to: StrokeState;
  leftOut: boolean;
}

export type StrokeState = 'as-planned' | 'differs' | 'undecided' | 'not-seen';

export interface AuditSummary {
  id: string;
  name: string;
  occasion: string;
  startedAt: number;
  lastAt: number;
  closed: boolean;
  /** Null while the plan it is bound to has not arrived. */
  coverage: Coverage | null;
  differences: number;
  /** What is half renamed, in words; empty where nothing is. */
  half: string;
  hazards: { title: string; line: string; order: string | null }[];
  next: { place: PlaceId; words: string } | null;
  strokes: Stroke[];
  /** Above 60 cables, or where the unit of work is the jack: one mark per jack in walking order. */
  /** `said`: something was said, and there is no plan to agree with. */
  jacks: { place: PlaceId; state: StrokeState | 'said' }[];
}

export interface HomeView {
  name: string;
  plan: { revision: string; name: string; cables: number; arrived: boolean } | null;
  audits: AuditSummary[];
  kept: number;
}

export function homeView(station: Station): HomeView {
  const plan = station.planInForce();
  return {
    name: station.name(),
    plan: plan && {
      revision: plan.revision,
      name: plan.name,
      cables: plan.index?.plan.cables.length ?? 0,
      arrived: plan.index !== null,
    },
    audits: station.audits().map(({ id, started, fold }): AuditSummary => {
      const { name, occasion } = started.payload;
      const head = { id, name, occasion, startedAt: started.at };
      if (!fold) {
        return {
          ...head,
          lastAt: started.at,
          closed: false,
          coverage: null,
          differences: 0,
          half: '',
          hazards: [],
          next: null,
          strokes: [],
          jacks: [],
        };
      }
      const lines = cablesInScope(fold);
      const found = fold.discrepancies();
      const next = nextOpen(fold, null);
      const byJack = occasion === 'inherit' || lines.length > 60;
      return {
        ...head,
        lastAt: fold.lastAt,
        closed: fold.closed !== null,
        coverage: coverageOf(fold, lines),
        differences: found.length,
        half: halfToWords(halfRenamed(fold)),
        hazards: found
          .filter((d) => d.severity === 'people' || d.severity === 'equipment')
          .map((d) => discrepancyToWords(fold.index, d)),
        next: next === null ? null : { place: next, words: placeToWords(fold.index, next) },
        strokes: byJack ? [] : lines.map((line) => lineToStroke(fold, line)),
        jacks: byJack
          ? walkOf(fold)
              .flatMap((stop) => stop.places)
              .map((place) => ({ place, state: jackToStroke(fold, place) }))
          : [],
      };
    }),
    kept: station.keptCount(),
  };

  function lineToStroke(fold: Fold, { id, label, status }: ReturnType<typeof cablesInScope>[number]): Stroke {
    const how = (end: string): StrokeState => {
      const at = status.ends.find((one) => one.end === end);
      if (at?.seen === 'as-planned') return 'as-planned';
      if (at?.seen !== 'differs') return 'not-seen';
      return undecidedAt(fold, at.place) ? 'undecided' : 'differs';
    };
    return { id, label, from: how('A'), to: how('B'), leftOut: status.type === 'not-verified' };
  }
}

/** Labels alone cannot tell, or looks differ: one more look decides. */
function undecidedAt(fold: Fold, place: PlaceId | null): boolean {
  return place !== null && fold.discrepanciesAt(place)[0]?.severity === 'undecided';
}

function jackToStroke(fold: Fold, place: PlaceId): AuditSummary['jacks'][number]['state'] {
  if (!isLookedAt(fold, place)) return 'not-seen';
  const mark = markAt(fold, place);
  if (mark === 'undecided' || (mark === 'differs' && undecidedAt(fold, place))) return 'undecided';
  return mark === 'as-planned' ? mark : mark === undefined ? 'said' : 'differs';
}
