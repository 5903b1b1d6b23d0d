// What is wrong at one rack position: the unit seen there against the unit planned there.

import { type PlaceId, placeToParts, type RackId, slotToPlace } from '../plan/identity.ts';
import type { Unit } from '../plan/model.ts';
import { onAirOf } from '../plan/onAir.ts';
import { type PlanIndex, unitNamed } from '../plan/planIndex.ts';
import { saidGone } from '../record/described.ts';
import type { EventOf } from '../record/events.ts';
import { conflictOf } from './conflicts.ts';
import { type Discrepancy, makeDiscrepancy } from './discrepancy.ts';
import type { FoldView } from './foldView.ts';

/** The unit that the plan has at a U, which may be any of the U it covers. */
export function unitPlannedAt(index: PlanIndex, rack: RackId, u: number): Unit | undefined {
  return index.plan.units.find(
    (unit) => unit.rack === rack && unit.u !== undefined && u >= unit.u && u < unit.u + unit.heightU,
  );
}

/** A unit that the plan has where somebody described another one and said that it is gone; seen elsewhere it is moved. */
export function goneDiscrepancies(view: FoldView, described: readonly EventOf<'unit-described'>[]): Discrepancy[] {
  return saidGone(described).flatMap(({ event, label, unit }) => {
    const planned = view.index.units.get(unit);
    if (!planned?.rack || planned.u === undefined || view.unitSeenAt(unit).length > 0) return [];
    const place = slotToPlace(planned.rack, planned.u);
    const finding = { kind: 'unit-replaced', found: label, plan: planned.label } as const;
    return [makeDiscrepancy(finding, 'record', [place], [label], [event])];
  });
}

export function unitDiscrepancies(view: FoldView, place: PlaceId): Discrepancy[] {
  const parts = placeToParts(place);
  if (parts.type !== 'slot') return [];
  const { index } = view;
  const state = view.stateAt(place);
  const evidence = state.looks.map((look) => look.event);
  const planned = unitPlannedAt(index, parts.rack, parts.u);
  if (state.type === 'conflict') return [makeDiscrepancy(conflictOf(state), 'undecided', [place], [], evidence)];
  if (state.type === 'empty' || state.type === 'blanked') {
    const here = planned && slotToPlace(parts.rack, planned.u ?? parts.u) === place;
    if (!planned || !here || view.unitSeenAt(planned.id).length > 0) return [];
    const finding = { kind: 'unit-not-found', plan: planned.label } as const;
    const severity = onAirOf(view).units.has(planned.id) ? 'on-air' : 'service';
    return [makeDiscrepancy(finding, severity, [place], [planned.label], evidence)];
  }
  return state.plugs.flatMap((plug) =>
    plug.labels.flatMap(({ text }): Discrepancy[] => {
      const unit = unitNamed(index, text.trim());
      if (unit) {
        const inPlace =
          unit.rack === parts.rack && unit.u !== undefined && parts.u >= unit.u && parts.u < unit.u + unit.heightU;
        if (inPlace || unit.rack === undefined || unit.u === undefined) return [];
        const finding = { kind: 'unit-moved', found: unit.label, home: slotToPlace(unit.rack, unit.u) } as const;
        return [makeDiscrepancy(finding, 'record', [place], [unit.label], evidence)];
      }
      const finding = planned
        ? ({ kind: 'unit-replaced', found: text, plan: planned.label } as const)
        : ({ kind: 'unit-unlisted', found: text } as const);
      return [makeDiscrepancy(finding, 'record', [place], [text], evidence)];
    }),
  );
}
