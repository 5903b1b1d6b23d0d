// Notes, pictures and voice that hang on a jack go with its statement when the auditor's slip is put right. Only what
// this walk hung there: what others left stays where they put it.
import type { Payload } from '../../core/audit/events.ts';
import type { Services } from '../services.ts';
import type { Act } from '../walkState.ts';
import type { Slip } from './walkSlip.ts';

export async function moveHung(
  services: Services,
  audit: string,
  { moves }: Slip,
  acts: readonly Act[],
): Promise<void> {
  const to = new Map(moves.map((move) => [move.from.place, move.to.place]));
  const mine = new Set(acts.map(({ event }) => event));
  const hung = await services.ask('hung', { audit, places: [...to.keys()] });
  for (const { event, kind, place, payload } of hung) {
    if (!mine.has(event)) continue;
    await services.record(kind, { ...payload, place: to.get(place) } as Payload<typeof kind>, { audit });
    await services.record('withdrawn', { target: { event }, why: 'misread' }, { audit });
  }
}
