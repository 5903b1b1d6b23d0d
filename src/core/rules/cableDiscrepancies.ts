// What is wrong with one cable, from the places where labels that name it stand now. Also the one answer to "which
// end is this?" and to a cable's state. Depends on this cable's planned places and its label's places only.

import { placesOver } from '../plan/containment.ts';
import { type CableId, isJack, isLooseEnd, type PlaceId, type UnitId, unitOf } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import { isOnAir } from '../plan/onAir.ts';
import { factsAt } from '../plan/planIndex.ts';
import type { Severity } from '../trade/kinds.ts';
import { signalClash } from '../trade/signals.ts';
import { adaptersAt } from './adapters.ts';
import { type Discrepancy, type Finding, makeDiscrepancy } from './discrepancy.ts';
import type { CableStatus, FoldView } from './foldView.ts';
import { pairDiscrepancies } from './pairs.ts';
import { leadAsPlanned, leadElsewhere } from './patchLeads.ts';
import { isOccupied } from './placeDiscrepancies.ts';

/**
 * Which end is the one at this place? Derived, never stored: an end mark, else the end planned there, else the end
 * on that unit, else the end left over, else null (open).
 */
export function whichEnd(view: FoldView, cable: Cable, place: PlaceId, mark: string | null): string | null {
  const own = namedEnd(cable, place, mark);
  if (own !== null) return own;
  const claimed = new Set(
    view
      .placesOfCable(cable.id)
      .flatMap((other) => (other === place ? [] : (namedEnd(cable, other, markAt(view, cable.id, other)) ?? []))),
  );
  const left = cable.ends.filter(
    ({ end, place: at }) => !claimed.has(end) && (at === null || !holds(view, at, cable.id)),
  );
  return left.length === 1 ? left[0]!.end : null;
}

/** The end that its mark, its planned place or its unit names, without regard to the others. */
function namedEnd(cable: Cable, place: PlaceId, mark: string | null): string | null {
  if (mark && cable.ends.some(({ end }) => end === mark)) return mark;
  const planned = cable.ends.filter((end) => end.place === place);
  if (planned.length === 1) return planned[0]!.end;
  if (!isJack(place)) return null;
  const onUnit = cable.ends.filter((end) => end.place !== null && unitOf(end.place) === unitOf(place));
  return onUnit.length === 1 ? onUnit[0]!.end : null;
}

function markAt(view: FoldView, cable: CableId, place: PlaceId): string | null {
  return view.readingsAt(place).find((reading) => reading.cable === cable)?.mark ?? null;
}

/** Does a label of this cable stand at the place, at one of its landings, or at what hangs on it? */
export function holds(view: FoldView, place: PlaceId, cable: CableId): boolean {
  return (
    leadAsPlanned(view, place)?.id === cable ||
    view.readingsAt(place).some((reading) => reading.cable === cable) ||
    view.placesOfCable(cable).some((one) => placesOver(view.index, one).includes(place))
  );
}

/** Where its labels stand; a landing of a planned range, and a socket of what hangs on a planned jack, are that end. */
function endPlaces(view: FoldView, cable: Cable): readonly PlaceId[] {
  const isPlanned = (place: PlaceId) => cable.ends.some((end) => end.place === place);
  const places = view.placesOfCable(cable.id);
  if (places.every(isPlanned)) return places;
  const whole = (place: PlaceId) =>
    isPlanned(place) ? place : (placesOver(view.index, place).find(isPlanned) ?? place);
  return [...new Set(places.map(whole))];
}

/** Every label of it stands where the plan has it, none bears an end mark: nothing further to ask. */
function isPlainlyRight(view: FoldView, cable: Cable, places: readonly PlaceId[]): boolean {
  if (places.length > cable.ends.length) return false;
  return places.every(
    (place) =>
      cable.ends.some((end) => end.place === place) &&
      view.readingsAt(place).every((reading) => reading.cable !== cable.id || reading.mark === null),
  );
}

/** A way in which the floor can show that a planned service is interrupted or only misnamed. */
function reach(view: FoldView, cable: Cable): Severity {
  if (cable.status !== 'in-use') return 'record';
  return isOnAir(view, cable.id) ? 'on-air' : 'service';
}

