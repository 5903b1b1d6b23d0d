// Label acts of a renaming during the walk: what a tap, or a reading of the new label at its jack, records. It decides
// nothing itself; the record worker says which step is due.
import type { AuditId, EventId, PlaceId } from '../../core/plan/identity.ts';
import type { Payload } from '../../core/record/events.ts';
import type { JackRename } from '../../core/report/walk/walkRenaming.ts';
import type { Recorded, Services } from '../services.ts';

/** `again`: the label was read before, nothing was recorded. Null: it is no business of a renaming. */
export type LabelDone =
  | { type: 'put'; event: EventId; place: PlaceId; words: string; where: Recorded['type'] }
  | { type: 'again'; place: PlaceId; words: string }
  | { type: 'not-kept'; why: string }
  | null;

export function createRenaming(services: Services, audit: AuditId) {
  async function put(step: JackRename, text: string): Promise<LabelDone> {
    const payload: Payload<'label-put'> = { ...target(step), text, why: 'rename' };
    return done(await services.record('label-put', payload, { audit }), step, `new label ${text}`);
  }
  async function takeOff(step: JackRename, text: string): Promise<LabelDone> {
    const payload: Payload<'label-off'> = { ...target(step), text };
    return done(await services.record('label-off', payload, { audit }), step, `old label ${text} off`);
  }
  return {
    /** A text read at the jack in hand. */
    async scanned(place: PlaceId, text: string): Promise<LabelDone> {
      const read = await services.ask('renamingReads', { audit, place, text });
      if (!read) return null;
      if (read.says === 'new' && read.here.step === 'put') return put(read.here, text.trim());
      return read.borne && read.here.step !== 'look' ? { type: 'again', place, words: text } : null;
    },
    /** "New label is on" or "Old one is off", whichever is due. */
    async act(place: PlaceId): Promise<LabelDone> {
      const step = await services.ask('renamingHere', { audit, place });
      if (step?.step === 'put') return put(step, step.new);
      return step?.step === 'off' && step.oldText !== null ? takeOff(step, step.oldText) : null;
    },
  };
}

function done(result: Recorded, { place }: JackRename, words: string): LabelDone {
  if (result.event !== '') return { type: 'put', event: result.event, place, words, where: result.type };
  return { type: 'not-kept', why: result.type === 'not-saved' ? result.why : '' };
}

function target(step: JackRename) {
  const { place, upon, plug } = step;
  return plug === null ? { place, upon } : { place, upon, plug };
}
