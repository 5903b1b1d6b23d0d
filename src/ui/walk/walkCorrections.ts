// Putting right what the auditor said: the slip of a jack and undo. Each is one act for the person, however many events
// it takes; what was recorded is withdrawn and said again, never changed.

import { type AuditId, type EventId, type PlaceId, type UnitId, unitOf } from '../../core/plan/identity.ts';
import type { EventKind, Payload } from '../../core/record/events.ts';
import type { StatementAt } from '../../core/report/walk/statementsAt.ts';
import type { Services } from '../services.ts';
import type { Sighting } from './walkSaid.ts';
import { reanchor, type Slip } from './walkSlip.ts';
import { type Act, type Again, afterSighting, undoLast, visitAt, type WalkMemory } from './walkState.ts';

interface Unit {
  id: string;
  label: string;
}

export interface PutRight {
  /** "Me": moves what was said, with what hangs on it. Returns the line that tells it. */
  moveSlip(slip: Slip, unit: Unit): Promise<string>;
  /** Takes the last act back; null when there is none. */
  undo(): Promise<Act | null>;
}

export function createCorrections(
  services: Services,
  audit: AuditId,
  memory: { readonly value: WalkMemory },
  remember: (next: WalkMemory) => void,
): PutRight {
  const record = async <K extends EventKind>(kind: K, payload: Payload<K>): Promise<string> =>
    (await services.record(kind, payload, { audit })).event;
  const withdraw = (event: EventId, why: 'undo' | 'misread') => record('withdrawn', { target: { event }, why });

  /** Says a statement and leaves no act of its own: it is part of a greater one. */
  async function part(sighting: Sighting, unit: UnitId): Promise<string> {
    const event = await record('sighting', sighting);
    if (event === '') return '';
    const next = afterSighting(memory.value, event, sighting, unit);
    remember({ ...next, acts: next.acts.filter((act) => act.event !== event) });
    return event;
  }

  async function moveSlip(slip: Slip, unit: Unit): Promise<string> {
    const from = slip.moves.map((move) => move.from.place);
    const to = new Map(slip.moves.map((move) => [move.from.place, move.to.place]));
    const before = memory.value.acts;
    const mine = new Map(before.map((act) => [act.event, act]));
    const visit = visitAt(memory.value, unit.id);
    const places = [...new Set([...from, ...to.values()])];
    const hung = (await services.ask('hung', { audit, places })).filter(({ event }) => mine.has(event));
    const sightingAt = (place: PlaceId): { event: EventId; payload: Sighting } | null => {
      const own = hung.find((item) => item.kind === 'sighting' && item.place === place);
      if (own?.kind !== 'sighting') return null;
      const by = mine.get(own.event)?.by;
      return { event: own.event, payload: { ...own.payload, ...(by ? { by } : {}) } };
    };
    const missed = slip.moves[0]?.from;
    const words = `the move of ${slip.moves.length} statements by ${Math.abs(slip.step)}`;
    const again: Again[] = [];
    /** One act that grows with each step: whoever is stopped in the middle can take back what was moved so far. */
    const moved = (event: EventId, one: Again) => {
      again.push(one);
      const act: Act = {
        event: again[0]?.instead ?? '',
        kind: 'slip',
        places: from,
        back: missed?.place ?? '',
        words,
        again: [...again],
      };
      const others = memory.value.acts.filter((other) => other.event !== event && other.event !== act.event);
      remember({ ...memory.value, acts: [...others, act] });
    };
    // From the far end of the run, so that no jack bears two statements in between.
    const moves = slip.step > 0 ? [...slip.moves].reverse() : slip.moves;
    for (const move of moves) {
      const original = sightingAt(move.from.place);
      if (!original) continue;
      const event = await part(reanchor(move, original.payload, visit, unit.label), unit.id);
      if (event === '') continue;
      moved(original.event, { kind: 'sighting', payload: original.payload, instead: event });
      // What was said of the jack at the end of the run gives way to what is moved there.
      const gone = to.has(move.to.place) ? null : sightingAt(move.to.place);
      if (gone) moved(gone.event, { kind: 'sighting', payload: gone.payload, instead: event });
    }
    for (const item of hung) {
      const event = await moveBeside(item, to.get(item.place));
      if (event !== null) moved(item.event, { kind: item.kind, payload: item.payload, instead: event } as Again);
    }
    if (again.length === 0 || !missed) return 'Nothing was moved.';
    return `Moved ${slip.moves.length} statements by ${Math.abs(slip.step)}. ${missed.label} is open again.`;
  }

  /** A note, a hazard, a jacket or a picture of this walk goes with its statement; the document stays the same one. */
  async function moveBeside(item: StatementAt, place: PlaceId | undefined): Promise<string | null> {
    if (item.kind === 'sighting' || place === undefined) return null;
    const event = await record(item.kind, { ...item.payload, place } as Payload<typeof item.kind>);
    if (event === '') return null;
    await withdraw(item.event, 'misread');
    return event;
  }

  async function undo(): Promise<Act | null> {
    const taken = undoLast(memory.value);
    if (!taken) return null;
    const { act } = taken;
    if (!act.again) {
      await record('withdrawn', taken.payload);
      for (const event of act.also ?? []) await withdraw(event, 'undo');
      remember(taken.memory);
      return act;
    }
    remember(taken.memory);
    // Back in the other order, for the same reason.
    for (const one of [...act.again].reverse()) await sayAgain(one);
    return act;
  }

  async function sayAgain(one: Again): Promise<void> {
    if (one.kind === 'sighting') {
      const sighting: Sighting = { ...one.payload, withdraws: [{ event: one.instead }] };
      const event = await record('sighting', sighting);
      const unit = unitOf(sighting.places[0] ?? '');
      if (event === '' || unit === '') return;
      remember(afterSighting(memory.value, event, sighting, unit));
      return;
    }
    const event = await record(one.kind, one.payload as Payload<typeof one.kind>);
    await withdraw(one.instead, 'undo');
    const { place } = one.payload;
    const act: Act = {
      event,
      kind: KINDS[one.kind],
      places: place ? [place] : [],
      back: place ?? '',
      words: WORDS[one.kind],
    };
    if (event !== '') remember({ ...memory.value, acts: [...memory.value.acts, act] });
  }

  return { moveSlip, undo };
}

const KINDS = {
  note: 'note',
  photo: 'photo',
  'voice-note': 'photo',
  'hazard-seen': 'hazard',
  'jacket-read': 'label',
} as const;
const WORDS = {
  note: 'the note',
  photo: 'the photo',
  'voice-note': 'the voice note',
  'hazard-seen': 'the hazard',
  'jacket-read': 'jacket and mark',
};
