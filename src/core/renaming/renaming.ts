// What has become of each listed rename: which end bears the new label, which still bears the old one, which settings
// still show it. Derived from the looks and label acts alone; the plan is never touched here.

import { derived } from '../plan/derived.ts';
import { type PlaceId, type UnitId, unitOf } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import type { NameChange, PlanIndex } from '../plan/planIndex.ts';
import type { EventOf } from '../record/events.ts';
import type { PlaceState } from '../record/looks.ts';
import { holdsWord, newValue, planSettings, saysNew, saysOld, takenBy } from '../record/renameNames.ts';
import { whichEnd } from '../rules/cableDiscrepancies.ts';
import type { Fold, FoldView } from '../rules/foldView.ts';
import { nameToKey } from '../trade/names.ts';

/** Who did or saw it, and when. */
interface Witness {
  author: string;
  at: number;
}

export interface RenameEnd {
  end: string;
  /** Place id: where the plan has this end, or where it was found; null while nobody knows. */
  place: PlaceId | null;
  /** Labels that the plug bears now. */
  bears: string[];
  newOn: Witness | null;
  /** The old label was seen here and still is. */
  oldOn: boolean;
  /** Only where the new one is on: the old one was taken off, or was not there when somebody looked. */
  oldOff: Witness | null;
  /** It bears the new name alone, which another cable has by plan: a new label, or that cable in the wrong jack? */
  unclear: boolean;
}

/** A value on a unit's page, strip or port that names the cable by its old name. */
export interface RenameSetting {
  unit: UnitId;
  place?: PlaceId | undefined;
  name: string;
  old: string;
  new: string;
  done: boolean;
}

/**
 * `untouched`: no new label anywhere; `first-end`: some ends bear it; `both-new`: all do, an old one is still on;
 * `settings-left`: labels are done, a setting still shows the old name; `done`: nothing is left but the record.
 */
type RenameState = 'untouched' | 'first-end' | 'both-new' | 'settings-left' | 'done';

export interface RenameStatus extends NameChange {
  state: RenameState;
  ends: RenameEnd[];
  settings: RenameSetting[];
  /** Two lists want different names for it: it is never done until one is taken back. */
  clash: boolean;
  /** Words in which it was left to somebody. */
  handedOver: string | null;
}

/** Every listed rename of a cable that the plan has, once, in the order of the lists. */
export function listedRenames(fold: Fold): NameChange[] {
  return listedOnce(fold.of('renaming-listed'))(fold.index);
}

const listedOnce = derived((events: readonly EventOf<'renaming-listed'>[]) =>
  derived(({ cables }: PlanIndex): NameChange[] => {
    const known = events.flatMap(({ payload }) => payload.renames).filter(({ cable }) => cables.has(cable));
    return [...new Map(known.map((one) => [`${one.cable} ${one.old} ${one.new}`, one])).values()];
  }),
);

/** All renames of an audit as they stand, in the order of the lists. */
export function renamings(fold: Fold): RenameStatus[] {
  const handed = handedOver(fold);
  return listedRenames(fold).map((one) => renameStatus(fold, one, handed.get(one.cable) ?? null));
}

/** Begun and not done: what may not be left behind without a word. */
export function isHalfDone({ state }: RenameStatus): boolean {
  return state !== 'untouched' && state !== 'done';
}

/** All that is begun and not done. Asked with every statement, so what nobody has touched costs a look-up each. */
export function halfDone(fold: Fold): RenameStatus[] {
  if (!fold.index.renames) return [];
  const handed = handedOver(fold);
  const isTouched = ({ cable }: NameChange) =>
    fold.placesOfCable(cable).length > 0 ||
    fold.index.cables.get(cable)?.ends.some(({ place }) => place !== null && fold.isSaid(place)) === true;
  return listedRenames(fold)
    .filter(isTouched)
    .map((one) => renameStatus(fold, one, handed.get(one.cable) ?? null))
    .filter(isHalfDone);
}

/** Old names of all that is half done. */
export function halfRenamed(fold: Fold): string[] {
  return halfDone(fold).map((one) => one.old);
}

function handedOver(fold: Fold): ReadonlyMap<string, string> {
  const words = new Map<string, string>();
  for (const { payload } of fold.of('handed-over')) {
    if (payload.what === 'renaming') for (const cable of payload.items) words.set(cable, payload.words);
  }
  return words;
}

/** @param words In which it was handed over, when it was. */
export function renameStatus(fold: Fold, one: NameChange, words: string | null = null): RenameStatus {
  const { index } = fold;
  const cable = index.cables.get(one.cable);
  const clash = (index.renames?.get(one.cable)?.length ?? 0) > 1;
  const ends = cable ? knownEnds(fold, cable, one) : [];
  const settings = cable && ends.some((end) => end.newOn || end.oldOff) ? settingsOf(fold, cable) : [];
  return { ...one, state: stateOf(), ends, settings, clash, handedOver: words };

  function stateOf(): RenameState {
    const renamed = ends.filter(({ newOn }) => newOn !== null).length;
    if (renamed === 0) return 'untouched';
    if (renamed < ends.length) return 'first-end';
    if (clash || ends.some(({ oldOff }) => oldOff === null)) return 'both-new';
    return settings.every(({ done }) => done) ? 'done' : 'settings-left';
  }
}

