// What is described so far, for describing on: racks with their units from the top, where the next unit would sit, and
// units whose jacks can be copied.
import type { Fold } from '../audit/fold.ts';
import { rackFaceToPlace } from '../plan/identity.ts';
import { jacksToNotation } from '../plan/jackNotation.ts';
import type { Rack, Unit } from '../plan/model.ts';
import { compareLabels } from './walkOrder.ts';

export interface DescribedUnit {
  id: string;
  label: string;
  u: number | null;
  heightU: number;
  face: 'front' | 'rear';
  jacks: number;
  /** Events that describe it and stand; empty for a unit of the plan. */
  events: string[];
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
  events: string[];
  photos: { front: number; rear: number };
}

/** What a unit is like, for copying it. */
export interface LikeUnit {
  label: string;
  heightU: number;
  notation: string;
  rows: string[][];
  face: 'front' | 'rear';
  through: boolean;
}

export interface DescribedView {
  audit: string;
  name: string;
  racks: DescribedRack[];
  /** Labels of every unit that has jacks, for copying and for telling a name twice. */
  units: string[];
}

export function describedView(fold: Fold, audit: string): DescribedView | null {
  const { index } = fold;
  if (!fold.started) return null;
  const unitEvents = eventsByLabel(fold, 'unit-described');
  const rackEvents = eventsByLabel(fold, 'rack-described');
  const lastIn = new Map<string, string>();
  for (const { payload } of fold.of('unit-described')) if (payload.rack) lastIn.set(payload.rack, payload.label);
  const photosAt = (place: string) => fold.of('photo').filter(({ payload }) => payload.place === place).length;
  return {
    audit,
    name: fold.started.payload.name,
    racks: [...index.plan.racks]
      .sort((a, b) => compareLabels(a.label, b.label))
      .map((rack) => {
        const units = index.plan.units.filter((unit) => unit.rack === rack.id && unit.u !== undefined);
        const last = units.find(({ label }) => label === lastIn.get(rack.id));
        return {
          id: rack.id,
          label: rack.label,
          room: rack.room ?? null,
          heightU: rack.heightU,
          numbering: rack.numbering,
          units: units
            .sort((a, b) => height(b, rack) - height(a, rack))
            .map((unit) => ({
              id: unit.id,
              label: unit.label,
              u: unit.u ?? null,
              heightU: unit.heightU,
              face: unit.mounted,
              jacks: index.jacksOf.get(unit.id)?.length ?? 0,
              events: unitEvents.get(unit.label) ?? [],
            })),
          last: last?.u === undefined ? null : { label: last.label, u: last.u, heightU: last.heightU },
          events: rackEvents.get(rack.label) ?? [],
          photos: {
            front: photosAt(rackFaceToPlace(rack.id, 'front')),
            rear: photosAt(rackFaceToPlace(rack.id, 'rear')),
          },
        };
      }),
    units: index.plan.units.map(({ label }) => label).sort(compareLabels),
  };
}

/** Which way is up: the U that stands higher, whatever way the rack counts. */
function height(unit: Unit, rack: Rack): number {
  return rack.numbering === 'bottom-up' ? (unit.u ?? 0) : rack.heightU - (unit.u ?? 0);
}

function eventsByLabel(fold: Fold, kind: 'unit-described' | 'rack-described'): Map<string, string[]> {
  const map = new Map<string, string[]>();
  for (const { id, payload } of fold.of(kind)) map.set(payload.label, [...(map.get(payload.label) ?? []), id]);
  return map;
}

/** Lowest U of a unit of this height that sits so many free U below the one described last; at the top when none was. */
export function nextU(
  rack: Pick<DescribedRack, 'heightU' | 'numbering' | 'last'>,
  heightU: number,
  gap: number,
): number {
  const { last, numbering } = rack;
  if (numbering === 'bottom-up') return (last ? last.u : rack.heightU + 1) - gap - heightU;
  return (last ? last.u + last.heightU : 1) + gap;
}

/** Labels of units that cover any of these U already. */
export function unitsInTheWay(
  rack: DescribedRack,
  face: 'front' | 'rear',
  u: number,
  heightU: number,
  except: string,
): string[] {
  return rack.units
    .filter((unit) => unit.face === face && unit.label !== except && unit.u !== null)
    .filter((unit) => unit.u! < u + heightU && u < unit.u! + unit.heightU)
    .map(({ label }) => label);
}

export function likeUnit(fold: Fold, label: string): LikeUnit | null {
  const { index } = fold;
  const unit = index.plan.units.find((one) => one.label === label);
  if (!unit) return null;
  const jacks = index.jacksOf.get(unit.id) ?? [];
  const labelOf = new Map(jacks.map((jack) => [jack.id, jack.label]));
  const [face] = unit.faces;
  return {
    label,
    heightU: unit.heightU,
    notation: jacksToNotation(jacks),
    rows: (face?.rows ?? []).map((row) => row.flatMap((place) => labelOf.get(place) ?? [])),
    face: face?.face ?? 'rear',
    through: face?.through ?? false,
  };
}
