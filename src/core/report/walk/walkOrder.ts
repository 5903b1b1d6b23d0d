// The order in which a person meets the jacks: rack by rack, front before rear, top to bottom, each face in its
// printed order, what hangs on a jack right after its unit; then the units that stand in rooms.

import { hostOf } from '../../plan/hosts.ts';
import { type PlaceId, placeToParts, type RackId, type UnitId } from '../../plan/identity.ts';
import type { FaceLayout, Rack, Unit } from '../../plan/model.ts';
import { type PlanIndex, roomOfUnit } from '../../plan/planIndex.ts';

export type Side = 'front' | 'rear';

export interface WalkStop {
  unit: UnitId;
  rack: RackId | null;
  room: string | null;
  /** Where the person stands. */
  side: Side;
  /** Jack ids in the order they are visited. */
  places: PlaceId[];
}

/** Natural order of labels: R2 before R10, P02 before P10. */
export function compareLabels(a: string, b: string): number {
  const [x, y] = [a.match(/\d+|\D+/g) ?? [], b.match(/\d+|\D+/g) ?? []];
  for (const [i, p] of x.entries()) {
    const q = y[i];
    if (q === undefined) break;
    const numeric = /^\d/.test(p) && /^\d/.test(q);
    const order = numeric ? Number(p) - Number(q) : p < q ? -1 : p > q ? 1 : 0;
    if (order !== 0) return order;
  }
  return x.length - y.length || (a < b ? -1 : a > b ? 1 : 0);
}

/** Height of a unit's top edge over the floor, in U, whatever way the rack counts. */
function topOf(unit: Unit, rack: Rack): number {
  const u = unit.u ?? 0;
  return rack.numbering === 'bottom-up' ? u + unit.heightU - 1 : rack.heightU - u + 1;
}

/** Which way a person goes; each walk may have its own. */
export interface WalkOrder {
  /** Racks and rooms by their labels. */
  racks: 'rising' | 'falling';
  sides: 'front-first' | 'rear-first';
  units: 'top-down' | 'bottom-up';
  jacks: 'left-right' | 'right-left';
  /** Odd over even: column by column, or one row after the other. */
  rows: 'columns' | 'rows';
  /** After a statement: on to the next jack, or to the nearest end that the plan has and nobody spoke about. */
  along: 'jacks' | 'cables';
}
export const USUAL_WAY: WalkOrder = {
  racks: 'rising',
  sides: 'front-first',
  units: 'top-down',
  jacks: 'left-right',
  rows: 'columns',
  along: 'jacks',
};

/** Jacks of a face in visiting order: odd over even goes column by column unless told, other faces row by row. */
export function faceToOrder(index: PlanIndex, face: FaceLayout, way: WalkOrder = USUAL_WAY): string[] {
  const [first = [], second = []] = face.rows;
  const label = (place: PlaceId | undefined) => index.jacks.get(place ?? '')?.label ?? '';
  const interleaved = face.rows.length === 2 && compareLabels(label(second[0]), label(first[1])) < 0;
  const rows = way.jacks === 'right-left' ? face.rows.map((row) => [...row].reverse()) : face.rows;
  if (!interleaved || way.rows === 'rows') return rows.flat();
  const [upper = [], lower = []] = rows;
  return upper.flatMap((place, i) => [place, ...lower.slice(i, i + 1)]).concat(lower.slice(upper.length));
}

export function planToWalk(index: PlanIndex, owed: ReadonlySet<string>, way: WalkOrder = USUAL_WAY): WalkStop[] {
  const byLabel = (a: string, b: string) => (way.racks === 'falling' ? -1 : 1) * compareLabels(a, b);
  const fromTop = way.units === 'bottom-up' ? -1 : 1;
  const hung = new Map<string, Unit[]>();
  const isHung = (unit: Unit) => unit.at !== undefined && hostOf(index, unit) !== unit;
  for (const unit of index.plan.units) {
    const parts = isHung(unit) ? placeToParts(unit.at ?? '') : null;
    if (parts?.type !== 'jack') continue;
    hung.set(parts.unit, [...(hung.get(parts.unit) ?? []), unit]);
  }
  /** What hangs on a jack is met from where that jack is met. */
  const withHung = (stop: WalkStop, depth = 0): WalkStop[] => {
    const where = ({ at = '' }: Unit) => stop.places.indexOf(at);
    const here = depth > 8 ? [] : (hung.get(stop.unit) ?? []).filter((unit) => where(unit) >= 0);
    const order = here.sort((a, b) => where(a) - where(b));
    return [
      stop,
      ...order.flatMap((unit) =>
        ownStops(unit).flatMap((own) =>
          withHung({ ...own, rack: stop.rack, room: stop.room, side: stop.side }, depth + 1),
        ),
      ),
    ];
  };
  const stopsOf = (unit: Unit): WalkStop[] => ownStops(unit).flatMap((stop) => withHung(stop));
  const ownStops = (unit: Unit): WalkStop[] => {
    const listed = new Set(unit.faces.flatMap((face) => face.rows.flat()));
    const rest = (index.jacksOf.get(unit.id) ?? []).map((jack) => jack.id).filter((id) => !listed.has(id));
    const faces = unit.faces.map((face) => ({ side: face.face, places: faceToOrder(index, face, way) }));
    if (rest.length > 0) faces.push({ side: 'rear', places: rest });
    return faces.flatMap(({ side, places }) => {
      const kept = places.filter((place) => owed.has(place));
      if (kept.length === 0) return [];
      return [{ unit: unit.id, rack: unit.rack ?? null, room: roomOfUnit(index, unit), side, places: kept }];
    });
  };
  const inRacks = [...index.plan.racks]
    .sort((a, b) => byLabel(a.label, b.label))
    .flatMap((rack) => {
      const units = index.plan.units
        .filter((unit) => unit.rack === rack.id && !isHung(unit))
        .sort((a, b) => fromTop * (topOf(b, rack) - topOf(a, rack)) || compareLabels(a.label, b.label));
      const stops = units.flatMap(stopsOf);
      const [first, second] = way.sides === 'rear-first' ? (['rear', 'front'] as const) : (['front', 'rear'] as const);
      return [...stops.filter(({ side }) => side === first), ...stops.filter(({ side }) => side === second)];
    });
  const inRooms = index.plan.units
    .filter((unit) => !unit.rack && !isHung(unit))
    .sort((a, b) => byLabel(a.room ?? '', b.room ?? '') || compareLabels(a.label, b.label))
    .flatMap(stopsOf);
  // What hangs on a jack that nobody walks comes last, so that its sockets are not forgotten.
  const met = new Set([...inRacks, ...inRooms].map(({ unit }) => unit));
  const left = index.plan.units.filter((unit) => isHung(unit) && !met.has(unit.id)).flatMap(ownStops);
  return [...inRacks, ...inRooms, ...left];
}
