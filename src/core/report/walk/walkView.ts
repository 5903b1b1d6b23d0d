// What the walk shows for one jack: the unit's face as the eye sees it, what stands there, what is planned, what
// comes next. In a blind audit nothing expected leaves here before it was stated.

import { endsOver } from '../../plan/containment.ts';
import type { AuditId, EventId, PlaceId, RackId, UnitId } from '../../plan/identity.ts';
import { placeToParts } from '../../plan/identity.ts';
import { isOnAir } from '../../plan/onAir.ts';
import { factsAt } from '../../plan/planIndex.ts';
import type { Basis, Permission, State } from '../../record/events.ts';
import type { Fold } from '../../rules/fold.ts';
import { isLookedAt } from '../../rules/planDiscrepancies.ts';
import { cautionFor } from '../../trade/hazards.ts';
import { checkNext } from '../../walk/recheck.ts';
import { lookToPhotoWords } from '../words/photoTime.ts';
import { isBetweenNames } from '../words/renamingWords.ts';
import { alongWords, farWords } from './alongWords.ts';
import { outsideAt, type ScopePart, stopOutside } from './scopeView.ts';
import { distance } from './twinsView.ts';
import { faceToOrder, planToWalk, type Side, type WalkOrder, type WalkStop } from './walkOrder.ts';
import type { WalkRenaming } from './walkRenaming.ts';

export interface JackView {
  place: PlaceId;
  label: string;
  connector?: string | undefined;
  state: 'unseen' | 'empty' | 'plugged' | 'label' | 'unlabelled' | 'illegible' | 'could-not-see';
  plan?: string | undefined;
  found?: string | undefined;
  mark?: 'as-planned' | 'differs' | 'undecided' | 'hazard' | undefined;
  upsideDown?: boolean;
}

export interface WalkView {
  audit: AuditId;
  name: string;
  occasion: string;
  hasPlan: boolean;
  permission: Permission;
  blind: boolean;
  closed: boolean;
  onAir: boolean;
  rack: RackId | null;
  room: string | null;
  side: Side;
  unit: { id: string; label: string; u: number | null; heightU: number; description: string | null };
  current: {
    place: PlaceId;
    jack: string;
    plan: string | null;
    planCable: string | null;
    done: boolean;
    through: string | null;
  };
  /** Rows as printed; `order` has all jacks of the face in the order this walk visits them. */
  face: { rows: JackView[][]; order: string[]; mirrored: boolean };
  sideWords: string;
  /** Where the walk goes along the cables: the one in hand, and how its other end stands. */
  along: string | null;
  leftHere: number;
  leftAll: number;
  next: string | null;
  previous: string | null;
  caution: string | null;
  /** Where names are being changed: put in by whoever answers, see renamingView.ts. */
  renaming?: WalkRenaming | null;
  notes: number;
  photos: number;
  /** Somebody wrote a jacket down in this audit: only then is anything asked about them. */
  marks: boolean;
  /** Looks that stand here, for undo and "changed since"; `printed`: the label's own words, where it names another. */
  looks: {
    event: EventId;
    author: string;
    at: number;
    label: string | null;
    printed?: string | undefined;
    state: State;
    basis: Basis;
    photo?: string | undefined;
  }[];
  complete: boolean;
  /** Jacks in scope that nobody could look at: they have an entry that says why. */
  notLooked: number;
  /** The next of them after the jack in hand. */
  unseenNext: string | null;
  /** The jack in hand is none that this audit covers: what may be added to it. */
  outside: ScopePart[] | null;
}

/** One unit's side in walking order, for going elsewhere. Of a large plan there are thousands, so they are asked apart. */
export interface StopView {
  unit: UnitId;
  label: string;
  rack: string | null;
  room: string | null;
  side: Side;
  left: number;
  total: number;
  /** First open jack, else the first. */
  first: string;
  /** Who made their latest statement here. */
  people: { author: string; at: number }[];
}

interface Walk {
  stops: WalkStop[];
  places: PlaceId[];
  /** Where a place stands in `places`, and at which stop. */
  at: Map<string, { index: number; stop: WalkStop }>;
}

const walks = new WeakMap<object, Walk>();
const ways = new WeakMap<Fold, WalkOrder>();
/** Which way the walks of this fold go from now on: this phone's own matter, no part of the record. */
export function setWay(fold: Fold, way: WalkOrder): void {
  ways.set(fold, way);
  walks.delete(fold.scope);
}

/** The walk of a scope; cached per scope object, which the fold replaces when the scope changes. */
function orderOf(fold: Fold): Walk {
  const known = walks.get(fold.scope);
  if (known) return known;
  const stops = planToWalk(fold.index, fold.scope.owed, ways.get(fold));
  const walk: Walk = { stops, places: [], at: new Map() };
  for (const stop of stops) {
    for (const place of stop.places) {
      walk.at.set(place, { index: walk.places.length, stop });
      walk.places.push(place);
    }
  }
  walks.set(fold.scope, walk);
  return walk;
}

