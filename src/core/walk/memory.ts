// What one walk remembers on its phone: the jack in hand, what this visit said, what can be undone, which question is
// open. Kept as a draft, so every field but the first five is optional. It tells no fact of the record.
import type { EventId, PlaceId, UnitId } from '../plan/identity.ts';
import type { Payload, Plug, Sighting, State, Withdrawal } from '../record/events.ts';
import type { By, OwedQuestion, Statement } from './question.ts';
import type { StatementKind } from './statementsAt.ts';

/** A look of the visit, or the part of it that something later took the place of. */
interface SaidLook {
  event: EventId;
  places: PlaceId[];
}

/** One thing that was said on this page, and where to go back to when it is taken back. */
export interface Act {
  event: EventId;
  kind: 'sighting' | 'note' | 'hazard' | 'photo' | 'label' | 'slip' | 'described';
  places: PlaceId[];
  back: PlaceId;
  words: string;
  /** Events that were made by the same act and are taken back with it. */
  also?: EventId[];
  /** Looks of this visit that it took the place of: they stand again when it is taken back. */
  took?: SaidLook[];
  /** How a label was taken, for saying it again elsewhere. */
  by?: string;
  /** What the act moved: undo says it again where it was, instead of these events. */
  again?: Again[];
}

/** One event of an act of several: what it was before, and the event that stands for it now. */
export type Again = { instead: EventId } & {
  [K in StatementKind]: { kind: K; payload: Payload<K> };
}[StatementKind];

/** Standing at one unit, without leaving it. */
export interface Visit {
  unit: UnitId;
  looks: SaidLook[];
}

export interface WalkMemory {
  place: PlaceId | null;
  paused: boolean;
  visit: Visit | null;
  acts: Act[];
  /** Label first: a cable is read anywhere in the bundle, then the jack is touched. `text` is what waits for its jack. */
  first?: { text: string | null; by: By } | null;
  /** First jack of a run of equal steps that the person said is the cables' own. */
  cables?: string | null;
  /** Jacks where a temporary number was offered and put off: not asked again before the walk is resumed. */
  notNow?: string[];
  /** A question on which something said waits: it is asked again after a restart, or what was said would be lost. */
  asked?: OwedQuestion | null;
  /** Places where hands were at work: what is said of them next is as left, and stands beside what was found. */
  worked?: string[];
  /** When it was last written. */
  at: number;
}

export const NEW_MEMORY: WalkMemory = { place: null, paused: false, visit: null, acts: [], at: 0 };
/** Away for longer than this, and things may have been moved: what was said before is another visit's look. */
export const VISIT_MS = 30 * 60_000;
const ACTS_KEPT = 50;

export interface Said {
  places: readonly { place: PlaceId; words: string }[];
  state: State;
  plugs?: readonly Plug[];
  by: By;
  reason?: string;
  basis?: Sighting['basis'];
  /** Name of the helper who told it. */
  teller?: string;
  /** Put here against the plan on purpose. */
  change?: Sighting['change'];
  /** Where the cable was followed to. */
  joinedTo?: string;
}

export function saidToSighting({ places, plugs = [], basis = 'seen', state, by, ...said }: Said): Sighting {
  const told = Object.entries(said).filter(([, value]) => value !== undefined && value !== '');
  return {
    places: places.map(({ place }) => place),
    said: places.map(({ words }) => words),
    state,
    plugs: [...plugs],
    basis,
    by,
    ...Object.fromEntries(told),
  };
}

/** A plug is there in these states, whether or not it says its name. */
export function plugsOf(state: State): Plug[] {
  return state === 'unlabelled' || state === 'illegible' || state === 'plugged' ? [{ labels: [] }] : [];
}

/** Comes back to a walk after a reload or a pause: to the same jack, but only a short absence is the same visit. */
export function resumed(memory: WalkMemory, now: number): WalkMemory {
  return now - memory.at > VISIT_MS ? { ...memory, visit: null, notNow: [] } : memory;
}

/** A visit ends when another unit is begun; statements made before that are then another day's looks. */
export function visitAt({ visit }: Pick<WalkMemory, 'visit'>, unit: UnitId): Visit {
  return visit?.unit === unit ? visit : { unit, looks: [] };
}

