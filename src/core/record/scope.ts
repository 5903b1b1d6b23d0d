// Which places an audit owes a look, and what was left out and why.

import { hostOf } from '../plan/hosts.ts';
import { type CableId, isSlot, type PlaceId, placeToParts } from '../plan/identity.ts';
import { type PlanIndex, roomOfUnit } from '../plan/planIndex.ts';
import type { EventOf } from './events.ts';

type Added = Pick<EventOf<'scope-added'>, 'payload'>;

export interface ScopePlaces {
  /** Jack ids that are owed a look: in scope and not left out. */
  owed: ReadonlySet<PlaceId>;
  has(place: PlaceId): boolean;
  /** Reason why a place or cable was left out; null when it was not. */
  leftOut(place: PlaceId): string | null;
  cableLeftOut(cable: CableId): string | null;
}

type Exclusion = EventOf<'audit-started'>['payload']['exclusions'][number];

/** What is left out still: whoever adds the very thing by name takes it in again, not what was left out within it. */
export function exclusionsOf(all: readonly Exclusion[], added: readonly Added[]): Exclusion[] {
  const taken = new Set(added.flatMap(({ payload: { racks, rooms, units } }) => [...racks, ...rooms, ...units]));
  return all.filter(({ what }) => !taken.has(what));
}

/**
 * Scope by rack and room; none of either means the whole plan. An exclusion names a rack, room, unit, jack or cable
 * by id (rooms by name).
 *
 * @param added What was added since, by anybody and in any order: all of it counts.
 */
export function scopeOf(
  index: PlanIndex,
  started: EventOf<'audit-started'>['payload'] | null,
  added: readonly Added[] = [],
): ScopePlaces {
  const racks = new Set(started?.scope.racks ?? []);
  const rooms = new Set(started?.scope.rooms ?? []);
  const whole = racks.size === 0 && rooms.size === 0;
  for (const { payload } of added) {
    for (const rack of payload.racks) racks.add(rack);
    for (const room of payload.rooms) rooms.add(room);
  }
  const units = new Set(added.flatMap(({ payload }) => payload.units));
  const excluded = new Map(exclusionsOf(started?.exclusions ?? [], added).map(({ what, reason }) => [what, reason]));
  const inScope = new Set<PlaceId>();
  const owed = excluded.size === 0 ? inScope : new Set<PlaceId>();
  for (const unit of index.plan.units) {
    const host = hostOf(index, unit);
    const room = roomOfUnit(index, host);
    const inside =
      whole ||
      (host.rack !== undefined && racks.has(host.rack)) ||
      (room !== null && rooms.has(room)) ||
      units.has(unit.id) ||
      units.has(host.id);
    if (!inside) continue;
    for (const jack of index.jacksOf.get(unit.id) ?? []) {
      inScope.add(jack.id);
      if (owed !== inScope && leftOut(jack.id) === null) owed.add(jack.id);
    }
  }

  function leftOut(place: PlaceId): string | null {
    if (excluded.size === 0) return null;
    const direct = excluded.get(place);
    if (direct !== undefined) return direct;
    const parts = placeToParts(place);
    if (parts.type === 'loose') return null;
    if (parts.type === 'slot') return excluded.get(parts.rack) ?? null;
    const unit = index.units.get(parts.unit);
    if (!unit) return null;
    const host = hostOf(index, unit);
    const room = roomOfUnit(index, host);
    return (
      excluded.get(unit.id) ??
      excluded.get(host.id) ??
      excluded.get(host.rack ?? '') ??
      (room === null ? null : excluded.get(room)) ??
      null
    );
  }

  return {
    owed,
    has: (place) => inScope.has(place) || (whole && !isSlot(place)),
    leftOut,
    cableLeftOut: (cable) => excluded.get(cable) ?? null,
  };
}
