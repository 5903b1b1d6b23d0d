// What is described so far, for describing on: racks with their units from the top, what stands elsewhere, where the
// next unit would sit, and what a unit is said to be, for correcting and copying it.

import { type AuditId, type EventId, type PlaceId, placeToParts, rackFaceToPlace } from '../plan/identity.ts';
import type { Jack, Rack, Unit } from '../plan/model.ts';
import { describedAs, type UnitSaid } from '../record/described.ts';
import type { DescribedJack } from '../record/describedEvents.ts';
import type { Fold } from '../rules/fold.ts';
import { nameToKey } from '../trade/names.ts';
import { compareLabels } from './walk/walkOrder.ts';

export interface DescribedUnit {
  id: string;
  label: string;
  u: number | null;
  heightU: number;
  face: 'front' | 'rear';
  jacks: number;
  /** Jacks of it that were spoken about, those that it no longer has included. */
  said: number;
  /** The jack it hangs on, in words. */
  at: string | null;
  /** Events that describe it and stand; empty for a unit of the plan. */
  events: EventId[];
}

export interface DescribedRack {
  id: string;
  label: string;
  room: string | null;
  heightU: number;
  numbering: Rack['numbering'];
  /** From the top. */
  units: DescribedUnit[];
  /** The unit described last here, below which the next one is expected. */
  last: { label: string; u: number; heightU: number } | null;
  events: EventId[];
  photos: { front: number; rear: number };
}

/** What a unit is said to be: by descriptions alone, for correcting them, and with the plan's word, for copying. */
export interface LikeUnit {
  label: string;
  own: UnitSaid | null;
  whole: UnitSaid | null;
}

export interface DescribedView {
  audit: AuditId;
  name: string;
  racks: DescribedRack[];
  /** Id of the rack that was named, or in which a unit was placed, last. */
  usual: string | null;
  /** Described units that stand in no rack of the list, by where they stand. */
  elsewhere: { title: string; units: DescribedUnit[] }[];
  /** Units in rooms that only the plan names. */
  byPlan: number;
  /** Labels of every unit, for copying its jacks and for telling a name twice. */
  units: string[];
}

export function describedView(fold: Fold, audit: AuditId): DescribedView | null {
  const { index } = fold;
  if (!fold.started) return null;
  const unitEvents = eventsByName(fold, 'unit-described');
  const rackEvents = eventsByName(fold, 'rack-described');
  const saidOf = saidByUnit(fold);
  const inRack = new Map<string, Unit[]>();
  const others: Unit[] = [];
  for (const unit of index.plan.units) {
    if (unit.at !== undefined || !unit.rack || !index.racks.has(unit.rack)) others.push(unit);
    else inRack.set(unit.rack, [...(inRack.get(unit.rack) ?? []), unit]);
  }
  const toView = (unit: Unit): DescribedUnit => ({
    id: unit.id,
    label: unit.label,
    u: unit.u ?? null,
    heightU: unit.heightU,
    face: unit.mounted,
    jacks: index.jacksOf.get(unit.id)?.length ?? 0,
    said: saidOf.get(unit.id) ?? 0,
    at: unit.at === undefined ? null : fold.wordsOf(unit.at),
    events: unitEvents.get(unit.id) ?? [],
  });
  const photosAt = (place: PlaceId) => fold.of('photo').filter(({ payload }) => payload.place === place).length;
  return {
    audit,
    name: fold.started.payload.name,
    racks: [...index.plan.racks]
      .sort((a, b) => compareLabels(a.label, b.label))
      .map((rack) => {
        const units = inRack.get(rack.id) ?? [];
        const last = lastIn(fold, units);
        return {
          id: rack.id,
          label: rack.label,
          room: rack.room ?? null,
          heightU: rack.heightU,
          numbering: rack.numbering,
          units: units.sort((a, b) => height(b, rack) - height(a, rack)).map(toView),
          last: last?.u === undefined ? null : { label: last.label, u: last.u, heightU: last.heightU },
          events: rackEvents.get(rack.id) ?? [],
          photos: {
            front: photosAt(rackFaceToPlace(rack.id, 'front')),
            rear: photosAt(rackFaceToPlace(rack.id, 'rear')),
          },
        };
      }),
    usual: lastRack(fold),
    elsewhere: groups(others.filter(({ id }) => unitEvents.has(id)).map((unit) => [whereItStands(unit), toView(unit)])),
    byPlan: others.filter(({ id, at }) => at === undefined && !unitEvents.has(id)).length,
    units: index.plan.units.map(({ label }) => label).sort(compareLabels),
  };
}

function whereItStands(unit: Unit): string {
  if (unit.at !== undefined) return 'Plugged into a jack';
  if (unit.rack) return `Rack ${unit.rack}, not named yet`;
  return unit.room ?? 'In a room without a name';
}

const LAST = ['In a room without a name', 'Plugged into a jack'];

