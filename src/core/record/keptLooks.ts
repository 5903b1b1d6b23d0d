// Looks as they come in, kept by place, and which of them stand: free of the order in which they arrived. A place is a
// function of its own events: the sightings that name it, the withdrawals of those, and the words "changed since".
import type { EventId, PlaceId } from '../plan/identity.ts';
import type { EventOf, Withdrawal } from './events.ts';
import { type Fate, isReadAs, type LabelWork, type Look, OCCUPIED, toLook } from './looks.ts';

/** The sighting that says so of another look; null for a withdrawal or a change of its own. */
type By = EventId | null;

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

/** Everything said so far. */
type Said = {
  byPlace: Map<PlaceId, Look[]>;
  placesByEvent: Map<EventId, PlaceId[]>;
  // A withdrawal may arrive before what it withdraws, so these are kept by name and asked at reading time.
  // By whom counts: what a sighting says of other looks lapses when it is undone.
  withdrawn: Map<EventId, Map<By, 'everywhere' | Set<PlaceId>>>;
  overtaken: Map<EventId, Map<By, Set<PlaceId>>>;
  later: Map<EventId, Set<PlaceId>>;
  undone: Set<By>;
  replacedBy: Map<EventId, readonly Withdrawal[]>;
  overtakenBy: Map<By, Set<PlaceId>>;
  labelWork: Map<PlaceId, Map<EventId, LabelWork>>;
};

const NOTHING: readonly Look[] = [];
const NO_PLACES: readonly PlaceId[] = [];
const NO_EVENTS: readonly EventId[] = [];
const NO_TARGETS: readonly Withdrawal[] = [];
const NOBODY: ReadonlyMap<By, never> = new Map<By, never>();

export function createLooks(): Looks {
  const said: Said = {
    byPlace: new Map(),
    placesByEvent: new Map(),
    withdrawn: new Map(),
    overtaken: new Map(),
    later: new Map(),
    undone: new Set(),
    replacedBy: new Map(),
    overtakenBy: new Map(),
    labelWork: new Map(),
  };
  return {
    see: (event) => see(said, event),
    withdraw(target, why) {
      const touched = withdraw(said, target, null);
      if (why !== 'undo' || target.places) return [...touched];
      said.undone.add(target.event);
      const back = (said.replacedBy.get(target.event) ?? NO_TARGETS).flatMap((one) => placesOf(said, one));
      return [...touched, ...back, ...(said.overtakenBy.get(target.event) ?? NO_PLACES)];
    },
    label: (event) => label(said, event),
    changed: (earlier, later, place) => changed(said, earlier, later, place),
    standing: (place) => standing(said, place),
    history: (place) => history(said, place),
    places: () => said.byPlace.keys(),
    placesOf: (event) => said.placesByEvent.get(event) ?? [],
  };
}

/** The look as its plugs bear labels now. A label taken off is gone however often it was put. */
function relabelled(said: Said, look: Look): Look {
  const work = [...(said.labelWork.get(look.place)?.values() ?? [])]
    .filter((event) => event.payload.upon.includes(look.event) && !isWithdrawn(said, event.id, look.place))
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
}

function placesOf(said: Said, { event, places }: Withdrawal): readonly PlaceId[] {
  return places ?? said.placesByEvent.get(event) ?? NO_PLACES;
}

function isWithdrawn(said: Said, event: EventId, place: PlaceId): boolean {
  for (const [by, where] of said.withdrawn.get(event) ?? NOBODY) {
    if (!said.undone.has(by) && (where === 'everywhere' || where.has(place))) return true;
  }
  return false;
}

function isOvertaken(said: Said, event: EventId, place: PlaceId): boolean {
  for (const [by, places] of said.overtaken.get(event) ?? NOBODY)
    if (!said.undone.has(by) && places.has(place)) return true;
  return false;
}

/** Kept by whom: a word of its own, or the sighting that says so. */
function withdraw(said: Said, target: Withdrawal, by: By): readonly PlaceId[] {
  const bys = said.withdrawn.get(target.event) ?? new Map<By, 'everywhere' | Set<PlaceId>>();
  said.withdrawn.set(target.event, bys);
  const before = bys.get(by);
  if (!target.places) bys.set(by, 'everywhere');
  else if (before !== 'everywhere') bys.set(by, new Set([...(before ?? []), ...target.places]));
  return placesOf(said, target);
}

function put(said: Said, place: PlaceId, look: Look): void {
  // A new list each time: states hold the old one.
  const list = said.byPlace.get(place);
  said.byPlace.set(place, list ? [...list, look] : [look]);
}

function isPlain(said: Said, { event, place }: Look): boolean {
  return (
    !said.withdrawn.has(event) && !said.overtaken.has(event) && !said.later.has(event) && !said.labelWork.has(place)
  );
}

function see(said: Said, event: EventOf<'sighting'>): PlaceId[] {
  const { payload } = event;
  const { places, withdraws = NO_TARGETS, changedSince = NO_EVENTS } = payload;
  said.placesByEvent.set(event.id, places);
  for (let i = 0; i < places.length; i++) {
    // One statement may name a place twice; it is said once.
    if (places.indexOf(places[i]!) === i) put(said, places[i]!, toLook(event, i));
  }
  if (withdraws.length + changedSince.length === 0) return places;
  const touched = new Set(places);
  said.replacedBy.set(event.id, withdraws);
  for (const target of withdraws) for (const place of withdraw(said, target, event.id)) touched.add(place);
  for (const earlier of changedSince) {
    for (const place of places) for (const p of changed(said, earlier, event.id, place)) touched.add(p);
  }
  return [...touched];
}

function label(said: Said, event: LabelWork): PlaceId[] {
  const { place } = event.payload;
  const at = said.labelWork.get(place) ?? new Map<EventId, LabelWork>();
  said.labelWork.set(place, at);
  at.set(event.id, event);
  said.placesByEvent.set(event.id, [place]);
  return [place];
}

function changed(said: Said, earlier: EventId, after: EventId | null, place: PlaceId): PlaceId[] {
  const bys = said.overtaken.get(earlier) ?? new Map<By, Set<PlaceId>>();
  said.overtaken.set(earlier, bys);
  mark(bys, after, place);
  mark(said.overtakenBy, after, place);
  if (after) mark(said.later, after, place);
  return [place];
}

function standing(said: Said, place: PlaceId): readonly Look[] {
  const looks = said.byPlace.get(place);
  if (!looks) return NOTHING;
  // Nearly every place was spoken about once and nothing happened to it since.
  if (looks.length === 1 && isPlain(said, looks[0]!)) return looks;
  return looks
    .filter((look) => !isWithdrawn(said, look.event, place) && !isOvertaken(said, look.event, place))
    .map((look) => (said.later.get(look.event)?.has(place) ? { ...look, asLeft: true } : look))
    .map((look) => relabelled(said, look))
    .sort(byTime);
}

function history(said: Said, place: PlaceId): { look: Look; fate: Fate }[] {
  return [...(said.byPlace.get(place) ?? [])].sort(byTime).map((look) => ({
    look: said.later.get(look.event)?.has(place) ? { ...look, asLeft: true } : look,
    fate: isWithdrawn(said, look.event, place)
      ? 'withdrawn'
      : isOvertaken(said, look.event, place)
        ? 'overtaken'
        : 'stands',
  }));
}

function mark<K>(map: Map<K, Set<PlaceId>>, key: K, place: PlaceId): void {
  const places = map.get(key);
  if (places) places.add(place);
  else map.set(key, new Set([place]));
}

function byTime(a: Look, b: Look): number {
  return a.at - b.at || (a.event < b.event ? -1 : 1);
}
