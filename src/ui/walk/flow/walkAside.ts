// What is said beside the statements of a walk: notes, hazards, pictures, descriptions. Each can be undone like the rest.
import type { EventId, PlaceId } from '../../../core/plan/identity.ts';
import { type Act, actAt, afterAct } from '../../../core/walk/memory.ts';
import { LINES } from '../walkWords.ts';
import type { WalkParts } from './walkParts.ts';

export function createAside({ services, audit, memory, remember, line }: WalkParts) {
  const did = (event: EventId, place: PlaceId | null, kind: Act['kind'], words: string, also?: EventId[]) =>
    remember(afterAct(memory.value, { ...actAt(memory.value, event, place), kind, words, ...(also ? { also } : {}) }));
  return {
    did,
    async note(place: PlaceId | null, text: string): Promise<void> {
      const result = await services.record('note', place ? { place, text } : { text }, { audit });
      did(result.event, place, 'note', 'the note');
      line.value = result.type === 'saved' ? LINES.noteSaved : LINES.noteNotOnDisk(result.why);
    },
    async hazard(hazard: string, note: string): Promise<void> {
      const { place } = memory.value;
      const payload = place ? { place, hazard, note } : { hazard, note };
      const result = await services.record('hazard-seen', payload, { audit });
      did(result.event, place, 'hazard', 'the hazard');
      line.value = result.type === 'saved' ? LINES.hazardRecorded : LINES.hazardNotOnDisk(result.why);
    },
  };
}
