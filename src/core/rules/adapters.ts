// What hangs between a plug and a jack: which described units hang on a place, which plugs are theirs, and what is to be
// said of one that the plan does not name. Judges nothing else.

import { rangeOver } from '../plan/containment.ts';
import type { PlaceId } from '../plan/identity.ts';
import type { PlannedEnd } from '../plan/planIndex.ts';
import type { PlaceState } from '../record/looks.ts';
import type { PlugReading } from '../record/readings.ts';
import type { Severity } from '../trade/kinds.ts';
import { nameToKey } from '../trade/names.ts';
import type { Finding } from './discrepancy.ts';
import type { FoldView } from './foldView.ts';

export type Add = (finding: Finding, severity: Severity, labels: string[]) => unknown;

/** Units that hang on this place by their own description. */
export function adaptersAt(view: FoldView, place: PlaceId): string[] {
  return view.stateAt(place).plugs.flatMap((plug) => {
    const unit = unitOfPlug(view, plug);
    return unit?.at === place ? [unit.id] : [];
  });
}

function unitOfPlug({ index }: FoldView, plug: PlugReading['plug']) {
  return index.units.get(nameToKey(plug.adapter ?? '')) ?? undefined;
}

/** The plug is that of a described adapter: by its own word, or its label names the unit. */
export function isAdapter(view: FoldView, { plug, text }: PlugReading): boolean {
  return unitOfPlug(view, plug) !== undefined || view.index.units.get(nameToKey(text))?.at !== undefined;
}

/** Single pairs on a block bear no label of their own, and an adapter goes by its name. */
export function needsNoLabel(view: FoldView, place: PlaceId, state: PlaceState): boolean {
  return rangeOver(view.index, place) !== null || state.plugs.some((plug) => unitOfPlug(view, plug) !== undefined);
}

/** A thing between plug and jack that the plan's words for the cable do not name. A described one is told where it hangs. */
export function adapterDiscrepancies(
  view: FoldView,
  place: PlaceId,
  plug: PlugReading['plug'],
  planned: readonly PlannedEnd[],
  add: Add,
): void {
  if (plug.adapter === undefined) return;
  const unit = unitOfPlug(view, plug);
  if (unit?.at !== undefined && unit.at !== place) return;
  if (unit?.form === 'cord' || unit?.form === 'supply') return;
  // Where a place is inherited and the plan has nothing here, what is described is the record.
  if (unit && view.occasion === 'inherit' && planned.length === 0) return;
  const name = unit?.label ?? plug.adapter;
  const label = plug.labels[0]?.text;
  const read = view.readingsAt(place).find(({ text }) => text === label)?.cable;
  const cables = [...planned.map(({ cable }) => cable), ...(read ? [view.index.cables.get(read)] : [])];
  const isNamed = cables.some((cable) =>
    nameToKey(`${cable?.notes ?? ''} ${cable?.type ?? ''}`).includes(nameToKey(name)),
  );
  if (!isNamed) add({ kind: 'undeclared-adapter', found: name }, 'record', [label ?? name]);
}