export function cableDiscrepancies(view: FoldView, id: CableId): Discrepancy[] {
  const cable = view.index.cables.get(id);
  if (!cable) return [];
  const places = endPlaces(view, cable);
  const pairs = pairDiscrepancies(view, cable, reach(view, cable));
  const elsewhere = leadElsewhere(view, cable);
  if (elsewhere.length === 0 && isPlainlyRight(view, cable, places)) return pairs;
  const planned = cable.ends.flatMap((end) => (end.place === null ? [] : [end.place]));
  const right = places.filter((place) => planned.includes(place));
  const astray = places.filter((place) => !planned.includes(place));
  const jacks = astray.filter((place) => isJack(place) && leadAsPlanned(view, place) === null);
  const unitsOf = (at: PlaceId[]) => new Set(at.map(unitOf));
  const plannedUnits = unitsOf(planned);
  const besideItself = jacks.filter((place) => plannedUnits.size > 1 && unitsOf(right).has(unitOf(place)));
  const tooMany = places.length > cable.ends.length;
  const told: Told[] = [];
  if (tooMany || besideItself.length > 0) told.push([{ kind: 'duplicate-label' }, 'undecided', [...places]]);
  for (const place of tooMany ? [] : astray.filter(isLooseEnd)) {
    told.push([{ kind: 'not-landed', where: view.wordsOf(place) }, reach(view, cable), [place]]);
  }
  for (const place of jacks) {
    told.push(...clashAt(view, cable, place));
    if (!tooMany && !besideItself.includes(place)) told.push(astrayAt(view, cable, place));
  }
  for (const { to, home } of elsewhere) {
    // Where its label was read there too, that has told it.
    if (places.includes(to)) continue;
    const plan = view.index.endsAt.get(to)?.[0]?.cable.label;
    told.push([{ kind: 'wrong-jack', found: cable.label, ...(plan ? { plan } : {}), home }, reach(view, cable), [to]]);
  }
  for (const place of right) told.push(...marksAt(view, cable, place));
  if (right.length < 2) told.push(...bothPlaced(view, places));
  const evidenceAt = (at: readonly PlaceId[]) =>
    at.flatMap((place) => view.stateAt(place).looks.map((look) => look.event));
  return [
    ...pairs,
    ...told.map(([finding, severity, at]) =>
      makeDiscrepancy({ ...finding, cable: id }, severity, at, [cable.label], evidenceAt(at)),
    ),
  ];
}

type Told = [finding: Finding, severity: Severity, at: PlaceId[]];

/** The signal this cable carries by plan against the jack it was found in. */
function clashAt({ index }: FoldView, { signal: carried }: Cable, place: PlaceId): Told[] {
  const { signal } = factsAt(index, place);
  const clash = carried && signal ? signalClash(carried, signal) : null;
  return carried && signal && clash
    ? [[{ kind: 'signal-clash', signals: [carried, signal], joined: false }, clash.severity, [place]]]
    : [];
}

/** Its label stands in a jack that the plan does not give it. */
function astrayAt(view: FoldView, cable: Cable, place: PlaceId): Told {
  if (cable.status === 'spare') return [{ kind: 'spare-in-use', found: cable.label }, 'undecided', [place]];
  const end = whichEnd(view, cable, place, markAt(view, cable.id, place));
  const home = cable.ends.find((one) => one.end === end)?.place ?? null;
  const homeState = home ? view.stateAt(home).type : null;
  const free = homeState === 'empty' || homeState === 'blanked';
  const own = view.index.endsAt.get(place)?.[0]?.cable;
  // Followed to the far end of the cable planned here it is that cable, under another's label: no plug is wrong.
  const isOwn = own?.ends.some((far) => far.place !== null && view.joined(place).includes(far.place)) === true;
  const followed = view.stateAt(place).followed && !isOwn;
  const plan = own?.label;
  const finding: Finding = {
    kind: 'wrong-jack',
    found: cable.label,
    ...(plan ? { plan } : {}),
    ...(home ? { home } : {}),
  };
  return [finding, free || followed ? reach(view, cable) : 'undecided', [place]];
}

