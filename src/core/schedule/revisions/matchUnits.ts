// Which rack and which unit of a newer sheet is which of the plan in force? Names, hardware, the slot, then the cables.
// Only pairs with one candidate on either side are taken; the rest is new.

import type { UnitId } from '../../plan/identity.ts';
import type { Plan, Rack, Unit } from '../../plan/model.ts';
import { nameToKey } from '../../trade/names.ts';
import { groupBy } from './groups.ts';

/** @param units With it, racks that no name matches are recognised by the units they hold: new unit id to old. */
export function matchRacks(old: Plan, next: Plan, units?: ReadonlyMap<string, string>): Map<string, string> {
  const ids = new Map<string, string>();
  pairUp(old.racks, next.racks, (rack) => nameToKey(rack.label), ids);
  if (!units) return ids;
  const rackOf = new Map(old.units.map((unit) => [unit.id, unit.rack]));
  const taken = new Set(ids.values());
  const votes = new Map<string, Map<string, number>>();
  for (const unit of next.units) {
    const was = rackOf.get(units.get(unit.id) ?? '');
    if (unit.rack === undefined || ids.has(unit.rack) || was === undefined || taken.has(was)) continue;
    const count = votes.get(unit.rack) ?? new Map<string, number>();
    count.set(was, (count.get(was) ?? 0) + 1);
    votes.set(unit.rack, count);
  }
  const wanted = next.racks.filter((rack) => !ids.has(rack.id) && votes.has(rack.id));
  const choice = new Map(wanted.map((rack) => [rack.id, mostVotes(votes.get(rack.id) ?? new Map())]));
  const claims = groupBy(wanted, (rack: Rack) => choice.get(rack.id) ?? '');
  for (const [was, [rack, ...others]] of claims) if (was !== '' && rack && others.length === 0) ids.set(rack.id, was);
  return ids;
}

/** The rack that most of the units stood in; '' where two have as many. */
function mostVotes(count: ReadonlyMap<string, number>): string {
  const [first, second] = [...count].sort((a, b) => b[1] - a[1]);
  return first && first[1] !== second?.[1] ? first[0] : '';
}

/** New unit id to old. @param racks New rack id to old, by name. */
export function matchUnits(old: Plan, next: Plan, racks: ReadonlyMap<string, string>): Map<string, string> {
  const ids = new Map<string, string>();
  const placeOf = (unit: Unit, isNew: boolean) => {
    const rack = unit.rack === undefined ? undefined : isNew ? (racks.get(unit.rack) ?? unit.rack) : unit.rack;
    return rack === undefined ? `room ${nameToKey(unit.room ?? '')}` : `rack ${rack}`;
  };
  const fresh = new Set(next.units);
  const at = (unit: Unit) => placeOf(unit, fresh.has(unit));
  const pair = (key: (unit: Unit) => string, fits?: (a: Unit, b: Unit) => boolean) =>
    pairUp(old.units, next.units, key, ids, fits);
  pair((unit) => nameToKey(unit.label));
  pair((unit) => `${nameToKey(unit.label)} ${at(unit)}`);
  // A name that repeats bears its place in front; once it stands alone, it does not.
  pair((unit) => placed(unit));
  pair((unit) => (unit.mac ?? '').replace(/[^0-9a-f]/gi, '').toUpperCase());
  pair((unit) => nameToKey(unit.serial ?? ''));
  const jacksOf = {
    old: groupBy(old.jacks, (jack) => jack.unit),
    next: groupBy(next.jacks, (jack) => jack.unit),
  };
  pair(
    (unit) => (unit.rack === undefined || unit.u === undefined ? '' : `${at(unit)} U${unit.u} ${unit.mounted}`),
    (a, b) => {
      if (isOther(a, b)) return false;
      const mine = new Set(jacksOf.old.get(a.id)?.map((jack) => nameToKey(jack.label)));
      const theirs = jacksOf.next.get(b.id) ?? [];
      const shared = theirs.filter((jack) => mine.has(nameToKey(jack.label))).length;
      return shared > 0 && shared * 2 >= Math.max(mine.size, theirs.length);
    },
  );
  pairByCables(old, next, ids);
  return ids;
}