/** What the ends of one rename were made of: the states are made anew whenever something is said of their places. */
interface KnownEnds {
  index: object;
  spots: string;
  states: (PlaceState | null)[];
  ends: RenameEnd[];
}
const knownByFold = derived((_: Fold) => new Map<NameChange, KnownEnds>());

/** Every statement asks how all renames stand; only those it touched are looked at anew. */
function knownEnds(fold: Fold, cable: Cable, one: NameChange): RenameEnd[] {
  const known = knownByFold(fold);
  const places = [...cable.ends.map(({ place }) => place ?? ''), ...fold.placesOfCable(cable.id)];
  const spots = places.join(' ');
  const states = places.map((place) => (fold.isSaid(place) ? fold.stateAt(place) : null));
  const before = known.get(one);
  const stands = before?.index === fold.index && before.spots === spots;
  if (stands && states.every((state, i) => state === before.states[i])) return before.ends;
  const ends = endsOf(fold, cable, one);
  known.set(one, { index: fold.index, spots, states, ends });
  return ends;
}

function endsOf(fold: Fold, cable: Cable, one: NameChange): RenameEnd[] {
  // An end that is not where the plan has it, or that the plan has nowhere, is taken where its label was found.
  const planned = new Set(cable.ends.map(({ place }) => place));
  const astray = new Map<string, string>();
  for (const place of fold.placesOfCable(cable.id)) {
    if (planned.has(place)) continue;
    const mark = fold.readingsAt(place).find((reading) => reading.cable === cable.id)?.mark ?? null;
    const end = whichEnd(fold, cable, place, mark);
    if (end !== null) astray.set(end, place);
  }
  return cable.ends.map(({ end, place: home }) => {
    const away = astray.get(end);
    const isHome = home !== null && fold.readingsAt(home).some((reading) => reading.cable === cable.id);
    return endAt(fold, end, isHome || away === undefined ? home : away, one);
  });
}

function endAt(fold: Fold, end: string, place: PlaceId | null, one: NameChange): RenameEnd {
  const nothing = { end, place, bears: [], newOn: null, oldOn: false, oldOff: null, unclear: false };
  if (place === null) return nothing;
  const state = fold.stateAt(place);
  // In a mult another plug may bear the same texts: only the plug read as this cable counts.
  const plug = fold.readingsAt(place).find((reading) => reading.cable === one.cable)?.plug;
  if (!plug) return { ...nothing, bears: state.plugs.flatMap(({ labels }) => labels.map(({ text }) => text)) };
  const bears = plug.labels.map(({ text }) => text);
  const fresh = plug.labels.find(({ text }) => saysNew(fold.index, text, one));
  const oldOn = plug.labels.some(({ text }) => saysOld(fold.index, text, one));
  const acts = labelActs(fold, place, state);
  const put = acts.find((act) => act.kind === 'label-put' && saysNew(fold.index, act.payload.text, one));
  const unclear =
    fresh !== undefined && !oldOn && !put && fresh.means !== one.cable && takenBy(fold.index, one) !== null;
  const seen = lastLook(state);
  const newOn = fresh && !unclear ? witness(put ?? seen) : null;
  const off = acts.find((act) => act.kind === 'label-off' && saysOld(fold.index, act.payload.text, one));
  const oldOff = newOn && !oldOn ? witness(off ?? seen) : null;
  return { end, place, bears, newOn, oldOn, oldOff, unclear };
}

type LabelAct = EventOf<'label-put'> | EventOf<'label-off'>;

/** Label acts on a look that stands here, the first first. Acts on what was withdrawn count for nothing. */
function labelActs(fold: Fold, place: PlaceId, state: PlaceState): LabelAct[] {
  const standing = new Set(state.looks.map(({ event }) => event));
  const here = (act: LabelAct) => act.payload.place === place && act.payload.upon.some((look) => standing.has(look));
  return labelActsAt(fold, place).filter(here);
}

/** The fold gives the same list until an act is added, so a long list is sorted by place once. */
const actsByPlace = derived((list: readonly LabelAct[]) => {
  const byPlace = new Map<PlaceId, LabelAct[]>();
  for (const act of list) byPlace.set(act.payload.place, [...(byPlace.get(act.payload.place) ?? []), act]);
  return byPlace;
});

function labelActsAt(fold: Fold, place: PlaceId): LabelAct[] {
  return [fold.of('label-put'), fold.of('label-off')].flatMap((list) => actsByPlace(list).get(place) ?? []);
}

function lastLook(state: PlaceState): Witness | undefined {
  return state.looks.at(-1);
}

function witness(from: Witness | undefined): Witness | null {
  return from ? { author: from.author, at: from.at } : null;
}

/** Values of the cable's jacks, and of its units as a whole, that hold an old name as a word of its own. */
function settingsOf(fold: FoldView, cable: Cable): RenameSetting[] {
  const { index } = fold;
  if (index.plan.settings.length === 0) return [];
  const bySpot = planSettings(index);
  return cable.ends.flatMap((end) => {
    if (end.place === null) return [];
    const unit = unitOf(end.place);
    return [...(bySpot.get(end.place) ?? []), ...(bySpot.get(unit) ?? [])].flatMap((setting) => {
      if (!holdsWord(setting.value, cable.label)) return [];
      const wanted = newValue(index, setting);
      const now = fold.settings.valueOf(setting);
      const done = now !== undefined && nameToKey(now) === nameToKey(wanted);
      return [{ unit: setting.unit, place: setting.place, name: setting.name, old: setting.value, new: wanted, done }];
    });
  });
}