export function walkOf(fold: Fold): WalkStop[] {
  return orderOf(fold).stops;
}

/** A place still owes a statement. Not visible and refused are statements too: the walk goes on past them. */
export function isOpen(fold: Fold, place: PlaceId): boolean {
  return !fold.isSaid(place);
}

function openIn(fold: Fold, stop: WalkStop): number {
  let open = 0;
  for (const place of stop.places) if (isOpen(fold, place)) open += 1;
  return open;
}

/** In a blind audit the way along the cables would tell where the plan has ends, so there it goes along the jacks. */
function goesAlongCables(fold: Fold): boolean {
  return ways.get(fold)?.along === 'cables' && fold.started?.payload.blind !== true;
}

/**
 * The nearest planned end that nobody spoke about: same unit, same rack, same room, elsewhere; there the first in walking
 * order, but before it one whose cable was met at another end already. Null when no planned end is open.
 */
function nearestEnd(fold: Fold, from: string | null): string | null {
  const { stops, at } = orderOf(fold);
  const begin = from === null ? 0 : Math.max(0, stops.indexOf(at.get(from)?.stop as WalkStop));
  let best: { place: PlaceId; far: number; met: boolean } | null = null;
  for (let i = 0; i < stops.length; i++) {
    const stop = stops[(begin + i) % stops.length]!;
    const far = distance(fold, from, stop.places[0]!);
    if (best && (far > best.far || (far === best.far && best.met))) continue;
    for (const place of stop.places) {
      const planned = isOpen(fold, place) ? fold.index.endsAt.get(place)?.[0] : undefined;
      if (!planned) continue;
      const met = planned.cable.ends.some((end) => end.place !== null && end.place !== place && fold.isSaid(end.place));
      if (!best || far < best.far || (met && !best.met)) best = { place, far, met };
      if (met) break;
    }
  }
  return best?.place ?? null;
}

/** First open place at or after the given one, walking round once; null when nothing is left. */
export function nextOpen(fold: Fold, after: string | null): string | null {
  const end = goesAlongCables(fold) ? nearestEnd(fold, after) : null;
  if (end !== null) return end;
  const { places, at } = orderOf(fold);
  const start = after === null ? 0 : (at.get(after)?.index ?? -1) + 1;
  for (let i = 0; i < places.length; i++) {
    const place = places[(start + i) % places.length]!;
    if (isOpen(fold, place)) return place;
  }
  return null;
}

/** The first jack after the given one that has an entry and was not looked at, walking round once. */
function nextUnseen(fold: Fold, after: string): string | null {
  const { places, at } = orderOf(fold);
  const start = (at.get(after)?.index ?? -1) + 1;
  const round = [...places.slice(start), ...places.slice(0, start)];
  return round.find((place) => !isLookedAt(fold, place)) ?? null;
}

export function markAt(fold: Fold, place: PlaceId): JackView['mark'] {
  const state = fold.stateAt(place);
  const [worst] = fold.discrepanciesAt(place);
  if (worst?.severity === 'people' || worst?.severity === 'equipment') return 'hazard';
  if (state.type === 'unseen' || state.type === 'not-verified') return undefined;
  const isWrong = worst && checkNext(fold, place).length === 0;
  if (isWrong) return worst.kind === 'sightings-conflict' ? 'undecided' : 'differs';
  // What no plan knows cannot be as planned.
  if (fold.revision === null || state.type === 'plugged' || isBetweenNames(fold, place)) return undefined;
  return fold.readingsAt(place).some(({ cable }) => cable === null) ? undefined : 'as-planned';
}

export function jackToView(fold: Fold, place: PlaceId, blind: boolean): JackView {
  const { index } = fold;
  const state = fold.stateAt(place);
  const parts = placeToParts(place);
  const type = state.type === 'conflict' ? 'plugged' : state.type === 'not-verified' ? 'could-not-see' : state.type;
  const planned = endsOver(index, place)[0]?.cable;
  const renamed = isBetweenNames(fold, place)?.new;
  const found = renamed ?? fold.readingsAt(place)[0]?.text ?? state.plugs[0]?.pattern;
  const said = state.type !== 'unseen';
  return {
    place,
    label: index.jacks.get(place)?.label ?? (parts.type === 'jack' ? parts.jack : place),
    connector: factsAt(index, place).connector,
    state: type === 'blanked' ? 'empty' : type,
    plan: planned && (!blind || said) ? planned.label || undefined : undefined,
    found,
    mark: blind && !said ? undefined : markAt(fold, place),
  };
}

