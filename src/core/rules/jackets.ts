// What was read off the jackets of cables, by place: the print and the running length nearest to each end. Derived from
// the record, free of order; two readings of one place that differ stay two, and nothing here chooses between them.
//
// Limits: Ends of one print are paired as an estimate and joined nowhere; over 100 m of marks apart on a network never.
// Marks are taken to come from one drum per print; a jack with several plugs is left out. The work grows with the
// square of the ends of one print (1,000: 0.2 s).

import type { EventId, PlaceId } from '../plan/identity.ts';
import { type EventOf, MAX_MARK, type MarkUnit } from '../record/events.ts';
import { METRES_PER_FOOT } from '../trade/lengths.ts';
import type { Fold } from './foldView.ts';

export interface JacketReading {
  event: EventId;
  place: PlaceId;
  /** Exactly as it was written down. */
  print: string;
  mark: number | null;
  unit: MarkUnit;
  note: string | null;
  author: string;
  at: number;
}

/** Prints are the same when they differ in case and spacing alone. */
export function printToKey(print: string): string {
  return print.normalize('NFKC').toUpperCase().replace(/\s+/gu, '');
}

/** A mark as typed: leading zeros as printed, comma or point. Null for nothing, `wrong` for anything else. */
export function textToMark(text: string): number | 'wrong' | null {
  const typed = text.trim();
  if (typed === '') return null;
  const mark = /^\d+([.,]\d+)?$/.test(typed) ? Number(typed.replace(',', '.')) : Number.NaN;
  return mark <= MAX_MARK ? mark : 'wrong';
}

export function markToMetres(mark: number, unit: MarkUnit): number {
  return unit === 'm' ? mark : mark * METRES_PER_FOOT;
}

/** Readings that no standing one takes the place of, by time. */
export function uncorrected(fold: Fold): EventOf<'jacket-read'>[] {
  const events = fold.of('jacket-read');
  const corrected = new Set(events.flatMap(({ payload }) => payload.corrects ?? []));
  return events.filter(({ id }) => !corrected.has(id));
}

/** Standing readings by place, each list by time. What lapsed is left out. */
export function jacketsByPlace(fold: Fold): Map<PlaceId, JacketReading[]> {
  const byPlace = new Map<PlaceId, JacketReading[]>();
  for (const event of uncorrected(fold)) {
    if (isLapsed(fold, event)) continue;
    const { place, print, mark, unit, note } = event.payload;
    const { id, author, at } = event;
    const reading = { event: id, place, print, mark: mark ?? null, unit, note: note ?? null, author, at };
    const list = byPlace.get(place);
    if (list) list.push(reading);
    else byPlace.set(place, [reading]);
  }
  return byPlace;
}

/**
 * The plug that bore the print is gone: the jack is empty now, or every look that saw the plug was overtaken by a
 * change. A look that was only misread leaves the print where it was read.
 */
function isLapsed(fold: Fold, { payload }: EventOf<'jacket-read'>): boolean {
  const { type } = fold.stateAt(payload.place);
  if (type === 'empty' || type === 'blanked') return true;
  const upon = payload.upon ?? [];
  if (upon.length === 0) return false;
  const fates = fold.looks.history(payload.place).flatMap(({ look, fate }) => (upon.includes(look.event) ? fate : []));
  return fates.includes('overtaken') && !fates.includes('stands');
}

/** What all readings of one place agree on; null where two people wrote down something else. */
export function agreedJacket(readings: readonly JacketReading[]): JacketReading | null {
  const [first] = readings;
  if (!first) return null;
  const same = readings.every(
    ({ print, mark, unit }) =>
      printToKey(print) === printToKey(first.print) && unit === first.unit && mark === first.mark,
  );
  return same ? first : null;
}
