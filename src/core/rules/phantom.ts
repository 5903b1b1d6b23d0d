// Phantom power at an input and what hangs on it there: what must not meet 48 V (IEC 61938, P48), by the plan's words for
// microphones, units and cables. Tells facts; what is a difference is judged in settings.ts and placeDiscrepancies.ts.
import { isJack, type PlaceId, unitOf } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import { factsAt, microphoneAt, type PlanIndex } from '../plan/planIndex.ts';
import { type PhantomVictim, saysRibbon, saysUnbalanced } from '../trade/phantom.ts';

/** A ribbon microphone by plan: in its column, in the name or the description of its unit, in a note. */
export function isRibbonAt(index: PlanIndex, place: PlaceId): boolean {
  if (saysRibbon(microphoneAt(index, place))) return true;
  if (!isJack(place)) return false;
  const unit = index.units.get(unitOf(place));
  const jack = index.jacks.get(place);
  // The name of a frame with several inputs tells nothing about one of them.
  const isOne = (index.jacksOf.get(unitOf(place))?.length ?? 0) <= 1;
  return (
    saysRibbon(jack?.notes) || saysRibbon(jack?.label) || (isOne && [unit?.label, unit?.description].some(saysRibbon))
  );
}

/** What a cable brings to an input by plan that phantom must not meet; null where nothing speaks for it. */
export function victimOf(index: PlanIndex, cable: Cable, place: PlaceId): PhantomVictim | null {
  const { signal } = cable;
  if (signal !== undefined && signal !== 'microphone' && signal !== 'line-audio') return null;
  const ends = cable.ends.flatMap((end) => (end.place === null ? [] : [{ ...end, place: end.place }]));
  if (saysRibbon(cable.signalText) || saysRibbon(cable.notes)) return 'ribbon';
  if (ends.some((end) => isRibbonAt(index, end.place))) return 'ribbon';
  const far = ends.filter((end) => end.place !== place);
  const words = [cable.type, cable.notes, cable.signalText];
  const plugs = far.flatMap((end) => [end.connector, index.jacks.get(end.place)?.connector]);
  if ([...words, ...plugs].some(saysUnbalanced)) return 'unbalanced';
  // A schedule that calls every circuit audio says nothing against a microphone that it names.
  if (ends.some((end) => microphoneAt(index, end.place) !== '')) return null;
  const isLine =
    signal === 'line-audio' ||
    (signal === undefined && far.some((end) => factsAt(index, end.place).signal === 'line-audio'));
  return isLine && far.every((end) => factsAt(index, end.place).direction !== 'in') ? 'line' : null;
}
