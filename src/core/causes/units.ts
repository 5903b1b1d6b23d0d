// Whole units: moved, replaced, exchanged, under another name, with another room's labels, with each other's addresses.

import { isJack, jackOf, type PlaceId, slotToPlace, type UnitId, unitOf } from '../plan/identity.ts';
import { unitNamed } from '../plan/planIndex.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Candidate, CandidateFacts } from './cause.ts';
import { type Displacement, type Floor, isAsPlanned } from './floor.ts';

const LEAST_MOVED_TOGETHER = 3;

export function unitCandidates(floor: Floor): Candidate[] {
  return [...jacksTogether(floor), ...slots(floor), ...addresses(floor), ...templates(floor)];
}

/** Every label of one unit stands at the same jacks of another one. */
function jacksTogether(floor: Floor): Candidate[] {
  const { view } = floor;
  const byPair = new Map<string, Displacement[]>();
  for (const displacement of floor.displacements) {
    const [from, to] = [unitOf(displacement.home), unitOf(displacement.found)];
    if (from === to || jackOf(displacement.home) !== jackOf(displacement.found)) continue;
    const key = [from, to].sort().join('\n');
    byPair.set(key, [...(byPair.get(key) ?? []), displacement]);
  }
  return [...byPair].flatMap(([key, displacements]): Candidate[] => {
    const [a = '', b = ''] = key.split('\n');
    if (displacements.length < LEAST_MOVED_TOGETHER) return [];
    const planned = (unit: UnitId) =>
      (view.index.jacksOf.get(unit) ?? []).filter(({ id }) => view.index.endsAt.has(id));
    const right = [...planned(a), ...planned(b)].filter(({ id }) => isAsPlanned(view, id)).map(({ id }) => id);
    if (right.length > 0) return [];
    const there = displacements.filter(({ home }) => unitOf(home) === a).length;
    const both = there > 0 && there < displacements.length;
    const target = there > 0 ? b : a;
    const inPlan = view.index.units.has(target) && !view.index.units.get(target)!.implied;
    const base = common(displacements);
    if (both) return [{ ...base, kind: 'units-exchanged', certainty: 'probable', units: [a, b] }];
    // Nothing of the other unit's own stands anywhere: it may be the same one under another name.
    if (planned(target).length === 0 && !inPlan) {
      return [
        {
          ...base,
          kind: 'place-renamed',
          certainty: 'probable',
          severity: 'record',
          from: there > 0 ? a : b,
          to: target,
        },
      ];
    }
    return [];
  });
}

function common(displacements: readonly Displacement[]): Omit<CandidateFacts, 'certainty'> {
  return {
    places: [...new Set(displacements.flatMap(({ found, home }) => [found, home]))],
    labels: displacements.map(({ label }) => label),
    covers: new Set(displacements.map(({ id }) => id)),
    against: [],
    predicts: [],
    nextLook: null,
  };
}

