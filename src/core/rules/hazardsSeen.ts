// Hazards that people saw. Two kinds at one place are two; one kind seen by several people there is one, with all of
// them as its evidence.
import type { EventOf } from '../record/events.ts';
import { hazardById } from '../trade/hazards.ts';
import { type Discrepancy, makeDiscrepancy } from './discrepancy.ts';

type HazardSeen = EventOf<'hazard-seen'>;

/** @param events By time. */
export function hazardsSeen(events: readonly HazardSeen[]): Discrepancy[] {
  const alike = new Map<string, HazardSeen[]>();
  for (const event of events) {
    const key = `${event.payload.hazard} ${event.payload.place ?? ''}`;
    alike.set(key, [...(alike.get(key) ?? []), event]);
  }
  return [...alike.values()].map((all) => {
    const { payload, id } = all[0]!;
    const { hazard, place } = payload;
    const note = [...new Set(all.map((one) => one.payload.note).filter(Boolean))].join(' / ');
    const basis = { type: 'seen', note, event: id } as const;
    const severity = hazardById(hazard)?.severity ?? 'equipment';
    const evidence = all.map((one) => one.id);
    return makeDiscrepancy({ kind: 'hazard-seen', hazard, basis }, severity, place ? [place] : [], [], evidence);
  });
}
