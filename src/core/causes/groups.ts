// Which differences may be explained together: those that share what some recogniser brings together. Too much in one
// group costs time; too little would change the causes, which a property test holds against all in one group.
import { jackOf, unitOf } from '../plan/identity.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import { fingerprint } from '../rules/fingerprints.ts';
import type { FoldView } from '../rules/foldView.ts';
import type { Judgement } from './cause.ts';
import { positionOf, rowKey } from './floor.ts';
import { bundleOf, panelsOn, partOf, renamingRuleOf, ruleToKey, suspectsOf, tracedPath } from './hops.ts';
import { sheetRowOf } from './sheets.ts';

export interface Group {
  differences: Discrepancy[];
  judgements: Judgement[];
}

/**
 * @param keysOf What each difference shares with others, by `keysOfDifference`.
 * @returns groups in the order of their first difference, each with its differences in the order given.
 */
export function groupsOf(
  differences: readonly Discrepancy[],
  judgements: readonly Judgement[],
  keysOf: (one: Discrepancy) => readonly string[],
): Group[] {
  // Differences first, then judgements: whatever bears the same key hangs together.
  const parent = Array.from({ length: differences.length + judgements.length }, (_, i) => i);
  const rootOf = (i: number): number => {
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  };
  const holder = new Map<string, number>();
  const hold = (i: number, key: string) => {
    const other = holder.get(key);
    if (other === undefined) holder.set(key, i);
    else parent[rootOf(i)] = rootOf(other);
  };
  differences.forEach((one, i) => {
    for (const key of keysOf(one)) hold(i, key);
  });
  const byFact = judgements.length > 0 ? new Map(differences.map(({ id }, i) => [fingerprint(id), i])) : null;
  judgements.forEach(({ cause, evidence }, j) => {
    const i = differences.length + j;
    hold(i, `judged ${cause}`);
    for (const place of evidence.places) hold(i, `at ${place}`);
    for (const fact of evidence.facts) {
      const at = byFact?.get(fact);
      if (at !== undefined) parent[rootOf(i)] = rootOf(at);
    }
  });
  const groups = new Map<number, Group>();
  const groupOf = (i: number): Group => {
    const root = rootOf(i);
    const group = groups.get(root) ?? { differences: [], judgements: [] };
    groups.set(root, group);
    return group;
  };
  differences.forEach((one, i) => {
    groupOf(i).differences.push(one);
  });
  judgements.forEach((one, j) => {
    groupOf(differences.length + j).judgements.push(one);
  });
  return [...groups.values()];
}

/** Names of all that some recogniser brings this difference together with others by. */
export function keysOfDifference(view: FoldView, one: Discrepancy): string[] {
  return [...new Set(keys(view, one))];
}

function* keys(view: FoldView, one: Discrepancy): Generator<string> {
  const { places, cable } = one;
  const [found] = places;
  for (const place of places) yield `at ${place}`;
  if (cable) yield `cable ${cable}`;
  for (const suspect of suspectsOf(view, one)) {
    yield `cable ${suspect.id}`;
    const way = tracedPath(view, suspect);
    if (!way) continue;
    yield `panels ${panelsOn(way)}`;
    for (const place of way) yield `at ${place}`;
  }
  switch (one.kind) {
    case 'wrong-jack': {
      const { home } = one;
      const at = sheetRowOf(view, one);
      if (at) {
        // Each row is held together with the next one.
        yield `row ${at.sheet} ${at.end} ${at.row}`;
        yield `row ${at.sheet} ${at.end} ${at.row + 1}`;
      }
      if (!home || found === undefined) return;
      yield `at ${home}`;
      const [from, to] = [positionOf(home), positionOf(found)];
      if (from && to && rowKey(from) === rowKey(to)) yield `jacks ${rowKey(from)}`;
      if (jackOf(home) === jackOf(found)) yield pairKey('units', unitOf(home), unitOf(found));
      return;
    }
    case 'duplicate-label':
      for (const place of places)
        for (const end of view.index.cables.get(cable ?? '')?.ends ?? [])
          if (end.place !== null && jackOf(end.place) === jackOf(place))
            yield pairKey('template', unitOf(end.place), unitOf(place));
      return;
    case 'unlabelled-cable':
    case 'unplanned-cable': {
      for (const place of places) for (const far of view.joined(place)) yield `at ${far}`;
      const rule = renamingRuleOf(view, one);
      if (rule !== null) yield `rule ${ruleToKey(rule)}`;
      return;
    }
    case 'ends-reversed':
      yield `bundle ${bundleOf({ view }, one)}`;
      return;
    case 'left-right-swapped':
    case 'polarity-reversed':
      yield `part ${partOf({ view }, one)}`;
      return;
    case 'unit-moved':
    case 'unit-not-found':
      yield 'slots';
      return;
    case 'setting-differs':
      yield `setting ${one.setting}`;
      return;
    default:
  }
}

const pairKey = (of: string, a: string, b: string) => [of, ...[a, b].sort()].join('\n');
