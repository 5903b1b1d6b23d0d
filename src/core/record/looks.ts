// What was said about each place, free of the order in which it arrived. A place is a function of its own events:
// the sightings that name it, the withdrawals of those, and the words "changed since".
import type { EventId, PlaceId } from '../plan/identity.ts';
import type { EventOf, Plug, Sighting, State, Withdrawal } from './events.ts';
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

/** The sighting that says so of another look; null for a withdrawal or a change of its own. */
type By = EventId | null;

type LabelWork = EventOf<'label-put'> | EventOf<'label-off'>;

export interface Looks {
  /** Takes one sighting; returns the places it speaks about. */
  see(event: EventOf<'sighting'>): readonly PlaceId[];
  /** Taken back by a word of its own; with `undo` what the sighting replaced or overtook stands again. */
  withdraw(target: Withdrawal, why: EventOf<'withdrawn'>['payload']['why']): PlaceId[];
  changed(earlier: EventId, later: EventId | null, place: PlaceId): PlaceId[];
  /** A label put on or taken off; it counts for the looks that it names, whatever the clocks say. */
  label(event: LabelWork): PlaceId[];
  /** Looks at a place that still stand and were not overtaken by a change, by time and id. */
  standing(place: PlaceId): readonly Look[];
  /** Everything ever said about a place, with what became of it. */
  history(place: PlaceId): { look: Look; fate: Fate }[];
  places(): Iterable<PlaceId>;
  placesOf(event: EventId): readonly PlaceId[];
}

export function createLooks(): Looks {
  const byPlace = new Map<PlaceId, Look[]>();
  const placesByEvent = new Map<EventId, PlaceId[]>();
  // A withdrawal may arrive before what it withdraws, so these are kept by name and asked at reading time.
  // By whom counts: what a sighting says of other looks lapses when it is undone.
  const withdrawn = new Map<EventId, Map<By, 'everywhere' | Set<PlaceId>>>();
  const overtaken = new Map<EventId, Map<By, Set<PlaceId>>>();
  const later = new Map<EventId, Set<PlaceId>>();
  const undone = new Set<By>();
  const replacedBy = new Map<EventId, readonly Withdrawal[]>();
  const overtakenBy = new Map<By, Set<PlaceId>>();
  const labelWork = new Map<PlaceId, Map<EventId, LabelWork>>();

  /** The look as its plugs bear labels now. A label taken off is gone however often it was put. */
  const relabelled = (look: Look): Look => {
    const work = [...(labelWork.get(look.place)?.values() ?? [])]
      .filter((event) => event.payload.upon.includes(look.event) && !isWithdrawn(event.id, look.place))
      .sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
    if (work.length === 0 || !OCCUPIED.has(look.state)) return look;
    const plugs = look.plugs.length > 0 ? [...look.plugs] : [{ labels: [] }];
    for (const { kind, payload } of work) {
      const at = Math.min(payload.plug ?? 0, plugs.length - 1);
      const plug = plugs[at]!;
      const rest = plug.labels.filter(({ text }) => text !== payload.text);
      const off = work.some((one) => one.kind === 'label-off' && one.payload.text === payload.text);
      plugs[at] = { ...plug, labels: kind === 'label-put' && !off ? [...rest, { text: payload.text }] : rest };
    }
    const labelled = plugs.some(({ labels }) => labels.length > 0);
    // What could not be read is gone with a label that fits it.
    const isBare = look.state === 'label' || work.some((one) => one.kind === 'label-off' && isReadAs(look, one));
    const state = labelled ? 'label' : isBare ? 'unlabelled' : look.state;
    return { ...look, plugs, state, relabelled: look.state };
  };

  const placesOf = ({ event, places }: Withdrawal) => places ?? placesByEvent.get(event) ?? NO_PLACES;
  const isWithdrawn = (event: EventId, place: PlaceId) => {
    for (const [by, where] of withdrawn.get(event) ?? NOBODY) {
      if (!undone.has(by) && (where === 'everywhere' || where.has(place))) return true;
    }
    return false;
  };
  const isOvertaken = (event: EventId, place: PlaceId) => {
    for (const [by, places] of overtaken.get(event) ?? NOBODY) if (!undone.has(by) && places.has(place)) return true;
    return false;
  };
  const mark = <K>(map: Map<K, Set<PlaceId>>, key: K, place: PlaceId) => {
    const places = map.get(key);
    if (places) places.add(place);
    else map.set(key, new Set([place]));
  };
  const withdraw = (target: Withdrawal, by: By): readonly PlaceId[] => {
    const bys = withdrawn.get(target.event) ?? new Map<By, 'everywhere' | Set<PlaceId>>();
    withdrawn.set(target.event, bys);
    const before = bys.get(by);
    if (!target.places) bys.set(by, 'everywhere');
    else if (before !== 'everywhere') bys.set(by, new Set([...(before ?? []), ...target.places]));
    return placesOf(target);
  };
  const put = (place: PlaceId, look: Look) => {
    // A new list each time: states hold the old one.
    const list = byPlace.get(place);
    byPlace.set(place, list ? [...list, look] : [look]);
  };
  const isPlain = ({ event, place }: Look) =>
    !withdrawn.has(event) && !overtaken.has(event) && !later.has(event) && !labelWork.has(place);
  const byTime = (a: Look, b: Look) => a.at - b.at || (a.event < b.event ? -1 : 1);

  const looks: Looks = {
    see(event) {
      const { payload } = event;
      const { places, withdraws = NO_TARGETS, changedSince = NO_EVENTS } = payload;
      placesByEvent.set(event.id, places);
      for (let i = 0; i < places.length; i++) {
        // One statement may name a place twice; it is said once.
        if (places.indexOf(places[i]!) === i) put(places[i]!, toLook(event, i));
      }
      if (withdraws.length + changedSince.length === 0) return places;
      const touched = new Set(places);
      replacedBy.set(event.id, withdraws);
      for (const target of withdraws) for (const place of withdraw(target, event.id)) touched.add(place);
      for (const earlier of changedSince) {
        for (const place of places) for (const p of looks.changed(earlier, event.id, place)) touched.add(p);
      }
      return [...touched];
    },
    withdraw(target, why) {
      const touched = withdraw(target, null);
      if (why !== 'undo' || target.places) return [...touched];
      undone.add(target.event);
      const back = (replacedBy.get(target.event) ?? NO_TARGETS).flatMap(placesOf);
      return [...touched, ...back, ...(overtakenBy.get(target.event) ?? NO_PLACES)];
    },
    label(event) {
      const { place } = event.payload;
      const at = labelWork.get(place) ?? new Map<EventId, LabelWork>();
      labelWork.set(place, at);
      at.set(event.id, event);
      placesByEvent.set(event.id, [place]);
      return [place];
    },
    changed(earlier, after, place) {
      const bys = overtaken.get(earlier) ?? new Map<By, Set<PlaceId>>();
      overtaken.set(earlier, bys);
      mark(bys, after, place);
      mark(overtakenBy, after, place);
      if (after) mark(later, after, place);
      return [place];
    },
    standing(place) {
      const said = byPlace.get(place);
      if (!said) return NOTHING;
      // Nearly every place was spoken about once and nothing happened to it since.
      if (said.length === 1 && isPlain(said[0]!)) return said;
      return said
        .filter((look) => !isWithdrawn(look.event, place) && !isOvertaken(look.event, place))
        .map((look) => (later.get(look.event)?.has(place) ? { ...look, asLeft: true } : look))
        .map(relabelled)
        .sort(byTime);
    },
    history(place) {
      return [...(byPlace.get(place) ?? [])].sort(byTime).map((look) => ({
        look: later.get(look.event)?.has(place) ? { ...look, asLeft: true } : look,
        fate: isWithdrawn(look.event, place) ? 'withdrawn' : isOvertaken(look.event, place) ? 'overtaken' : 'stands',
      }));
    },
    places: () => byPlace.keys(),
    placesOf: (event) => placesByEvent.get(event) ?? [],
  };
  return looks;
}

