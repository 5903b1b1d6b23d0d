// What is recorded when temporary numbers go on plugs: one on a bare plug, or one cable's old number changed for another.
import type { AuditId, EventId, PlaceId } from '../../../core/plan/identity.ts';
import {
  BLOCK_SIZE,
  type Block,
  type NextNumber,
  TWIN_DIGITS,
  TWIN_PREFIX,
  twinToNumber,
} from '../../../core/rules/numbers.ts';
import type { Services } from '../../services.ts';

export interface TwinPlace {
  place: PlaceId;
  /** Events of the looks that the label answers. */
  upon: string[];
}

/** Takes a block where one is needed, then records the label. @returns the label's event, for undo. */
export async function putTwin(services: Services, audit: AuditId, next: NextNumber, at: TwinPlace): Promise<string> {
  if (next.take) await services.record('numbers-taken', next.take, { audit });
  const put = { place: at.place, text: next.text, upon: at.upon, why: 'twin' as const };
  return (await services.record('label-put', put, { audit })).event;
}

/** All ends of one cable get the same new number, and the old one is off each of them. @returns all events, for undo. */
export async function renumberTwin(
  services: Services,
  audit: AuditId,
  next: NextNumber,
  old: string,
  ends: readonly TwinPlace[],
): Promise<string[]> {
  const events: EventId[] = [];
  for (const [i, end] of ends.entries()) {
    events.push(await putTwin(services, audit, i === 0 ? next : { ...next, take: null }, end));
    const off = { place: end.place, text: old, upon: end.upon };
    events.push((await services.record('label-off', off, { audit })).event);
  }
  return events.filter((event) => event !== '');
}

/** What a strip that begins with this number would be given out as; null for what is no number of a strip. */
export function stripToBlock(text: string): Block | null {
  const first = twinToNumber(/^\s*\d+\s*$/.test(text) ? `${TWIN_PREFIX}${text.trim()}` : text);
  if (first === null || first === 0 || first + BLOCK_SIZE > 999_999) return null;
  return { prefix: TWIN_PREFIX, first, last: first + BLOCK_SIZE - 1, digits: TWIN_DIGITS };
}