export function walkView(fold: Fold, audit: AuditId, place: PlaceId | null): WalkView | null {
  const { places: all, at: order } = orderOf(fold);
  const away = place === null ? undefined : stopOutside(fold, place, ways.get(fold));
  const current = place && (away || order.has(place)) ? place : (nextOpen(fold, null) ?? all[0]);
  const stop = away ?? (current === undefined ? undefined : order.get(current)?.stop);
  const started = fold.started?.payload;
  if (!current || !stop || !started) return null;
  const { index } = fold;
  const unit = index.units.get(stop.unit)!;
  const face = unit.faces.find((one) => one.rows.some((row) => row.includes(current)));
  // A through-panel is one set of holes: from its other side the eye sees it mirrored.
  const standingBehind = stop.side === 'rear';
  const rows = (face?.rows ?? [stop.places]).map((row, i, { length }) =>
    row.map((one) => ({ ...jackToView(fold, one, started.blind), upsideDown: length === 2 && i === 1 })),
  );
  const way = away ? away.places : all;
  const at = away ? away.places.indexOf(current) : (order.get(current)?.index ?? 0);
  const planned = endsOver(index, current)[0]?.cable;
  const [facts, state] = [factsAt(index, current), fold.stateAt(current)];
  const done = !isOpen(fold, current);
  const hidePlan = started.blind && !done;
  let [said, looked] = [0, 0];
  for (const one of fold.seenPlaces()) {
    if (!order.has(one)) continue;
    said += 1;
    if (isLookedAt(fold, one)) looked += 1;
  }
  const leftAll = all.length - said;
  return {
    audit,
    name: started.name,
    occasion: started.occasion,
    hasPlan: fold.revision !== null,
    permission: fold.permission,
    blind: started.blind,
    closed: fold.closed !== null,
    onAir: (index.endsAt.get(current) ?? []).some(({ cable }) => isOnAir(fold, cable.id)),
    rack: stop.rack === null ? null : (index.racks.get(stop.rack)?.label ?? stop.rack),
    room: stop.room,
    side: stop.side,
    unit: {
      id: unit.id,
      label: unit.label,
      u: unit.u ?? null,
      heightU: unit.heightU,
      description: unit.description ?? null,
    },
    current: {
      place: current,
      jack: index.jacks.get(current)?.label ?? current,
      plan: hidePlan ? null : planned?.label || null,
      planCable: hidePlan ? null : (planned?.id ?? null),
      done,
      through: hidePlan ? null : (farWords(fold, current) ?? null),
    },
    face: {
      rows,
      order: face ? faceToOrder(index, face, ways.get(fold)) : stop.places,
      mirrored: face?.through === true && standingBehind !== (face.face === 'rear'),
    },
    sideWords: sideWords(rows, stop.side, started.blind),
    along: goesAlongCables(fold) ? alongWords(fold, current) : null,
    leftHere: openIn(fold, stop),
    leftAll,
    next: way[at + 1] ?? null,
    previous: way[at - 1] ?? null,
    caution: cautionFor(facts.signal, facts.connector),
    notes: fold.of('note').filter((note) => note.payload.place === current).length,
    photos: fold.of('photo').filter((photo) => photo.payload.place === current).length,
    marks: fold.of('jacket-read').length > 0,
    looks: state.looks.map((look) => ({
      event: look.event,
      author: look.author,
      at: look.at,
      label: look.plugs[0]?.labels[0]?.text ?? null,
      printed: look.plugs[0]?.labels[0]?.printed,
      state: look.state,
      basis: look.basis,
      photo: lookToPhotoWords(fold, look),
    })),
    complete: all.length > 0 && looked === all.length,
    notLooked: said - looked,
    unseenNext: leftAll > 0 || said === looked ? null : nextUnseen(fold, current),
    outside: away ? outsideAt(fold, current) : null,
  };
}

export function stopsView(fold: Fold): StopView[] {
  const { index } = fold;
  const { stops, at } = orderOf(fold);
  const latest = new Map<string, { at: number; stop: WalkStop }>();
  for (const place of fold.seenPlaces()) {
    const stop = at.get(place)?.stop;
    if (!stop) continue;
    for (const look of fold.stateAt(place).looks) {
      if (look.at > (latest.get(look.author)?.at ?? -1)) latest.set(look.author, { at: look.at, stop });
    }
  }
  return stops.map((one) => ({
    unit: one.unit,
    label: index.units.get(one.unit)?.label ?? one.unit,
    rack: one.rack === null ? null : (index.racks.get(one.rack)?.label ?? one.rack),
    room: one.room,
    side: one.side,
    left: openIn(fold, one),
    total: one.places.length,
    first: one.places.find((p) => isOpen(fold, p)) ?? one.places[0]!,
    people: [...latest].flatMap(([author, { at: when, stop }]) => (stop === one ? [{ author, at: when }] : [])),
  }));
}

function sideWords(rows: JackView[][], side: Side, blind: boolean): string {
  const from = side === 'front' ? 'As you see it from the front' : 'As you see it from behind';
  const [first] = rows[0] ?? [];
  const [below] = rows[1] ?? [];
  const where = first ? `: ${first.label} ${below ? `upper left, ${below.label} below` : 'on your left'}` : '';
  const planned = rows.some((row) => row.some(({ plan }) => plan !== undefined));
  return `${from}${where}.${blind ? ' Blind: the plan is hidden.' : planned ? ' Dashed: plan.' : ''}`;
}