/** End marks against the plan: A where B should be; L where the right leg is. */
function marksAt(view: FoldView, cable: Cable, place: PlaceId): Told[] {
  const mark = markAt(view, cable.id, place);
  if (!mark) return [];
  if (cable.ends.some(({ end }) => end === mark)) {
    const here = cable.ends.filter((end) => end.place === place);
    return here[0] && here.every(({ end }) => end !== mark)
      ? [[{ kind: 'ends-reversed', found: mark, plan: here[0].end }, 'record', [place]]]
      : [];
  }
  const plan = view.index.jacks.get(place)?.leg;
  const found = mark === 'L' ? 'left' : mark === 'R' ? 'right' : null;
  return found && (plan === 'left' || plan === 'right') && plan !== found
    ? [[{ kind: 'left-right-swapped', found, plan }, reach(view, cable), [place]]]
    : [];
}

/** Two ends on the floor that meet an output with an output; only where the plan did not say so itself. */
function bothPlaced({ index }: FoldView, places: readonly PlaceId[]): Told[] {
  const [a, b, more] = places;
  if (a === undefined || b === undefined || more !== undefined) return [];
  const { direction } = factsAt(index, a);
  if (direction !== factsAt(index, b).direction || (direction !== 'in' && direction !== 'out')) return [];
  return [[{ kind: 'direction-clash', direction }, direction === 'out' ? 'equipment' : 'service', [a, b]]];
}

const DIFFERS: ReadonlySet<string> = new Set([
  'wrong-jack',
  'duplicate-label',
  'not-landed',
  'spare-in-use',
  'signal-clash',
  'direction-clash',
  'left-right-swapped',
]);

/** The state of a cable as a whole. The far end is never claimed from the near end's label. */
export function cableToStatus(view: FoldView, id: CableId, discrepancies: readonly Discrepancy[]): CableStatus {
  const cable = view.index.cables.get(id);
  if (!cable) return { type: 'not-seen', ends: [] };
  const ends = cable.ends.map(({ end, place }): CableStatus['ends'][number] => {
    if (place === null) return { end, place, seen: 'not-seen' };
    if (holds(view, place, id)) return { end, place, seen: 'as-planned' };
    const state = view.stateAt(place);
    if (state.type === 'not-verified' || view.scope.leftOut(place) !== null)
      return { end, place, seen: 'not-verified' };
    if (state.type === 'unseen') return { end, place, seen: 'not-seen' };
    // An adapter is in the way: what it takes stands at its own sockets.
    if (adaptersAt(view, place).some((unit) => !isWholeSeen(view, unit))) return { end, place, seen: 'not-seen' };
    return { end, place, seen: 'differs' };
  });
  const reason =
    view.scope.cableLeftOut(id) ??
    ends
      .map(({ place }) => (place ? (view.scope.leftOut(place) ?? view.stateAt(place).reason) : undefined))
      .find(Boolean);
  if (discrepancies.some((d) => DIFFERS.has(d.kind)) || ends.some((end) => end.seen === 'differs')) {
    // A spare that nobody expects to be plugged is not a difference while its jacks are empty.
    const quiet = cable.status !== 'in-use' && discrepancies.length === 0;
    if (!quiet) return { type: 'differs', ends, reason };
  }
  const seen = ends.filter((end) => end.seen === 'as-planned').length;
  if (seen === ends.length && ends.length > 0) return { type: 'confirmed', ends };
  if (seen > 0) return { type: 'one-end-seen', ends, reason };
  if (view.scope.cableLeftOut(id) !== null || ends.some((end) => end.seen === 'not-verified')) {
    return { type: 'not-verified', ends, reason };
  }
  return { type: 'not-seen', ends };
}

function isWholeSeen(view: FoldView, unit: UnitId): boolean {
  return (view.index.jacksOf.get(unit) ?? []).every(({ id }) => view.isSaid(id));
}

/**
 * May this cable be called not installed? Only when both planned places are in scope and every known place in scope
 * was looked at, its label stands nowhere, and nothing unread sits where it should be.
 */
export function isNotInstalled(view: FoldView, cable: Cable): boolean {
  if (cable.status !== 'in-use' || view.placesOfCable(cable.id).length > 0) return false;
  const planned = cable.ends.flatMap((end) => (end.place === null ? [] : [end.place]));
  if (planned.length < 2 || planned.some((place) => !view.scope.owed.has(place))) return false;
  return planned.every((place) => {
    const state = view.stateAt(place);
    return state.type !== 'conflict' && (!isOccupied(state) || state.type === 'label');
  });
}
