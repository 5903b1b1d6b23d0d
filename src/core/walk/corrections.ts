// Putting right what the auditor said, as the events it takes: the slip of a jack, and its undo. Each is one act for
// the person. What was recorded is withdrawn and said again, never changed.
import type { EventId, PlaceId } from '../plan/identity.ts';
import { unitOf } from '../plan/identity.ts';
import type { Payload, Sighting } from '../record/events.ts';
import { type Act, type Again, afterAct, afterSighting, visitAt, type WalkMemory } from './memory.ts';
import { reanchor, type Slip } from './slip.ts';
import type { StatementAt, StatementKind } from './statementsAt.ts';

export type Sayable = { [K in StatementKind]: { kind: K; payload: Payload<K> } }[StatementKind];

/** One event to record, and what it takes the place of. */
interface Correction {
  say: Sayable;
  was: (Sayable & { event: EventId })[];
  /** To be withdrawn with it; a sighting says that itself. */
  withdraw: EventId | null;
}

interface Unit {
  id: string;
  label: string;
}

/**
 * "Me": what the person said in this walk, said again where it belongs, with what hangs on it. From the far end of the
 * run, so that no jack bears two statements in between.
 */
export function slipToCorrections(
  slip: Slip,
  unit: Unit,
  memory: WalkMemory,
  standing: readonly StatementAt[],
): Correction[] {
  const to = new Map(slip.moves.map((move) => [move.from.place, move.to.place]));
  const mine = new Map(memory.acts.map((act) => [act.event, act]));
  const visit = visitAt(memory, unit.id);
  const own = standing.filter(({ event }) => mine.has(event));
  const sightingAt = (place: PlaceId) => {
    const one = own.find((item) => item.kind === 'sighting' && item.place === place);
    if (one?.kind !== 'sighting') return null;
    const by = mine.get(one.event)?.by;
    const payload: Sighting = { ...one.payload, ...(by ? { by } : {}) };
    return { event: one.event, kind: 'sighting' as const, payload };
  };
  const moves = slip.step > 0 ? [...slip.moves].reverse() : slip.moves;
  const statements = moves.flatMap((move): Correction[] => {
    const original = sightingAt(move.from.place);
    if (!original) return [];
    // What was said of the jack at the end of the run gives way to what is moved there.
    const gone = to.has(move.to.place) ? null : sightingAt(move.to.place);
    const payload = reanchor(move, original.payload, visit, unit.label);
    return [{ say: { kind: 'sighting', payload }, was: gone ? [original, gone] : [original], withdraw: null }];
  });
  return [...statements, ...own.flatMap((item) => besideToCorrection(item, to.get(item.place)))];
}

/** A note, a hazard, a jacket or a picture goes with its statement; the document stays the same one. */
function besideToCorrection(item: StatementAt, place: PlaceId | undefined): Correction[] {
  if (item.kind === 'sighting' || place === undefined) return [];
  const { kind, payload, event } = item;
  // Kind and payload are of one statement, and the place is in every one of these payloads.
  const say = { kind, payload: { ...payload, place } } as Sayable;
  return [{ say, was: [{ kind, payload, event } as Correction['was'][number]], withdraw: event }];
}

/**
 * One step of a move is recorded. The act grows with each: whoever is stopped in the middle can take back what was
 * moved so far.
 * @param before The act as it stood after the step before; null at the first.
 */
export function afterCorrection(
  memory: WalkMemory,
  slip: Slip,
  unit: Unit,
  { say, was }: Correction,
  event: EventId,
  before: Act | null,
  words: string,
): { memory: WalkMemory; act: Act } {
  // As above: kind and payload stay together.
  const again = [...(before?.again ?? []), ...was.map(({ event: _, ...one }) => ({ ...one, instead: event }) as Again)];
  const act: Act = {
    event: again[0]?.instead ?? '',
    kind: 'slip',
    places: slip.moves.map((move) => move.from.place),
    back: slip.moves[0]?.from.place ?? '',
    words,
    again,
  };
  const said = say.kind === 'sighting' ? afterSighting(memory, event, say.payload, unit.id, '') : memory;
  const gone = new Set([before?.event, event, ...was.map((one) => one.event)]);
  return { memory: afterAct({ ...said, acts: said.acts.filter((one) => !gone.has(one.event)) }, act), act };
}

/** What undo says again where it was; the last first, for the same reason. */
export function moveToCorrections({ again = [] }: Act): Correction[] {
  return [...again].reverse().map((one): Correction => {
    const { instead, ...say } = one;
    if (say.kind !== 'sighting') return { say, was: [], withdraw: instead };
    return {
      say: { kind: 'sighting', payload: { ...say.payload, withdraws: [{ event: instead }] } },
      was: [],
      withdraw: null,
    };
  });
}

const KINDS = {
  note: 'note',
  photo: 'photo',
  'voice-note': 'photo',
  'hazard-seen': 'hazard',
  'jacket-read': 'label',
} as const;

/** Said again where it was: it can be undone like the rest. */
export function afterSayable(memory: WalkMemory, say: Sayable, event: EventId, words: string): WalkMemory {
  if (say.kind === 'sighting') {
    const unit = unitOf(say.payload.places[0] ?? '');
    return unit === '' ? memory : afterSighting(memory, event, say.payload, unit, words);
  }
  const { place } = say.payload;
  return afterAct(memory, { event, kind: KINDS[say.kind], places: place ? [place] : [], back: place ?? '', words });
}