function groups(units: readonly (readonly [string, DescribedUnit])[]): DescribedView['elsewhere'] {
  const byTitle = new Map<string, DescribedUnit[]>();
  for (const [title, unit] of units) byTitle.set(title, [...(byTitle.get(title) ?? []), unit]);
  const rank = (title: string) => (title.startsWith('Rack ') ? -2 : LAST.indexOf(title));
  return [...byTitle]
    .map(([title, list]) => ({ title, units: list.sort((a, b) => compareLabels(a.label, b.label)) }))
    .sort((a, b) => rank(a.title) - rank(b.title) || compareLabels(a.title, b.title));
}

/** The unit with a U whose description is the latest that stands. */
function lastIn(fold: Fold, units: readonly Unit[]): Unit | undefined {
  const placed = new Map(units.filter(({ u }) => u !== undefined).map((unit) => [unit.id, unit]));
  const last = fold.of('unit-described').findLast(({ payload }) => placed.has(nameToKey(payload.label)));
  return last && placed.get(nameToKey(last.payload.label));
}

function lastRack(fold: Fold): string | null {
  const named = fold.of('rack-described').map(({ at, payload }) => ({ at, rack: nameToKey(payload.label) }));
  const placed = fold.of('unit-described').map(({ at, payload }) => ({ at, rack: payload.rack ?? '' }));
  const known = [...named, ...placed].filter(({ rack }) => fold.index.racks.has(rack));
  return known.sort((a, b) => a.at - b.at).at(-1)?.rack ?? null;
}

function saidByUnit(fold: Fold): Map<string, number> {
  const said = new Map<string, number>();
  for (const place of fold.seenPlaces()) {
    const parts = placeToParts(place);
    if (parts.type === 'jack') said.set(parts.unit, (said.get(parts.unit) ?? 0) + 1);
  }
  return said;
}

/** Which way is up: the U that stands higher, whatever way the rack counts. */
function height(unit: Unit, rack: Rack): number {
  return rack.numbering === 'bottom-up' ? (unit.u ?? 0) : rack.heightU - (unit.u ?? 0);
}

function eventsByName(fold: Fold, kind: 'unit-described' | 'rack-described'): Map<string, string[]> {
  const map = new Map<string, string[]>();
  for (const { id, payload } of fold.of(kind)) {
    const key = nameToKey(payload.label);
    map.set(key, [...(map.get(key) ?? []), id]);
  }
  return map;
}

/**
 * Lowest U where a unit of this height would sit: so many free U below the one described last, or further down to where
 * it is free; from the top where nothing below is. Null when the rack has no such place left on that side.
 */
export function nextU(
  rack: Pick<DescribedRack, 'heightU' | 'numbering' | 'last' | 'units'>,
  heightU: number,
  gap: number,
  face: 'front' | 'rear',
): number | null {
  const { last, numbering } = rack;
  const up = numbering === 'bottom-up';
  const top = up ? rack.heightU - heightU + 1 : 1;
  const first = last ? (up ? last.u - heightU : last.u + last.heightU) : top;
  const start = up ? first - gap : first + gap;
  const isInside = (u: number) => u >= 1 && u + heightU - 1 <= rack.heightU;
  // More free U than the rack has are the person's own word; the form says that they do not fit.
  if (gap > 0 && !isInside(start)) return start;
  for (const from of [start, top]) {
    for (let u = from; isInside(u); u += up ? -1 : 1) {
      if (unitsInTheWay(rack, face, u, heightU, '').length === 0) return u;
    }
  }
  return null;
}

/** Units that cover any of these U of this side already. */
export function unitsInTheWay(
  rack: Pick<DescribedRack, 'units'>,
  face: 'front' | 'rear',
  u: number,
  heightU: number,
  except: string,
): DescribedUnit[] {
  return rack.units
    .filter((unit) => unit.face === face && unit.id !== except && unit.u !== null)
    .filter((unit) => unit.u! < u + heightU && u < unit.u! + unit.heightU);
}

export function likeUnit(fold: Fold, label: string): LikeUnit | null {
  const { index } = fold;
  const unit = index.plan.units.find((one) => one.label === label);
  if (!unit) return null;
  const { id: _, implied: __, origin: ___, faces, ...about } = unit;
  const labelOf = (place: PlaceId) => index.jacks.get(place)?.label ?? [];
  return {
    label,
    own: describedAs(fold.of('rack-described'), fold.of('unit-described'), unit.id),
    whole: {
      ...about,
      jacks: (index.jacksOf.get(unit.id) ?? []).map(jackAsDescribed),
      faces: faces.map((face) => ({ ...face, rows: face.rows.map((row) => row.flatMap(labelOf)) })),
    },
  };
}

function jackAsDescribed({ label, connector, direction, signal, leg, mult }: Jack): DescribedJack {
  return {
    label,
    ...(connector ? { connector } : {}),
    ...(direction ? { direction } : {}),
    ...(signal ? { signal } : {}),
    ...(leg ? { leg } : {}),
    ...(mult ? { mult } : {}),
  };
}
