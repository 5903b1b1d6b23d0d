// What a running audit may still take in, and what was added to it by whom. It adds nothing itself.
import { hostOf } from '../../plan/hosts.ts';
import { type PlaceId, placeToParts } from '../../plan/identity.ts';
import type { Unit } from '../../plan/model.ts';
import { type PlanIndex, roomOfUnit } from '../../plan/planIndex.ts';
import type { Fold } from '../../rules/foldView.ts';
import { nameToKey } from '../../trade/names.ts';
import { compareLabels, planToWalk, type WalkOrder, type WalkStop } from './walkOrder.ts';

export type ScopePart = { type: 'rack' | 'room' | 'unit'; id: string; label: string };

/** Something that may be added; `jacks` are the ones that would be owed a look and are not yet. */
export type ScopeOffer = ScopePart & { jacks: number; where: string | null };

/** One act of adding. */
export interface AddedLine {
  event: string;
  parts: ScopePart[];
  author: string;
  at: number;
}

export interface ScopeMore {
  offers: ScopeOffer[];
  /** How many more there are than offered: a text finds them. */
  more: number;
  added: AddedLine[];
}

/** A plan of thousands of units is found by name, not read through. */
const SHOWN = 24;

/** @param text Part of a name; racks, rooms and units that hold it are offered, all of them when it is blank. */
export function scopeMore(fold: Fold, text: string): ScopeMore {
  const { index, scope } = fold;
  const wanted = nameToKey(text);
  const racks = new Map<string, ScopeOffer>();
  const rooms = new Map<string, ScopeOffer>();
  const units: ScopeOffer[] = [];
  for (const unit of index.plan.units) {
    const jacks = (index.jacksOf.get(unit.id) ?? []).filter(({ id }) => !scope.owed.has(id)).length;
    if (jacks === 0) continue;
    const { rack, room } = whereIs(index, unit);
    const where = rack === null ? room : rack.label;
    units.push({ type: 'unit', id: unit.id, label: unit.label, jacks, where });
    if (rack) count(racks, { type: 'rack', id: rack.id, label: rack.label, jacks, where: room });
    if (room !== null) count(rooms, { type: 'room', id: room, label: room, jacks, where: null });
  }
  const fits = ({ label }: ScopeOffer) => wanted === '' || nameToKey(label).includes(wanted);
  const byLabel = (a: ScopeOffer, b: ScopeOffer) => compareLabels(a.label, b.label);
  const all = [[...racks.values()], [...rooms.values()], units].flatMap((list) => list.filter(fits).sort(byLabel));
  return { offers: all.slice(0, SHOWN), more: Math.max(0, all.length - SHOWN), added: addedLines(fold) };
}

export function addedLines(fold: Fold): AddedLine[] {
  const { index } = fold;
  return fold.of('scope-added').map(({ id, author, at, payload }) => ({
    event: id,
    author,
    at,
    parts: [
      ...payload.racks.map((rack) => ({
        type: 'rack' as const,
        id: rack,
        label: index.racks.get(rack)?.label ?? rack,
      })),
      ...payload.rooms.map((room) => ({ type: 'room' as const, id: room, label: room })),
      ...payload.units.map((unit) => ({
        type: 'unit' as const,
        id: unit,
        label: index.units.get(unit)?.label ?? unit,
      })),
    ],
  }));
}

/** Where a jack belongs that the audit does not cover: each of these may be added. Null where it does cover it. */
export function outsideAt(fold: Fold, place: PlaceId): ScopePart[] | null {
  const parts = placeToParts(place);
  const unit = parts.type === 'jack' ? fold.index.units.get(parts.unit) : undefined;
  if (!unit || fold.scope.owed.has(place)) return null;
  const { rack, room } = whereIs(fold.index, unit);
  return [
    { type: 'unit', id: unit.id, label: unit.label },
    ...(rack ? [{ type: 'rack' as const, id: rack.id, label: rack.label }] : []),
    ...(room === null ? [] : [{ type: 'room' as const, id: room, label: room }]),
  ];
}

/** A jack that the audit does not cover is met with the others of its unit's side, which it does not cover either. */
export function stopOutside(fold: Fold, place: PlaceId, way?: WalkOrder): WalkStop | undefined {
  const parts = placeToParts(place);
  if (parts.type !== 'jack' || fold.scope.owed.has(place)) return undefined;
  const jacks = (fold.index.jacksOf.get(parts.unit) ?? []).flatMap(({ id }) => (fold.scope.owed.has(id) ? [] : [id]));
  const stops = planToWalk(fold.index, new Set(jacks), way);
  return stops.find((stop) => stop.unit === parts.unit && stop.places.includes(place));
}

function whereIs(index: PlanIndex, unit: Unit): { rack: { id: string; label: string } | null; room: string | null } {
  const host = hostOf(index, unit);
  const rack =
    host.rack === undefined ? null : { id: host.rack, label: index.racks.get(host.rack)?.label ?? host.rack };
  return { rack, room: roomOfUnit(index, host) };
}

function count(into: Map<string, ScopeOffer>, one: ScopeOffer): void {
  const known = into.get(one.id);
  if (known) known.jacks += one.jacks;
  else into.set(one.id, one);
}
