// What lies between two ends and is not on the sheet: a panel in the run, a cord in a bay, an emergency lead, a part
// that several cables pass, and cables that were replaced, renamed half way or pulled the other way round.
import { isLooseEnd, jackOnUnit, type PlaceId, placeToParts, type UnitId, unitOf } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import { factsAt } from '../plan/planIndex.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import { nameToKey } from '../trade/names.ts';
import { signalClash } from '../trade/signals.ts';
import type { Candidate, RenamingRule, Story } from './cause.ts';
import { coverable, type Floor, farPlaces, isAsPlanned } from './floor.ts';

const HOP_KINDS: ReadonlySet<string> = new Set([
  'duplicate-label',
  'wrong-jack',
  'unlabelled-cable',
  'one-end-labelled',
  'not-installed',
  'ends-differ',
  'direction-clash',
]);
const LEAST_TOGETHER = 2;

export function hopCandidates(floor: Floor): Candidate[] {
  return [
    ...panels(floor),
    ...cords(floor),
    ...oldCables(floor),
    ...grouped(floor, 'ends-reversed', bundleOf, (shared) => ({ kind: 'group-reversed', units: shared.split('\n') })),
    ...grouped(floor, 'left-right-swapped', partOf, (part) => ({ kind: 'shared-part', part })),
    ...grouped(floor, 'polarity-reversed', partOf, (part) => ({ kind: 'shared-part', part })),
    ...halfRenamed(floor),
  ];
}

/** Places that are one hole seen from two sides: front and rear of a panel's jack. */
function otherSide(place: PlaceId): PlaceId | null {
  const parts = placeToParts(place);
  if (parts.type !== 'jack') return null;
  const match = /^(.*?)-?(FRONT|REAR)$/.exec(parts.jack);
  if (!match) return null;
  return jackOnUnit(parts.unit, `${match[1]}-${match[2] === 'FRONT' ? 'REAR' : 'FRONT'}`);
}

/**
 * From one planned end to the other by what was followed, by the label of the cable itself, and through panels. The
 * way must leave the plan: at least one place that is none of its ends. Null when it does not get there.
 */
export function tracedPath(view: FoldView, cable: Cable): PlaceId[] | null {
  const ends = cable.ends.flatMap((end) => (end.place === null ? [] : [end.place]));
  const [from, to] = ends;
  if (from === undefined || to === undefined || ends.length !== 2) return null;
  const before = new Map<PlaceId, PlaceId | null>([[from, null]]);
  const queue = [from];
  for (let place = queue.shift(); place !== undefined; place = queue.shift()) {
    if (place === to) {
      const way: PlaceId[] = [];
      for (let at: PlaceId | null = place; at !== null; at = before.get(at) ?? null) way.unshift(at);
      return way.length > 2 ? way : null;
    }
    const side = otherSide(place);
    const labelled = view.readingsAt(place).some((reading) => reading.cable === cable.id)
      ? view.placesOfCable(cable.id)
      : [];
    for (const next of [...view.joined(place), ...labelled, ...(side ? [side] : [])]) {
      if (before.has(next)) continue;
      before.set(next, place);
      queue.push(next);
    }
  }
  return null;
}

/** Cables that may run otherwise than planned where this differs. */
export function suspectsOf({ index }: FoldView, one: Discrepancy): Cable[] {
  if (!HOP_KINDS.has(one.kind)) return [];
  const planned = one.places.flatMap((place) => index.endsAt.get(place)?.map(({ cable }) => cable) ?? []);
  return [index.cables.get(one.cable ?? '') ?? [], planned].flat();
}

/** Units that a way passes between its ends. */
export function panelsOn(way: readonly PlaceId[]): string {
  return [...new Set(way.slice(1, -1).map(unitOf))].sort().join('\n');
}