/** The looks among these, as far as they speak about the places. */
function looksAt(looks: readonly SaidLook[], places: readonly PlaceId[]): SaidLook[] {
  return looks
    .map((look) => ({ ...look, places: look.places.filter((place) => places.includes(place)) }))
    .filter((look) => look.places.length > 0);
}

/** What the visit said about these places before. Only there is it taken back: a range stays where it was right. */
export function withdrawalsAt({ looks }: Visit, places: readonly PlaceId[]): Withdrawal[] {
  return looksAt(looks, places).map(({ event, places: shared }) => {
    const whole = looks.find((look) => look.event === event)?.places.length === shared.length;
    return whole ? { event } : { event, places: shared };
  });
}

/** @param words What is told when it is taken back. */
export function afterSighting(
  memory: WalkMemory,
  event: EventId,
  sighting: Sighting,
  unit: UnitId,
  words: string,
): WalkMemory {
  const { looks } = visitAt(memory, unit);
  const { places, by } = sighting;
  const took = looksAt(looks, places);
  const act: Act = {
    event,
    kind: 'sighting',
    places,
    back: places[0] ?? '',
    words,
    ...(by ? { by } : {}),
    ...(took.length > 0 ? { took } : {}),
  };
  const kept = looksAt(
    looks,
    looks.flatMap((look) => look.places).filter((place) => !places.includes(place)),
  );
  return {
    ...afterAct(memory, act),
    ...(memory.worked ? { worked: memory.worked.filter((place) => !places.includes(place)) } : {}),
    visit: { unit, looks: [...kept, { event, places }] },
  };
}

export function afterAct(memory: WalkMemory, act: Act): WalkMemory {
  return { ...memory, acts: [...memory.acts, act].slice(-ACTS_KEPT) };
}

/** An act at a place, or at the jack in hand. */
export function actAt(memory: WalkMemory, event: EventId, place: PlaceId | null) {
  return { event, places: place ? [place] : [], back: place ?? memory.place ?? '' };
}

/** The act that one undo takes back. What later ones took the place of cannot be taken back a second time. */
export function lastAct({ acts }: Pick<WalkMemory, 'acts'>): Act | null {
  return acts.findLast((act) => !isReplaced(act, acts)) ?? null;
}

function isReplaced({ event, kind, places }: Act, acts: readonly Act[]): boolean {
  if (kind !== 'sighting') return false;
  const gone = new Set(
    acts.flatMap(({ took = [] }) => took.flatMap((look) => (look.event === event ? look.places : []))),
  );
  return places.every((place) => gone.has(place));
}

/** One undo takes back one act, a range of twenty jacks included. */
export function undoLast(memory: WalkMemory): { act: Act; payload: Payload<'withdrawn'>; memory: WalkMemory } | null {
  const act = lastAct(memory);
  if (!act) return null;
  const { visit } = memory;
  const looks = visit ? visit.looks.filter(({ event }) => event !== act.event) : [];
  return {
    act,
    payload: { target: { event: act.event }, why: 'undo' },
    memory: {
      ...memory,
      acts: memory.acts.filter((one) => one !== act),
      visit: visit && { ...visit, looks: [...looks, ...(act.took ?? [])].reduce(joinLook, []) },
    },
  };
}

/** Parts of one look that come back from several acts are one look again. */
function joinLook(all: SaidLook[], look: SaidLook): SaidLook[] {
  const same = all.find(({ event }) => event === look.event);
  if (!same) return [...all, look];
  return all.map((one) => (one === same ? { ...one, places: [...new Set([...one.places, ...look.places])] } : one));
}

/** @param words What is told when it is taken back. */
export function afterStatement(
  memory: WalkMemory,
  statement: Statement,
  event: EventId,
  unit: UnitId,
  words: string,
): WalkMemory {
  if (statement.kind === 'sighting') return afterSighting(memory, event, statement.payload, unit, words);
  return afterAct(memory, { ...actAt(memory, event, statement.payload.place), kind: 'label', words });
}
