// A newly read plan with the ids of the plan in force wherever an item is recognised. Ids are matched here and nowhere
// else; nothing of what the new sheet says is changed.

import { jackOnUnit, jackToPlace, placeToParts } from '../../plan/identity.ts';
import type { Plan, Unit } from '../../plan/model.ts';
import { nameToKey } from '../../trade/names.ts';
import { groupBy } from './groups.ts';
import { matchCables } from './matchCables.ts';
import { matchRacks, matchUnits } from './matchUnits.ts';

/**
 * @param next A plan as read from a sheet, with ids made from its own names.
 * @param revision SHA-256 of the plan in force, which becomes the new plan's parent.
 * Cables are recognised by number and an end, then by both ends, then by number; units by name, hardware, slot; racks
 * by name, then by what they hold. The same two plans give the same bytes.
 */
export function keepIds(old: Plan, next: Plan, revision: string): Plan {
  const byName = matchRacks(old, next);
  const unitIds = claimIds(
    next.units.map(({ id }) => id),
    matchUnits(old, next, byName),
    old.units.map(({ id }) => id),
  );
  const rackIds = claimIds(
    next.racks.map(({ id }) => id),
    matchRacks(old, next, unitIds),
    old.racks.map(({ id }) => id),
  );
  const places = jackIds(old, next, unitIds);
  const place = (id: string): string => {
    const known = places.get(id);
    if (known !== undefined) return known;
    const parts = placeToParts(id);
    return parts.type === 'jack' ? jackOnUnit(unitIds.get(parts.unit) ?? parts.unit, parts.jack) : id;
  };
  const unit = (id: string) => unitIds.get(id) ?? id;
  const moved = next.cables.map((cable) => ({
    ...cable,
    ends: cable.ends.map((end) => (end.place === null ? end : { ...end, place: place(end.place) })),
  }));
  const cableIds = claimIds(
    next.cables.map(({ id }) => id),
    matchCables(old.cables, moved),
    old.cables.map(({ id }) => id),
  );
  return {
    ...next,
    parent: revision,
    racks: next.racks.map((rack) => ({ ...rack, id: rackIds.get(rack.id) ?? rack.id })),
    units: next.units.map(
      (one): Unit => ({
        ...one,
        id: unit(one.id),
        ...(one.rack === undefined ? {} : { rack: rackIds.get(one.rack) ?? one.rack }),
        ...(one.at === undefined ? {} : { at: place(one.at) }),
        ...(one.tails === undefined
          ? {}
          : {
              tails: one.tails.map((tail) => (tail.place === undefined ? tail : { ...tail, place: place(tail.place) })),
            }),
        faces: one.faces.map((face) => ({ ...face, rows: face.rows.map((row) => row.map(place)) })),
      }),
    ),
    jacks: next.jacks.map((jack) => ({ ...jack, id: place(jack.id), unit: unit(jack.unit) })),
    cables: moved.map((cable) => ({ ...cable, id: cableIds.get(cable.id) ?? cable.id })),
    settings: next.settings.map((setting) => ({
      ...setting,
      unit: unit(setting.unit),
      ...(setting.place === undefined ? {} : { place: place(setting.place) }),
    })),
    ...(next.routes === undefined
      ? {}
      : {
          routes: next.routes.map((route) => ({
            unit: unit(route.unit),
            from: place(route.from),
            to: place(route.to),
          })),
        }),
    contradictions: next.contradictions.map((one) => ({
      ...one,
      cables: one.cables.map((id) => cableIds.get(id) ?? id),
      places: one.places.map(place),
    })),
  };
}

/** What was recognised keeps the old id; what is new never takes one that the old plan has given. */
function claimIds(
  wanted: readonly string[],
  matched: ReadonlyMap<string, string>,
  old: readonly string[],
): Map<string, string> {
  const taken = new Set(old);
  const ids = new Map(matched);
  for (const id of wanted) {
    if (ids.has(id)) continue;
    let own = id;
    const stem = id.replace(/~\d+$/, '');
    for (let n = 2; taken.has(own); n += 1) own = `${stem}~${n}`;
    taken.add(own);
    ids.set(id, own);
  }
  return ids;
}

/** New place of each jack to the one it keeps: same name on the same unit, else the same but for zeros in front. */
function jackIds(old: Plan, next: Plan, unitIds: ReadonlyMap<string, string>): Map<string, string> {
  const known = new Map(old.jacks.map((jack) => [jack.id, jack]));
  const oldOf = groupBy(old.jacks, ({ unit }) => unit);
  const ids = new Map<string, string>();
  for (const [unit, jacks] of groupBy(next.jacks, ({ unit }) => unit)) {
    const id = unitIds.get(unit) ?? unit;
    const before = oldOf.get(id);
    if (!before) {
      for (const jack of jacks) ids.set(jack.id, jackToPlace(id, jack.label));
      continue;
    }
    const left: typeof jacks = [];
    const kept = new Set<string>();
    for (const jack of jacks) {
      const same = known.get(jackToPlace(id, jack.label));
      if (same?.label === jack.label) {
        ids.set(jack.id, same.id);
        kept.add(same.id);
      } else left.push(jack);
    }
    for (const key of [nameToKey, withoutZeros]) {
      const [free, wanted] = [
        groupBy(
          before.filter((jack) => !kept.has(jack.id)),
          (jack) => key(jack.label),
        ),
        groupBy(
          left.filter((jack) => !ids.has(jack.id)),
          (jack) => key(jack.label),
        ),
      ];
      for (const [name, [one, ...more]] of wanted) {
        const [match, ...others] = free.get(name) ?? [];
        if (!one || !match || more.length > 0 || others.length > 0) continue;
        ids.set(one.id, match.id);
        kept.add(match.id);
      }
    }
    for (const jack of left) {
      if (ids.has(jack.id)) continue;
      const own = jackToPlace(id, jack.label);
      let free = own;
      for (let n = 2; known.has(free); n += 1) free = `${own}~${n}`;
      ids.set(jack.id, free);
    }
  }
  return ids;
}

/** `P03` and `P3` are one jack renamed where a unit has no other such pair; nothing else is folded. */
function withoutZeros(label: string): string {
  return nameToKey(label).replace(/(^|\D)0+(?=\d)/g, '$1');
}