/**
 * A unit that is gone and one that is new, where most of their cables bear the same numbers in the same jacks: one unit
 * under another name. A single cable proves nothing, it may have been moved.
 */
function pairByCables(old: Plan, next: Plan, ids: Map<string, string>): void {
  const taken = new Set(ids.values());
  const gone = new Map(old.units.filter(({ id }) => !taken.has(id)).map((unit) => [unit.id, unit]));
  const fresh = new Map(next.units.filter(({ id }) => !ids.has(id)).map((unit) => [unit.id, unit]));
  if (gone.size === 0 || fresh.size === 0) return;
  const [before, now] = [numberedEnds(old, gone), numberedEnds(next, fresh)];
  const after = groupBy(now, ({ key }) => key);
  const votes = new Map<string, Map<string, number>>();
  for (const { key, unit } of before) {
    const [one, ...more] = after.get(key) ?? [];
    if (!one || more.length > 0) continue;
    const count = votes.get(one.unit) ?? new Map<string, number>();
    count.set(unit, (count.get(unit) ?? 0) + 1);
    votes.set(one.unit, count);
  }
  const [endsBefore, endsNow] = [groupBy(before, ({ unit }) => unit), groupBy(now, ({ unit }) => unit)];
  const claims = [...votes].map(([id, count]) => ({ id, was: mostVotes(count), count }));
  for (const [was, [claim, ...others]] of groupBy(claims, ({ was }) => was)) {
    const [a, b] = [gone.get(was), fresh.get(claim?.id ?? '')];
    const n = claim?.count.get(was) ?? 0;
    if (!a || !b || n < 2 || others.length > 0 || isOther(a, b)) continue;
    if (n * 2 > Math.max(endsBefore.get(was)?.length ?? 0, endsNow.get(b.id)?.length ?? 0)) ids.set(b.id, was);
  }
}

/** Ends at these units of cables whose number stands once: number and jack, and the unit. */
function numberedEnds({ cables, jacks }: Plan, units: ReadonlyMap<string, Unit>): { key: string; unit: UnitId }[] {
  const byId = new Map(jacks.map((jack) => [jack.id, jack]));
  return [...groupBy(cables, ({ label }) => nameToKey(label))].flatMap(([number, [cable, ...others]]) =>
    number === '' || !cable || others.length > 0
      ? []
      : cable.ends.flatMap(({ place }) => {
          const jack = byId.get(place ?? '');
          return jack && units.has(jack.unit) ? [{ key: `${number}\n${nameToKey(jack.label)}`, unit: jack.unit }] : [];
        }),
  );
}

/** Two pieces of hardware, by what is stamped on them. */
function isOther(a: Unit, b: Unit): boolean {
  const differ = (x: string | undefined, y: string | undefined) =>
    x !== undefined && y !== undefined && nameToKey(x) !== nameToKey(y);
  return differ(a.mac, b.mac) || differ(a.serial, b.serial);
}

function placed(unit: Unit): string {
  const place = nameToKey(unit.room || unit.rack || '');
  const label = nameToKey(unit.label);
  return place === '' || label.startsWith(`${place}-`) ? label : `${place}-${label}`;
}

/** Pairs what has one candidate on either side under the same key; '' is no key. */
function pairUp<T extends { id: string }>(
  old: readonly T[],
  next: readonly T[],
  key: (one: T) => string,
  ids: Map<string, string>,
  fits: (a: T, b: T) => boolean = () => true,
): void {
  const taken = new Set(ids.values());
  const before = groupBy(
    old.filter(({ id }) => !taken.has(id)),
    key,
  );
  const after = groupBy(
    next.filter(({ id }) => !ids.has(id)),
    key,
  );
  for (const [name, [one, ...more]] of after) {
    const [was, ...others] = before.get(name) ?? [];
    if (name === '' || !one || !was || more.length > 0 || others.length > 0 || !fits(was, one)) continue;
    ids.set(one.id, was.id);
  }
}
