// A look at a place as a sighting tells it, and what the looks that stand there say together.
import type { EventId, PlaceId } from '../plan/identity.ts';
import type { EventOf, Plug, Sighting, State } from './events.ts';
import { LOOK_STATES } from './events.ts';

export type Fate = 'stands' | 'withdrawn' | 'overtaken';

export interface Look {
  event: EventId;
  place: PlaceId;
  said: string;
  state: State;
  plugs: Plug[];
  basis: EventOf<'sighting'>['payload']['basis'];
  joinedTo?: PlaceId | undefined;
  /** Name of the helper who told it. */
  teller?: string | undefined;
  change?: EventOf<'sighting'>['payload']['change'];
  reason?: string | undefined;
  note?: string | undefined;
  /** Document of the photo it was read off. */
  photo?: string | undefined;
  /** Landed in the order of the colours: claimed for each pair, proven for none. */
  order?: EventOf<'sighting'>['payload']['order'] | undefined;
  log: string;
  author: string;
  at: number;
  /** True for a look that was made after a change: it belongs to the as-left record. */
  asLeft: boolean;
  /** What was found, when labels were put on or taken off since: `state` and `plugs` tell what is there now. */
  relabelled: State | null;
}

export type LabelWork = EventOf<'label-put'> | EventOf<'label-off'>;

const NO_PLACES: readonly PlaceId[] = [];

/** What a statement says of the place that it names at this position. */
export function toLook(
  { id, log, author, at, payload }: Pick<EventOf<'sighting'>, 'id' | 'log' | 'author' | 'at' | 'payload'>,
  i: number,
): Look {
  const place = payload.places[i]!;
  const look: Look = {
    event: id,
    place,
    said: payload.said[i] ?? place,
    state: payload.state,
    plugs: payload.plugs,
    basis: payload.basis,
    // One statement about both ends of a lead names the other end; nothing is joined with itself.
    joinedTo: payload.joinedTo === place ? undefined : payload.joinedTo,
    reason: payload.reason,
    note: payload.note,
    photo: payload.photo,
    log,
    author,
    at,
    asLeft: false,
    relabelled: null,
  };
  if (payload.order) look.order = payload.order;
  if (payload.teller) look.teller = payload.teller;
  if (payload.change) look.change = payload.change;
  return look;
}

/** The look that a statement would make at the place it names at this position, before it is recorded. */
export function sightingToLook(payload: Sighting, i: number): Look {
  return toLook({ id: '', log: '', author: '', at: Number.MAX_SAFE_INTEGER, payload }, i);
}

/** Somebody saw what is there: only such looks agree or differ. What was inferred gives way to them. */
export function isLook<L extends Look>(look: L): look is L & { state: SeenState } {
  return isSeen(look.state) && look.basis !== 'inferred';
}

type SeenState = Exclude<State, 'not-visible' | 'refused'>;

function isSeen(state: State): state is SeenState {
  return LOOK_STATES.has(state);
}

export interface PlaceState {
  place: PlaceId;
  /** `conflict`: standing looks differ; `unseen`: nobody said anything; `not-verified`: not visible or refused. */
  type: 'unseen' | 'not-verified' | 'conflict' | SeenState;
  plugs: Plug[];
  joinedTo: readonly PlaceId[];
  followed: boolean;
  looks: readonly Look[];
  reason?: string | undefined;
}

const BY_COLOUR = 'landed by colour order, not proven';

/** How much a state says: of looks that agree, the one that says most speaks for the place. */
const WEIGHT: Record<State, number> = {
  label: 5,
  illegible: 4,
  unlabelled: 3,
  plugged: 2,
  blanked: 1,
  empty: 1,
  'not-visible': 0,
  refused: 0,
};

