// From differences to causes: gathers the stories, chooses among them, and says of each what it covers, what it leaves
// over, what it predicts and which look would settle it. A hazard is never covered, so it can never be hidden.
import { type Discrepancy, SEVERITIES, type Severity } from '../discrepancy.ts';
import type { FoldView } from '../foldView.ts';
import { type Candidate, type Cause, LOOK_HOWS, type NextLook } from './cause.ts';
import { choose } from './choose.ts';
import { cycleCandidates } from './cycles.ts';
import { type Floor, floorOf } from './floor.ts';
import { hopCandidates } from './hops.ts';
import { tipGroupsOf } from './pairs.ts';
import { rowCandidates } from './rows.ts';
import { sheetCandidates, slipOf } from './sheets.ts';
import { unitCandidates } from './units.ts';

export interface Explanation {
  causes: Cause[];
  /** Ids of differences that no cause covers. */
  alone: string[];
  /** The one look that would settle most, over all causes. */
  nextLook: NextLook | null;
  /** False where a group was too large to weigh every combination of stories. */
  exact: boolean;
}

/** Hazards to people and equipment stand for themselves, whatever explains their neighbours. */
const isHazard = (one: Discrepancy) => one.severity === 'people' || one.severity === 'equipment';

export function explain(view: FoldView, all: readonly Discrepancy[]): Explanation {
  const differences = all.filter((one) => !isHazard(one));
  const floor = floorOf(view, differences);
  const candidates = [
    ...rowCandidates(floor),
    ...unitCandidates(floor),
    ...hopCandidates(floor),
    ...sheetCandidates(floor),
    ...cycleCandidates(floor),
  ].filter(({ covers }) => covers.size > 0);
  const { chosen, exact } = choose(candidates, view.occasion);
  // Two crossings may have one and the same story beside them.
  const told = new Map(chosen.flatMap((one) => withRivals(floor, one)).map((cause) => [cause.id, cause]));
  const causes = [...told.values()];
  const covered = new Set(causes.flatMap(({ explains }) => explains));
  const alone = all.filter(({ id }) => !covered.has(id)).map(({ id }) => id);
  return { causes: causes.sort(compareCauses), alone, nextLook: lookThatSettlesMost(causes), exact };
}

function withRivals(floor: Floor, one: Candidate): Cause[] {
  const slip = one.kind === 'row-shifted' ? slipOf(floor, one) : null;
  const groups = one.kind === 'crossed' || one.kind === 'groups-exchanged' ? tipGroupsOf(floor, one) : null;
  if (groups && idOf(groups) === idOf(one)) return [toCause(floor, groups, [], groups.nextLook)];
  if (groups) {
    return [toCause(floor, one, [idOf(groups)], lookAt(one)), toCause(floor, groups, [idOf(one)], groups.nextLook)];
  }
  if (!slip) return [toCause(floor, one, [], lookAt(one))];
  const look = lookBetween(floor, one, slip);
  const ids = [idOf(one), idOf(slip)];
  return [
    toCause(floor, { ...one, certainty: 'possible', severity: 'undecided' }, [ids[1]!], look),
    toCause(floor, slip, [ids[0]!], look),
  ];
}

function idOf({ kind, places, labels }: Pick<Candidate, 'kind' | 'places' | 'labels'>): string {
  return [kind, [...places].sort().join('+'), [...labels].sort().join('+')].join(' ');
}

function toCause(floor: Floor, one: Candidate, rivals: string[], nextLook: NextLook | null): Cause {
  const explains = [...one.covers].sort();
  const severities = explains.map((id) => floor.differences.get(id)!.severity);
  const near = new Set(one.places.flatMap((place) => floor.at(place).map(({ id }) => id)));
  return {
    id: idOf(one),
    kind: one.kind,
    certainty: one.certainty,
    severity: one.severity ?? worst(severities),
    places: one.places,
    labels: one.labels,
    explains,
    against: one.against,
    predicts: one.predicts,
    leftover: [...near].filter((id) => !one.covers.has(id)).sort(),
    rivals,
    nextLook,
    detail: one.detail,
  };
}

function worst(severities: readonly Severity[]): Severity {
  return SEVERITIES.find((one) => severities.includes(one)) ?? 'record';
}

/** A look that a story offers itself, else the first thing that it predicts and nobody has seen. */
function lookAt(one: Candidate): NextLook | null {
  if (one.nextLook || one.certainty === 'confirmed') return one.nextLook;
  const [first] = one.predicts;
  return first
    ? { place: first.place, how: 'look', expect: [{ kind: one.kind, words: first.label ?? 'nothing plugged' }] }
    : null;
}

/** Shifted cables leave the last jack empty; a slip of the hand leaves its own label there. */
function lookBetween(floor: Floor, shift: Candidate, slip: Candidate): NextLook | null {
  const { view } = floor;
  const place = shift.predicts.find(({ label }) => label === null)?.place;
  const planned = place && view.index.endsAt.get(place)?.[0]?.cable.label;
  if (!place || !planned) return null;
  return {
    place,
    how: 'look',
    expect: [
      { kind: slip.kind, words: planned },
      { kind: shift.kind, words: 'nothing plugged' },
    ],
  };
}

function lookThatSettlesMost(causes: readonly Cause[]): NextLook | null {
  const looks = causes.flatMap((cause) => (cause.nextLook ? [{ look: cause.nextLook, cause }] : []));
  const weight = (look: NextLook) => looks.filter((one) => one.look.place === look.place).length;
  const rank = ({ look, cause }: (typeof looks)[number]) => [
    SEVERITIES.indexOf(cause.severity),
    -weight(look),
    LOOK_HOWS.indexOf(look.how),
  ];
  looks.sort((a, b) => {
    const [x, y] = [rank(a), rank(b)];
    for (let i = 0; i < x.length; i++) if (x[i] !== y[i]) return x[i]! - y[i]!;
    return a.look.place < b.look.place ? -1 : 1;
  });
  return looks[0]?.look ?? null;
}

function compareCauses(a: Cause, b: Cause): number {
  const order = SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity);
  return order || b.explains.length - a.explains.length || (a.id < b.id ? -1 : 1);
}
