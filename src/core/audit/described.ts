// From descriptions made on the floor to racks, units and jacks beside the plan's. Free of order: of several that stand
// for one name the earliest gives the facts, and every jack that any of them names is there.
import { jackToPlace, nameToKey } from '../plan/identity.ts';
import type { Jack, Rack, Unit } from '../plan/model.ts';
import type { DescribedJack } from './describedEvents.ts';
import type { EventOf, Payload } from './events.ts';

type RackDescribed = EventOf<'rack-described'>;
type UnitDescribed = EventOf<'unit-described'>;

export interface Described {
  racks: Rack[];
  units: Unit[];
  jacks: Jack[];
}

export function describedToPlan(racks: readonly RackDescribed[], units: readonly UnitDescribed[]): Described {
  return {
    racks: [...firstByName(standing(racks))].map(([id, [{ payload }]]) => {
      const { corrects: _, ...rack } = payload;
      return { ...rack, id, implied: false };
    }),
    ...mergeUnits(firstByName(standing(units))),
  };
}

/** A unit as it is said to be, without the word of what that corrects. */
export type UnitSaid = Omit<Payload<'unit-described'>, 'corrects'>;

/** What all descriptions that stand for this unit say together, as one; null when none does. */
export function describedAs(units: readonly UnitDescribed[], id: string): UnitSaid | null {
  const events = firstByName(standing(units)).get(id);
  if (!events) return null;
  const { corrects: _, ...first } = events[0].payload;
  return { ...first, jacks: [...jacksByPlace(id, events).values()] };
}

/** Those that no other one corrects, by time and id. A correction that is itself corrected still corrects. */
function standing<E extends RackDescribed | UnitDescribed>(events: readonly E[]): E[] {
  const corrected = new Set(events.flatMap(({ payload }) => payload.corrects ?? []));
  return events.filter(({ id }) => !corrected.has(id)).sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1));
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
function jacksByPlace(id: string, events: readonly UnitDescribed[]): Map<string, DescribedJack> {
  const byPlace = new Map<string, DescribedJack>();
  for (const { payload } of events) {
    for (const jack of payload.jacks) {
      const place = jackToPlace(id, jack.label);
      if (!byPlace.has(place)) byPlace.set(place, jack);
    }
  }
  return byPlace;
}

function mergeUnits(byName: Map<string, [UnitDescribed, ...UnitDescribed[]]>): Pick<Described, 'units' | 'jacks'> {
  const units: Unit[] = [];
  const jacks: Jack[] = [];
  for (const [id, events] of byName) {
    const [{ payload: first }] = events;
    const { corrects: _, like: __, jacks: ___, faces, ...rest } = first;
    for (const [place, jack] of jacksByPlace(id, events)) {
      jacks.push({ ...jack, id: place, unit: id, mult: jack.mult ?? false, spare: false, implied: false });
    }
    units.push({
      ...rest,
      id,
      faces: faces.map((face) => ({ ...face, rows: face.rows.map((row) => row.map((one) => jackToPlace(id, one))) })),
      implied: false,
    });
  }
  return { units, jacks };
}
