// Which differences a person asked to see, and whether there is room beside the list. It never hides a hazard: the
// screen does not ask it about one.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { type PlaceId, placeToParts } from '../../core/plan/identity.ts';
import type { DecisionLine } from '../../core/report/decisionsView.ts';
import type { PlanOverview } from '../../core/report/plan/planView.ts';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import type { Severity } from '../../core/trade/kinds.ts';

export type Only = 'all' | Severity;

/** For the narrow cells of a plate; the whole words stand over the rows. */
export const SHORT_SEVERITY: Record<Severity, string> = {
  people: 'People',
  equipment: 'Equipment',
  'on-air': 'On-air',
  undecided: 'Air unknown',
  service: 'Service',
  record: 'Record',
};

/** Labels of the racks that a difference touches; none while the plan is not known. */
export function placesToRacks(plan: PlanOverview | null): (line: Pick<DifferenceLine, 'placeIds'>) => string[] {
  const labels = new Map<string, string>();
  for (const rack of plan?.racks ?? []) {
    labels.set(rack.id, rack.label);
    for (const unit of rack.units) labels.set(unit.id, rack.label);
  }
  const idOf = (place: PlaceId) => {
    const parts = placeToParts(place);
    if (parts.type === 'loose') return '';
    return parts.type === 'slot' ? parts.rack : parts.unit;
  };
  return ({ placeIds }) => placeIds.flatMap((place) => labels.get(idOf(place)) ?? []);
}

export function shows(line: DifferenceLine, only: Only, wanted: string, racks: readonly string[]): boolean {
  if (only !== 'all' && line.severity !== only) return false;
  const key = wanted.trim().toUpperCase();
  if (key === '') return true;
  return (
    racks.some((rack) => rack.toUpperCase() === key) ||
    [...line.places, ...line.labels, line.title].some((text) => text.toUpperCase().includes(key))
  );
}

/** "Shown: 3 of 18, on-air, with P03": what is hidden is always said, and that hazards never are. */
export function shownToWords(only: Only, wanted: string, shown: number, all: number, hazards: number): string {
  const chosen = [
    only !== 'all' && SHORT_SEVERITY[only].toLowerCase(),
    wanted.trim() !== '' && `with ${wanted.trim().slice(0, 40)}`,
  ].filter(Boolean);
  const what = chosen.length === 0 ? `Shown: all ${all}` : [`Shown: ${shown} of ${all}`, ...chosen].join(', ');
  return hazards > 0 ? `${what}; hazards always` : what;
}

/** " Decided: leave it." for a row; what is not decided says nothing. */
export function decidedShort({ choice, disputed, said }: DecisionLine): string {
  if (disputed) return ' Decided two ways.';
  const [first] = said;
  return choice && first ? ` Decided: ${first.words.toLowerCase()}.` : '';
}

/** True where the sheet has a second column (60 rem). */
export function useWide(): boolean {
  const media = '(min-width: 60rem)';
  const wide = useSignal(matchMedia(media).matches);
  useEffect(() => {
    const list = matchMedia(media);
    const read = () => {
      wide.value = list.matches;
    };
    list.addEventListener('change', read);
    return () => list.removeEventListener('change', read);
  }, []);
  return wide.value;
}