/** Runs that pass panels nobody wrote down; runs through the same panels are one cause. */
function panels(floor: Floor): Candidate[] {
  const { view } = floor;
  const suspects = new Set<Cable>();
  for (const one of floor.differences.values()) {
    for (const cable of suspectsOf(view, one)) suspects.add(cable);
  }
  const byPanels = new Map<string, { cable: Cable; way: PlaceId[] }[]>();
  for (const cable of suspects) {
    const way = tracedPath(view, cable);
    if (!way) continue;
    const between = panelsOn(way);
    byPanels.set(between, [...(byPanels.get(between) ?? []), { cable, way }]);
  }
  return [...byPanels].map(([between, runs]): Candidate => {
    const places = [...new Set(runs.flatMap(({ way }) => way))];
    const labels = new Set(runs.map(({ cable }) => cable.id));
    const own = coverable(floor, places, HOP_KINDS).filter((id) => {
      const named = floor.differences.get(id)?.cable;
      return named === undefined || labels.has(named);
    });
    const missing = [...floor.differences.values()].filter(
      (one) => one.kind === 'not-installed' && labels.has(one.cable ?? ''),
    );
    return {
      kind: 'hop-not-on-sheet',
      certainty: 'confirmed',
      severity: 'record',
      places,
      labels: runs.map(({ cable }) => cable.label),
      covers: new Set([...own, ...missing.map(({ id }) => id)]),
      against: [],
      predicts: [],
      nextLook: null,
      panels: between.split('\n'),
    };
  });
}

/** A cord between two jacks of one unit: a bay's normal is passed by. Between units, a lead that nobody planned. */
function cords(floor: Floor): Candidate[] {
  const { view } = floor;
  const found: Candidate[] = [];
  const seen = new Set<string>();
  for (const one of floor.differences.values()) {
    if (one.kind !== 'unlabelled-cable' && one.kind !== 'unplanned-cable') continue;
    const [place = ''] = one.places;
    const [far] = view.joined(place);
    if (!far || seen.has(place)) continue;
    seen.add(place).add(far);
    const places = [place, far];
    const inBay = unitOf(place) === unitOf(far) && unitOf(place) !== '';
    const rearRight = places.every((at) => {
      const side = otherSide(at);
      return (
        side === null || view.stateAt(side).type === 'unseen' || isAsPlanned(view, side) || !view.index.endsAt.has(side)
      );
    });
    if (inBay && !rearRight) continue;
    if (!inBay && !goesRound(floor, place, far)) continue;
    found.push({
      kind: inBay ? 'normal-bypassed' : 'bypass-left',
      certainty: inBay && view.stateAt(place).followed ? 'confirmed' : 'possible',
      severity: 'undecided',
      places,
      labels: one.labels,
      covers: new Set(coverable(floor, places, new Set(['unlabelled-cable', 'unplanned-cable']))),
      against: [],
      predicts: [],
      nextLook: null,
    });
  }
  return found;
}

/** A lead from one unit to another that leaves out the unit which the plan has between them, with signals that fit. */
function goesRound(floor: Floor, place: PlaceId, far: PlaceId): boolean {
  const { index } = floor.view;
  if (index.endsAt.has(place) || index.endsAt.has(far)) return false;
  const [a, b] = [factsAt(index, place).signal, factsAt(index, far).signal];
  if (a && b && signalClash(a, b)) return false;
  const neighbours = (unit: UnitId) =>
    new Set(
      (index.jacksOf.get(unit) ?? []).flatMap(({ id }) =>
        (index.endsAt.get(id) ?? []).flatMap(({ cable }) => farPlaces(cable, id).map(unitOf)),
      ),
    );
  const near = neighbours(unitOf(place));
  return [...neighbours(unitOf(far))].some((unit) => near.has(unit));
}

/** Both planned ends bear the number and a third end with it lies loose: the cable was replaced, the old one stayed. */
function oldCables(floor: Floor): Candidate[] {
  const { view } = floor;
  return [...floor.differences.values()].flatMap((one): Candidate[] => {
    const cable = view.index.cables.get(one.cable ?? '');
    if (one.kind !== 'duplicate-label' || !cable) return [];
    const ends = cable.ends.flatMap((end) => (end.place === null ? [] : [end.place]));
    const astray = one.places.filter((place) => !ends.includes(place));
    const loose = astray.filter((place) => isLooseEnd(place));
    if (loose.length === 0 || loose.length !== astray.length || !ends.every((place) => isAsPlanned(view, place)))
      return [];
    return [
      {
        kind: 'old-cable-left',
        certainty: 'probable',
        severity: 'record',
        places: loose,
        labels: [cable.label],
        covers: new Set([one.id]),
        against: [],
        predicts: [],
        nextLook: null,
      },
    ];
  });
}

