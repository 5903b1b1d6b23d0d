// What is wrong at one rack position: the unit seen there against the unit planned there.
import { placeToParts, slotToPlace } from '../plan/identity.ts';
import type { Unit } from '../plan/model.ts';
import { type PlanIndex, placeToWords } from '../plan/planIndex.ts';
import { saidGone } from './described.ts';
import { type Discrepancy, makeDiscrepancy } from './discrepancy.ts';
import type { EventOf } from './events.ts';
import type { FoldView } from './foldView.ts';

/** The unit that the plan has at a U, which may be any of the U it covers. */
export function unitPlannedAt(index: PlanIndex, rack: string, u: number): Unit | undefined {
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
    const detail = { found: label, plan: planned.label };
    return [makeDiscrepancy('unit-replaced', 'record', [place], [label], [event], detail)];
  });
}

export function unitDiscrepancies(view: FoldView, place: string): Discrepancy[] {
  const parts = placeToParts(place);
  if (parts.type !== 'slot') return [];
  const { index } = view;
  const state = view.stateAt(place);
  const evidence = state.looks.map((look) => look.event);
  const planned = unitPlannedAt(index, parts.rack, parts.u);
  if (state.type === 'conflict') return [makeDiscrepancy('sightings-conflict', 'undecided', [place], [], evidence)];
  if (state.type === 'empty' || state.type === 'blanked') {
    const here = planned && slotToPlace(parts.rack, planned.u ?? parts.u) === place;
    if (!planned || !here || view.unitSeenAt(planned.id).length > 0) return [];
    return [makeDiscrepancy('unit-not-found', 'service', [place], [planned.label], evidence, { plan: planned.label })];
  }
  return state.plugs.flatMap((plug) =>
    plug.labels.flatMap(({ text }): Discrepancy[] => {
      const named = index.names.exact.get(text.trim()) ?? [];
      const unit = named.map((one) => index.units.get(one.id)).find((one) => one !== undefined);
      if (unit) {
        const inPlace =
          unit.rack === parts.rack && unit.u !== undefined && parts.u >= unit.u && parts.u < unit.u + unit.heightU;
        if (inPlace || unit.rack === undefined || unit.u === undefined) return [];
        const plan = placeToWords(index, slotToPlace(unit.rack, unit.u));
        return [makeDiscrepancy('unit-moved', 'record', [place], [unit.label], evidence, { found: unit.label, plan })];
      }
      const detail = { found: text, ...(planned ? { plan: planned.label } : {}) };
      return [
        makeDiscrepancy(planned ? 'unit-replaced' : 'unit-unlisted', 'record', [place], [text], evidence, detail),
      ];
    }),
  );
}
