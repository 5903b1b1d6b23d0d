// What is said beside the statements of a walk: notes and hazards. Each can be undone like the rest.

import type { Signal } from '@preact/signals';
import type { AuditId, EventId, PlaceId } from '../../core/plan/identity.ts';
import type { Services } from '../services.ts';
import { afterAct, type WalkMemory } from './walkState.ts';

export function createAside(
  services: Services,
  audit: AuditId,
  memory: Signal<WalkMemory>,
  remember: (next: WalkMemory) => void,
  line: Signal<string | null>,
) {
  return {
    async note(place: PlaceId | null, text: string): Promise<void> {
      const result = await services.record('note', place ? { place, text } : { text }, { audit });
      remember(
        afterAct(memory.value, { ...actAt(memory.value, result.event, place), kind: 'note', words: 'the note' }),
      );
      line.value = result.type === 'saved' ? 'Note kept.' : `Note is not on disk yet: ${result.why}`;
    },
    async hazard(hazard: string, note: string): Promise<void> {
      const { place } = memory.value;
      const payload = place ? { place, hazard, note } : { hazard, note };
      const result = await services.record('hazard-seen', payload, { audit });
      const act = { ...actAt(memory.value, result.event, place), kind: 'hazard' as const, words: 'the hazard' };
      remember(afterAct(memory.value, act));
      line.value = result.type === 'saved' ? 'Hazard noted.' : `Hazard is not on disk yet: ${result.why}`;
    },
  };
}

/** An act at a place, or at the jack in hand. */
export function actAt(memory: WalkMemory, event: EventId, place: PlaceId | null) {
  return { event, places: place ? [place] : [], back: place ?? memory.place ?? '' };
}