/** Several differences of one kind that share what `of` names are one mistake. */
function grouped(
  floor: Floor,
  kind: Discrepancy['kind'],
  of: (floor: Floor, one: Discrepancy) => string | null,
  storyOf: (shared: string) => Story,
): Candidate[] {
  const groups = new Map<string, Discrepancy[]>();
  for (const one of floor.differences.values()) {
    const shared = one.kind === kind ? of(floor, one) : null;
    if (shared !== null) groups.set(shared, [...(groups.get(shared) ?? []), one]);
  }
  return [...groups].flatMap(([shared, ones]): Candidate[] =>
    ones.length < LEAST_TOGETHER
      ? []
      : [
          {
            ...storyOf(shared),
            certainty: 'probable',
            places: ones.flatMap(({ places }) => places),
            labels: [...new Set(ones.flatMap(({ labels }) => labels))],
            covers: new Set(ones.map(({ id }) => id)),
            against: [],
            predicts: [],
            nextLook: null,
          },
        ],
  );
}

/** The ids of the two units that a cable runs between, one to a line. */
export function bundleOf({ view }: Pick<Floor, 'view'>, one: Discrepancy): string | null {
  const cable = view.index.cables.get(one.cable ?? '');
  const units = new Set(cable?.ends.flatMap((end) => (end.place === null ? [] : [unitOf(end.place)])));
  return units.size === 2 ? [...units].sort().join('\n') : null;
}

/** The tail, adapter or trunk that the plan or a look names for a cable. */
export function partOf({ view }: Pick<Floor, 'view'>, one: Discrepancy): string | null {
  const seen = one.places.flatMap((place) => view.readingsAt(place).flatMap(({ plug }) => plug.adapter ?? []))[0];
  if (seen) return nameToKey(seen);
  const cable = view.index.cables.get(one.cable ?? '');
  const named = /\b(?:tail|adapter|trunk|multicore|snake)\s+([\w-]+)/i.exec(
    `${cable?.notes ?? ''} ${cable?.type ?? ''}`,
  );
  return named ? nameToKey(named[0]) : null;
}

/** Unknown numbers where the plan has others, all made by one rule: the renaming stopped half way, or the sheet is old. */
function halfRenamed(floor: Floor): Candidate[] {
  const byRule = new Map<string, { rule: RenamingRule; ones: { id: string; place: PlaceId; label: string }[] }>();
  for (const one of floor.differences.values()) {
    const [place = ''] = one.places;
    const found = one.found;
    const rule = renamingRuleOf(floor.view, one);
    if (rule === null || !found) continue;
    const key = ruleToKey(rule);
    const { ones } = byRule.get(key) ?? { ones: [] };
    byRule.set(key, { rule, ones: [...ones, { id: one.id, place, label: found }] });
  }
  return [...byRule.values()].flatMap(({ rule, ones }): Candidate[] =>
    ones.length < LEAST_TOGETHER
      ? []
      : [
          {
            kind: 'half-renamed',
            certainty: ones.length > 2 ? 'probable' : 'possible',
            severity: 'record',
            places: ones.map(({ place }) => place),
            labels: ones.map(({ label }) => label),
            covers: new Set(ones.map(({ id }) => id)),
            against: [],
            predicts: [],
            nextLook: null,
            rule,
          },
        ],
  );
}

/** By which rule an unknown number was made of the planned one; null where it was not. */
export function renamingRuleOf({ index }: FoldView, one: Discrepancy): RenamingRule | null {
  const planned = index.endsAt.get(one.places[0] ?? '')?.[0]?.cable;
  const found = one.found;
  return one.kind === 'unplanned-cable' && planned && found ? ruleOf(planned.label, found) : null;
}

/** How one number became the other: a fixed step, or another text before the same number. Null when it is neither. */
function ruleOf(from: string, to: string): RenamingRule | null {
  const [a, b] = [/^(.*?)(\d+)(\D*)$/.exec(from), /^(.*?)(\d+)(\D*)$/.exec(to)];
  if (!a || !b) return null;
  if (a[2] === b[2] && a[1] !== b[1] && a[3] === b[3]) return { type: 'text', from: a[1]!, to: b[1]! };
  const step = Number(b[2]) - Number(a[2]);
  return a[1] === b[1] && a[3] === b[3] && step !== 0 ? { type: 'step', before: a[1]!, by: step } : null;
}

/** One text for one rule, so that what follows it can be gathered. */
export function ruleToKey(rule: RenamingRule): string {
  return JSON.stringify(rule);
}