const NOTHING: readonly Look[] = [];
const NO_PLACES: readonly PlaceId[] = [];
const NO_EVENTS: readonly EventId[] = [];
const NO_TARGETS: readonly Withdrawal[] = [];
const NOBODY: ReadonlyMap<By, never> = new Map<By, never>();

/** What a statement says of the place that it names at this position. */
function toLook(
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
export function isLook({ state, basis }: Look): boolean {
  return LOOK_STATES.has(state) && basis !== 'inferred';
}

export interface PlaceState {
  place: PlaceId;
  /** `conflict`: standing looks differ; `unseen`: nobody said anything; `not-verified`: not visible or refused. */
  type: 'unseen' | 'not-verified' | 'conflict' | Exclude<State, 'not-visible' | 'refused'>;
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
  if (only && standing.length === 1 && LOOK_STATES.has(only.state) && only.basis !== 'inferred') {
    const joinedTo = only.joinedTo ? [only.joinedTo] : NO_PLACES;
    const type = only.state as PlaceState['type'];
    return { place, type, plugs: only.plugs, joinedTo, followed: only.basis === 'followed', looks: standing };
  }
  const joinedTo = [...new Set(standing.flatMap((look) => (look.joinedTo ? [look.joinedTo] : [])))].sort();
  const followed = standing.some((look) => look.basis === 'followed');
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
  return { ...base, type: best.state as PlaceState['type'], plugs: best.plugs } as PlaceState;
}

function isReadAs({ state, plugs }: Look, { payload }: LabelWork): boolean {
  return state === 'illegible' && plugs.some(({ pattern = '' }) => matchesPattern(payload.text, pattern));
}

/** Something is plugged in. */
const OCCUPIED: ReadonlySet<State> = new Set(['label', 'illegible', 'unlabelled', 'plugged']);

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
