// A plan's index with more in it than the plan: what people described on the floor and names that are being given.
// The plan itself stays as it is; a big index is not copied, only looked through.

import { nameToFolded, nameToKey } from '../trade/names.ts';
import type { CableId, PlaceId, UnitId } from './identity.ts';
import { createJackNames } from './jackNames.ts';
import type { Cable, Jack, Rack, Unit } from './model.ts';
import type { Lookup, Named } from './named.ts';
import type { NameChange, PlanIndex, PlannedEnd } from './planIndex.ts';

interface Additions {
  racks: readonly Rack[];
  units: readonly Unit[];
  jacks: readonly Jack[];
  /** Trunks whose landings somebody described. */
  cables?: readonly Cable[];
  /** Planned cables that are being given another name; until that is done they go by both. */
  cableNames: readonly NameChange[];
}

/** Racks and units that the plan has stay the plan's; only jacks it lacks are added to them. */
export function extendIndex(base: PlanIndex, added: Additions): PlanIndex {
  const racks = added.racks.filter(({ id }) => !base.racks.has(id));
  const jacks = added.jacks.filter(({ id }) => !base.jacks.has(id));
  const cables = (added.cables ?? []).filter(({ id }) => !base.cables.has(id));
  const more = racks.length + jacks.length + cables.length + added.units.length + added.cableNames.length;
  if (more === 0) return base;
  const newUnits = added.units.filter(({ id }) => !base.units.has(id));
  const grown = new Map(
    added.units.flatMap((unit): [UnitId, Unit][] => {
      const planned = base.units.get(unit.id);
      return [[unit.id, planned ? withFaces(planned, unit, base) : unit]];
    }),
  );
  const jacksOf = new Map<UnitId, Jack[]>();
  for (const jack of jacks) {
    const list = jacksOf.get(jack.unit);
    if (list) list.push(jack);
    else jacksOf.set(jack.unit, [...(base.jacksOf.get(jack.unit) ?? []), jack]);
  }
  const { plan } = base;
  const units = [...plan.units.map((unit) => grown.get(unit.id) ?? unit), ...newUnits];
  const allJacksOf = over(base.jacksOf, jacksOf);
  return {
    ...base,
    plan: {
      ...plan,
      racks: [...plan.racks, ...racks],
      units,
      jacks: [...plan.jacks, ...jacks],
      cables: cables.length === 0 ? plan.cables : [...plan.cables, ...cables],
    },
    cables: over(base.cables, new Map(cables.map((cable) => [cable.id, cable]))),
    endsAt: over(base.endsAt, endsOf(cables, base)),
    racks: over(base.racks, new Map(racks.map((rack) => [rack.id, rack]))),
    units: over(base.units, grown),
    jacks: over(base.jacks, new Map(jacks.map((jack) => [jack.id, jack]))),
    renames: renamesByCable(added.cableNames),
    jacksOf: allJacksOf,
    names: {
      ...withNames(base, racks, newUnits, cables, added.cableNames),
      jacks: createJackNames(units, allJacksOf),
    },
  };
}

function endsOf(cables: readonly Cable[], base: PlanIndex): Map<PlaceId, PlannedEnd[]> {
  const at = new Map<PlaceId, PlannedEnd[]>();
  for (const cable of cables) {
    for (const end of cable.ends) {
      if (end.place === null) continue;
      at.set(end.place, [...(at.get(end.place) ?? base.endsAt.get(end.place) ?? []), { cable, end }]);
    }
  }
  return at;
}

/** Two lists may say the same, or different things, about one cable; each thing said stands once, in one order. */
function renamesByCable(all: readonly NameChange[]): Lookup<NameChange[], CableId> {
  const byCable = new Map<CableId, NameChange[]>();
  for (const one of all) {
    const list = byCable.get(one.cable) ?? [];
    byCable.set(one.cable, list);
    if (!list.some((known) => known.old === one.old && known.new === one.new)) list.push(one);
  }
  for (const list of byCable.values()) list.sort((a, b) => (`${a.old} ${a.new}` < `${b.old} ${b.new}` ? -1 : 1));
  return byCable;
}

function withFaces(planned: Unit, described: Unit, base: PlanIndex): Unit {
  const faces = described.faces.map((face) => ({
    ...face,
    rows: face.rows.map((row) => row.filter((jack) => !base.jacks.has(jack))).filter((row) => row.length > 0),
  }));
  return { ...planned, faces: [...planned.faces, ...faces.filter(({ rows }) => rows.length > 0)] };
}

function withNames(
  base: PlanIndex,
  racks: readonly Rack[],
  units: readonly Unit[],
  cables: readonly Cable[],
  cableNames: Additions['cableNames'],
): Omit<PlanIndex['names'], 'jacks'> {
  const exact = new Map<string, Named[]>();
  const key = new Map<string, Named[]>();
  const folded = new Map<string, Named[]>();
  const put = (map: Map<string, Named[]>, under: PlanIndex['names']['exact'], text: string, named: Named) => {
    const list = map.get(text) ?? under.get(text) ?? [];
    if (!list.some((one) => one.type === named.type && one.id === named.id)) map.set(text, [...list, named]);
  };
  const add = (text: string, named: Named) => {
    if (text.trim() === '') return;
    put(exact, base.names.exact, text.trim(), named);
    put(key, base.names.key, nameToKey(text), named);
    put(folded, base.names.folded, nameToFolded(text), named);
  };
  for (const { new: text, cable } of cableNames) add(text, { type: 'cable', id: cable, label: text });
  for (const { id, label } of cables) add(label, { type: 'cable', id, label });
  for (const unit of units) add(unit.label, { type: 'unit', id: unit.id, label: unit.label });
  for (const rack of racks) add(rack.label, { type: 'rack', id: rack.id, label: rack.label });
  return {
    exact: over(base.names.exact, exact),
    key: over(base.names.key, key),
    folded: over(base.names.folded, folded),
  };
}

function over<V, K extends string>(under: Lookup<V, K>, own: ReadonlyMap<K, V>): Lookup<V, K> {
  if (own.size === 0) return under;
  return { get: (key) => own.get(key) ?? under.get(key), has: (key) => own.has(key) || under.has(key) };
}