/** Merges the standing looks at one place. Looks that say less do not contradict looks that say more. */
export function looksToState(place: PlaceId, standing: readonly Look[]): PlaceState {
  const [only] = standing;
  if (only && standing.length === 1 && isLook(only)) {
    const joinedTo = only.joinedTo ? [only.joinedTo] : NO_PLACES;
    return {
      place,
      type: only.state,
      plugs: only.plugs,
      joinedTo,
      followed: only.basis === 'followed',
      looks: standing,
    };
  }
  const joinedTo = [...new Set(standing.flatMap((look) => (look.joinedTo ? [look.joinedTo] : [])))].sort();
  // Who could not tell has followed nothing.
  const followed = standing.some(({ basis, state }) => basis === 'followed' && LOOK_STATES.has(state));
  const base = { place, joinedTo, followed, looks: standing, plugs: [] };
  if (standing.length === 0) return { ...base, type: 'unseen' };
  const said = standing.filter((look) => LOOK_STATES.has(look.state));
  const real = said.filter(isLook);
  if (real.length === 0 && said.length > 0) {
    const byColour = said.some(({ order }) => order === 'colour');
    return { ...base, type: 'not-verified', reason: byColour ? BY_COLOUR : 'inferred, not seen' };
  }
  if (real.length === 0) {
    return { ...base, type: 'not-verified', reason: standing.find((l) => l.reason)?.reason ?? standing[0]?.state };
  }
  // Among equals the one that knows of labels put on since says more, and of those the one that had seen more before.
  const weight = (look: Look) =>
    WEIGHT[look.state] + (look.relabelled === null ? 0 : 0.5 + WEIGHT[look.relabelled] / 100);
  const best = real.reduce((a, b) => (weight(b) > weight(a) ? b : a));
  if (real.some((look) => !agree(best, look))) return { ...base, type: 'conflict' };
  return { ...base, type: best.state, plugs: best.plugs };
}

/** Could not be read, and a label that was put there fits what could. */
export function isReadAs({ state, plugs }: Look, { payload }: LabelWork): boolean {
  return state === 'illegible' && plugs.some(({ pattern = '' }) => matchesPattern(payload.text, pattern));
}

/** Something is plugged in. */
export const OCCUPIED: ReadonlySet<State> = new Set(['label', 'illegible', 'unlabelled', 'plugged']);

function agree(a: Look, b: Look): boolean {
  if (OCCUPIED.has(a.state) !== OCCUPIED.has(b.state)) return false;
  if (a.state === b.state) {
    if (a.state === 'label') return labelsOf(a) === labelsOf(b) || readsOneOf(a, b) || readsOneOf(b, a);
    if (a.state === 'illegible') return a.plugs[0]?.pattern === b.plugs[0]?.pattern;
    return true;
  }
  if (a.state === 'plugged' || b.state === 'plugged') return true;
  const [label, other] = a.state === 'label' ? [a, b] : [b, a];
  if (label.state === 'label' && other.state === 'illegible') {
    const pattern = other.plugs[0]?.pattern ?? '';
    return label.plugs.some((plug) => plug.labels.some(({ text }) => matchesPattern(text, pattern)));
  }
  return false;
}

/** One label was read of a plug that bears the old and the new one: that says less, it does not contradict. */
function readsOneOf(less: Look, more: Look): boolean {
  const [one, all] = [less.plugs[0]?.labels ?? [], more.plugs[0]?.labels ?? []];
  if (!more.relabelled || less.plugs.length !== 1 || more.plugs.length !== 1 || one.length === 0) return false;
  return one.every(({ text }) => all.some((label) => label.text.trim() === text.trim()));
}

function labelsOf(look: Look): string {
  return look.plugs
    .map((plug) =>
      plug.labels
        .map((label) => label.means ?? label.text.trim())
        .sort()
        .join(' | '),
    )
    .sort()
    .join(' || ');
}

/** Does a text fit a pattern with `?` for one character that cannot be read? Case is ignored. */
export function matchesPattern(text: string, pattern: string): boolean {
  const [t, p] = [text.trim().toUpperCase(), pattern.trim().toUpperCase()];
  return t.length === p.length && [...p].every((character, i) => character === '?' || character === t[i]);
}
