// What only the whole can say: cables not installed (needs complete coverage) and the plan's own contradictions.

import type { PlaceId } from '../plan/identity.ts';
import { isOnAir } from '../plan/onAir.ts';
import { LOOK_STATES } from '../record/events.ts';
import { isNotInstalled } from './cableDiscrepancies.ts';
import { type Discrepancy, makeDiscrepancy } from './discrepancy.ts';
import type { FoldView } from './foldView.ts';

/** A place counts as looked at when somebody looked and could say; not-visible, refused and inferred are not looks. */
export function isLookedAt(view: FoldView, place: PlaceId): boolean {
  return view.stateAt(place).looks.some((look) => LOOK_STATES.has(look.state) && look.basis !== 'inferred');
}

/** True when every place owed a look was looked at. */
export function isComplete(view: FoldView): boolean {
  if (view.scope.owed.size === 0) return false;
  for (const place of view.scope.owed) if (!isLookedAt(view, place)) return false;
  return true;
}

export function planDiscrepancies(view: FoldView): Discrepancy[] {
  const found: Discrepancy[] = view.index.plan.contradictions.map((contradiction) => {
    const labels = contradiction.cables.map((id) => view.index.cables.get(id)?.label ?? id);
    const { type, rows, places } = contradiction;
    return makeDiscrepancy({ kind: 'plan-contradiction', contradiction: type, rows }, 'record', places, labels, []);
  });
  if (!isComplete(view)) return found;
  for (const cable of view.index.plan.cables) {
    if (!isNotInstalled(view, cable)) continue;
    const places = cable.ends.flatMap((end) => (end.place === null ? [] : [end.place]));
    const evidence = places.flatMap((place) => view.stateAt(place).looks.map((look) => look.event));
    const severity = isOnAir(view, cable.id) ? 'on-air' : 'service';
    const finding = { kind: 'not-installed', cable: cable.id } as const;
    found.push(makeDiscrepancy(finding, severity, places, [cable.label], evidence));
  }
  return found;
}
