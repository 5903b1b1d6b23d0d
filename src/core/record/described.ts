// From descriptions made on the floor to racks, units and jacks beside the plan's. Free of order: of several that stand
// for one name the earliest gives the facts, and every jack that any of them names is there.
//
// Limits: A trunk described with its landings counts like a planned cable, and no difference tells that the plan lacks
// it. Pairs said to be dead or spare are told in the report and at their landings only. A range place and its landings
// both stand in the walk.

import { rangeToMembers } from '../plan/containment.ts';
import { type EventId, jackToPlace, type PlaceId, placeToParts, type RackId, type UnitId } from '../plan/identity.ts';
import type { Cable, Jack, Rack, Unit } from '../plan/model.ts';
import { nameToKey } from '../trade/names.ts';
import type { DescribedJack } from './describedEvents.ts';
import type { EventOf, Payload } from './events.ts';

type RackDescribed = EventOf<'rack-described'>;
type UnitDescribed = EventOf<'unit-described'>;

interface Described {
  racks: Rack[];
  units: Unit[];
  jacks: Jack[];
  /** Trunks by their label, with the ranges of landings where their ends are. */
  cables: Cable[];
}

export function describedToPlan(racks: readonly RackDescribed[], units: readonly UnitDescribed[]): Described {
  const rackNow = rackNames(racks);
  return {
    racks: [...firstByName(standing(racks))].map(([id, [{ payload }]]) => {
      const { corrects: _, ...rack } = payload;
      return { ...rack, id, implied: false };
    }),
    ...mergeUnits(firstByName(standing(units)), rackNow),
  };
}

/** A unit as it is said to be, without the word of what that corrects. */
export type UnitSaid = Omit<Payload<'unit-described'>, 'corrects'>;

/** What all descriptions that stand for this unit say together, as one; null when none does. */
export function describedAs(
  racks: readonly RackDescribed[],
  units: readonly UnitDescribed[],
  id: string,
): UnitSaid | null {
  const events = firstByName(standing(units)).get(id);
  if (!events) return null;
  const { corrects: _, ...first } = events[0].payload;
  return { ...inRackNow(first, rackNames(racks)), jacks: [...jacksByPlace(id, events).values()] };
}

/** Ids of racks whose label was corrected, to the id of today: what was placed there stays there. */
function rackNames(racks: readonly RackDescribed[]): (id: RackId) => RackId {
  const now = new Map<RackId, RackId>();
  const byId = new Map(racks.map((event) => [event.id, event]));
  const stand = standing(racks);
  for (const { payload } of stand) {
    const wanted = [...(payload.corrects ?? [])];
    const seen = new Set<string>();
    for (let next = wanted.pop(); next !== undefined; next = wanted.pop()) {
      const earlier = byId.get(next);
      if (!earlier || seen.has(next)) continue;
      seen.add(next);
      now.set(nameToKey(earlier.payload.label), nameToKey(payload.label));
      wanted.push(...(earlier.payload.corrects ?? []));
    }
  }
  // A label that a rack bears now is that rack's own.
  for (const { payload } of stand) now.delete(nameToKey(payload.label));
  return (id) => now.get(id) ?? id;
}

function inRackNow<U extends { rack?: RackId | undefined }>(unit: U, rackNow: (id: RackId) => RackId): U {
  return unit.rack === undefined ? unit : { ...unit, rack: rackNow(unit.rack) };
}

/** Those that no other one corrects, by time and id. A correction that is itself corrected still corrects. */
function standing<E extends RackDescribed | UnitDescribed>(events: readonly E[]): E[] {
  const corrected = new Set(events.flatMap(({ payload }) => payload.corrects ?? []));
  return events.filter(({ id }) => !corrected.has(id)).sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
}

/** Units that somebody said are gone from where this one is now. */
export function saidGone(units: readonly UnitDescribed[]): { event: EventId; label: string; unit: UnitId }[] {
  return standing(units).flatMap(({ id, payload }) =>
    (payload.gone ?? []).map((unit) => ({ event: id, label: payload.label, unit })),
  );
}

function firstByName<E extends RackDescribed | UnitDescribed>(events: readonly E[]): Map<string, [E, ...E[]]> {
  const byName = new Map<string, [E, ...E[]]>();
  for (const event of events) {
    const id = nameToKey(event.payload.label);
    const list = byName.get(id);
    if (list) list.push(event);
    else byName.set(id, [event]);
  }
  return byName;
}

/** Every jack that any of them names; the earliest that names it says what it is. */
function jacksByPlace(id: UnitId, events: readonly UnitDescribed[]): Map<PlaceId, DescribedJack> {
  const byPlace = new Map<PlaceId, DescribedJack>();
  for (const { payload } of events) {
    for (const jack of payload.jacks) {
      const place = jackToPlace(id, jack.label);
      if (!byPlace.has(place)) byPlace.set(place, jack);
    }
  }
  return byPlace;
}

function mergeUnits(
  byName: Map<string, [UnitDescribed, ...UnitDescribed[]]>,
  rackNow: (id: RackId) => RackId,
): Pick<Described, 'units' | 'jacks' | 'cables'> {
  const units: Unit[] = [];
  const jacks: Jack[] = [];
  const cables: Cable[] = [];
  for (const [id, events] of byName) {
    const [{ payload: first }] = events;
    const trunk = trunkOf(id, events);
    if (trunk) {
      cables.push(trunk);
      jacks.push(
        ...trunk.ends.flatMap(({ place, unit, jack }) => (place === null ? [] : rangeJack(place, unit, jack))),
      );
      continue;
    }
    const { corrects: _, like: __, jacks: ___, gone: ____, faces, ...rest } = first;
    for (const [place, jack] of jacksByPlace(id, events)) {
      jacks.push({ ...jack, id: place, unit: id, mult: jack.mult ?? false, spare: false, implied: false });
    }
    units.push({
      ...inRackNow(rest, rackNow),
      id,
      faces: faces.map((face) => ({ ...face, rows: face.rows.map((row) => row.map((one) => jackToPlace(id, one))) })),
      implied: false,
    });
  }
  return { units, jacks, cables };
}

/**
 * A trunk whose landings somebody told at one end at least: a cable with as many landings at each end. Who stands at the
 * far end describes it from there; two ranges are its two ends, in the order in which they were told.
 */
function trunkOf(id: string, events: readonly UnitDescribed[]): Cable | null {
  const [first] = events;
  if (first?.payload.form !== 'trunk') return null;
  const told = events.flatMap(({ payload }) => payload.tails?.flatMap(({ place }) => place ?? []) ?? []);
  const ranges = [...new Set(told)].filter((place) => rangeToMembers(place).length > 1);
  if (ranges.length === 0) return null;
  const ends = ranges.map((place, i) => {
    const parts = placeToParts(place);
    const at = parts.type === 'jack' ? parts : { unit: '', jack: '' };
    return { end: String.fromCharCode(65 + i), place, unit: at.unit, jack: at.jack };
  });
  const { label, description } = first.payload;
  return {
    id,
    label,
    ends: ends.length > 1 ? ends : [...ends, { end: 'B', place: null, unit: '', jack: '' }],
    ...(description ? { type: description } : {}),
    status: 'in-use',
    onAir: false,
  };
}

function rangeJack(place: PlaceId, unit: UnitId, jack: string): Jack {
  // The side is written as on its landings.
  const label = jack.replace(/-(FRONT|REAR|JUMPER)$/, (side) => ` ${side.slice(1).toLowerCase()}`);
  return { id: place, unit, label, mult: false, spare: false, implied: true };
}