/** Units seen at other rack positions; two in each other's place are one exchange. */
function slots(floor: Floor): Candidate[] {
  const { view } = floor;
  const found: Candidate[] = [];
  const moved = [...floor.differences.values()].filter(({ kind }) => kind === 'unit-moved');
  const taken = new Set<string>();
  const homeOf = (label: string) => {
    const unit = unitNamed(view.index, label);
    return unit?.rack && unit.u !== undefined ? { unit, slot: slotToPlace(unit.rack, unit.u) } : null;
  };
  for (const one of moved) {
    if (taken.has(one.id)) continue;
    const [slot = ''] = one.places;
    const mine = homeOf(one.labels[0] ?? '');
    const other = moved.find(
      (two) => two !== one && two.places[0] === mine?.slot && homeOf(two.labels[0] ?? '')?.slot === slot,
    );
    if (other) taken.add(other.id);
    taken.add(one.id);
    const rightJacks = mine
      ? (view.index.jacksOf.get(mine.unit.id) ?? []).filter(({ id }) => isAsPlanned(view, id)).length
      : 0;
    found.push({
      ...(other ? { kind: 'units-exchanged', units: null } : { kind: 'unit-moved', rightJacks }),
      certainty: rightJacks > 0 || other ? 'confirmed' : 'probable',
      severity: 'record',
      places: [slot, ...(other?.places ?? [])],
      labels: [...one.labels, ...(other?.labels ?? [])],
      covers: new Set([one.id, ...(other ? [other.id] : []), ...notFoundOf(floor, one.labels)]),
      against: [],
      predicts: [],
      nextLook: null,
    });
  }
  // Another box has another serial and another hardware address: one cause, however many of its values differ.
  const replaced = new Map<string, Discrepancy[]>();
  for (const one of floor.differences.values()) {
    if (one.kind !== 'unit-replaced') continue;
    const key = [...one.places].sort().join('+');
    replaced.set(key, [...(replaced.get(key) ?? []), one]);
  }
  for (const ones of replaced.values())
    found.push({
      kind: 'unit-replaced',
      certainty: 'probable',
      places: ones[0]!.places,
      labels: [...new Set(ones.flatMap(({ labels }) => labels))],
      covers: new Set(ones.map(({ id }) => id)),
      against: [],
      predicts: [],
      nextLook: null,
    });
  return found;
}

function notFoundOf(floor: Floor, labels: readonly string[]): string[] {
  return [...floor.differences.values()].flatMap((one) =>
    one.kind === 'unit-not-found' && one.labels.some((label) => labels.includes(label)) ? [one.id] : [],
  );
}

/** Two pages show each other's address. */
function addresses(floor: Floor): Candidate[] {
  const differing = [...floor.differences.values()].flatMap((one) =>
    one.kind === 'setting-differs' && /address/i.test(one.setting ?? '') ? [one] : [],
  );
  const found: Candidate[] = [];
  const taken = new Set<string>();
  for (const one of differing) {
    const { setting = '', found: value, plan } = one;
    const other = differing.find(
      (two) =>
        two.id !== one.id && !taken.has(two.id) && two.setting === setting && two.found === plan && two.plan === value,
    );
    if (taken.has(one.id) || !other) continue;
    taken.add(one.id).add(other.id);
    found.push({
      kind: 'addresses-exchanged',
      certainty: 'confirmed',
      places: [...one.places, ...other.places],
      labels: [one.found ?? '', other.found ?? ''],
      covers: new Set([one.id, other.id]),
      against: [],
      predicts: [],
      nextLook: null,
      setting,
    });
  }
  return found;
}

/** One room's printed set of labels used in another: each label is at home there and stands here as well. */
function templates(floor: Floor): Candidate[] {
  const { view } = floor;
  const byPair = new Map<string, { id: string; place: PlaceId; label: string }[]>();
  for (const one of floor.differences.values()) {
    if (one.kind !== 'duplicate-label') continue;
    const cable = view.index.cables.get(one.cable ?? '');
    if (!cable) continue;
    for (const place of one.places) {
      if (!isJack(place) || cable.ends.some((end) => end.place === place)) continue;
      const home = cable.ends.find((end) => end.place !== null && jackOf(end.place) === jackOf(place));
      if (!home?.place) continue;
      const key = `${unitOf(home.place)}\n${unitOf(place)}`;
      byPair.set(key, [...(byPair.get(key) ?? []), { id: one.id, place, label: cable.label }]);
    }
  }
  return [...byPair].flatMap(([key, copies]): Candidate[] => {
    if (copies.length < LEAST_MOVED_TOGETHER) return [];
    const [a = '', b = ''] = key.split('\n');
    return [
      {
        kind: 'template-copied',
        certainty: 'probable',
        places: copies.map(({ place }) => place),
        labels: copies.map(({ label }) => label),
        covers: new Set(copies.map(({ id }) => id)),
        against: [],
        predicts: [],
        nextLook: null,
        from: a,
        to: b,
      },
    ];
  });
}
