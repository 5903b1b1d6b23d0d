// What is recorded when temporary numbers go on plugs: one on a bare plug, or one cable's old number changed for another.
import type { NextNumber } from '../../core/audit/numbers.ts';
import type { Services } from '../services.ts';

export interface TwinPlace {
  place: string;
  /** Events of the looks that the label answers. */
  upon: string[];
}

/** Takes a block where one is needed, then records the label. @returns the label's event, for undo. */
export async function putTwin(services: Services, audit: string, next: NextNumber, at: TwinPlace): Promise<string> {
  if (next.take) await services.record('numbers-taken', next.take, { audit });
  const put = { place: at.place, text: next.text, upon: at.upon, why: 'twin' as const };
  return (await services.record('label-put', put, { audit })).event;
}

/** All ends of one cable get the same new number, and the old one is off each of them. */
export async function renumberTwin(
  services: Services,
  audit: string,
  next: NextNumber,
  old: string,
  ends: readonly TwinPlace[],
): Promise<void> {
  for (const [i, end] of ends.entries()) {
    await putTwin(services, audit, i === 0 ? next : { ...next, take: null }, end);
    await services.record('label-off', { place: end.place, text: old, upon: end.upon }, { audit });
  }
}
