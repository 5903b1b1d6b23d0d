// Pins one jack of a photo after the other, however fast the touches come: each is answered from the record as it stands
// after the one before, so that no touch moves the pin of the jack before. Draws nothing.
import type { AuditId, PlaceId, UnitId } from '../../core/plan/identity.ts';
import type { Spot } from '../../core/record/events.ts';
import type { Recorded, Services } from '../services.ts';

/** Milliseconds and shares of the photo: a finger that bounces is one touch, not two jacks. */
const BOUNCE_MS = 350;
const BOUNCE_SPOT = 0.01;

type Pinned =
  | { type: 'pinned'; label: string; result: Recorded }
  /** No jack is left for a touch that names none. */
  | { type: 'none-left' }
  | { type: 'bounced' };

interface Pinning {
  /** `place`: a jack chosen by hand; null takes the next open one. */
  pin(at: Spot, unit: UnitId | null, place: PlaceId | null): Promise<Pinned>;
  /** Takes back the last pin or mark that stands; null when there is none. */
  undo(kind: 'lastPin' | 'lastMark'): Promise<Recorded | null>;
}

export function createPinning(
  services: Pick<Services, 'ask' | 'record' | 'now'>,
  audit: AuditId,
  document: string,
): Pinning {
  let line: Promise<unknown> = Promise.resolve();
  let last: { at: Spot; time: number } | null = null;

  function inLine<T>(act: () => Promise<T>): Promise<T> {
    const done = line.then(act);
    line = done.catch(() => undefined);
    return done;
  }

  async function pinNow(at: Spot, unit: UnitId | null, place: PlaceId | null): Promise<Pinned> {
    const choice = await services.ask('pinChoice', { audit, document, unit });
    const wanted = place ?? choice?.next;
    const jack = choice?.jacks.find((one) => one.place === wanted);
    if (!jack) return { type: 'none-left' };
    const before = await services.ask('photo', { audit, document });
    const payload = { document, place: jack.place, said: jack.words, at };
    const result = await services.record('photo-pinned', payload, { audit });
    // A jack is at one spot of a photo. The old pin goes only once the new one is in the record.
    const old = result.event === '' ? [] : (before?.photo.pins ?? []).filter((one) => one.place === jack.place);
    for (const { event } of old) await services.record('withdrawn', { target: { event }, why: 'undo' }, { audit });
    return { type: 'pinned', label: jack.label, result };
  }

  return {
    pin(at, unit, place) {
      const time = services.now();
      const bounced =
        last !== null && time - last.time < BOUNCE_MS && Math.hypot(at.x - last.at.x, at.y - last.at.y) < BOUNCE_SPOT;
      last = { at, time };
      return bounced ? Promise.resolve({ type: 'bounced' }) : inLine(() => pinNow(at, unit, place));
    },
    undo: (kind) =>
      inLine(async () => {
        last = null;
        const event = (await services.ask('photo', { audit, document }))?.[kind];
        return event ? services.record('withdrawn', { target: { event }, why: 'undo' }, { audit }) : null;
      }),
  };
}
