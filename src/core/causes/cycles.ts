// Plugs that changed places among themselves: the map from planned to found places, split into circles and chains.
// A circle of two is crossed, or its labels are: the same facts, two stories, until something was followed.

import type { PlaceId } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import { isOnAir } from '../plan/onAir.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import type { Candidate, CandidateFacts, LookHow, NextLook } from './cause.ts';
import { coverable, type Displacement, type Floor, farPlaces, isAsPlanned, isLearnedAt, leadsTo } from './floor.ts';
import { isTriedAt } from './tried.ts';

/** Not a label but a pair of a cable itself was followed to another landing. */
export function isPairFollowed(one: Discrepancy | undefined): boolean {
  return one?.kind === 'wrong-jack' && one.by === 'followed';
}

const COVERED = new Set(['wrong-jack', 'empty-jack', 'not-installed', 'ends-differ']);

export function cycleCandidates(floor: Floor): Candidate[] {
  const byHome = new Map(floor.displacements.map((displacement) => [displacement.home, displacement]));
  const byFound = new Map(floor.displacements.map((displacement) => [displacement.found, displacement]));
  const done = new Set<Displacement>();
  const circles: Displacement[][] = [];
  const chains: Displacement[][] = [];
  for (const start of floor.displacements) {
    if (done.has(start)) continue;
    let first = start;
    const back = new Set([start]);
    for (let before = byFound.get(first.home); before && !back.has(before); before = byFound.get(first.home)) {
      first = before;
      back.add(before);
    }
    const walked: Displacement[] = [];
    let next: Displacement | undefined = first;
    while (next && !done.has(next) && !walked.includes(next)) {
      walked.push(next);
      next = byHome.get(next.found);
    }
    for (const displacement of walked) done.add(displacement);
    if (next === first) circles.push(walked);
    else chains.push(walked);
  }
  const twins = twinCircles(floor, circles);
  const single = circles.filter((circle) => !twins.some((pair) => pair.includes(circle)));
  return [
    ...twins.map(([a, b]) => exchangedLabels(floor, a, b)),
    ...single.map((circle) => (circle.length === 2 ? crossed(floor, circle) : rotated(floor, circle))),
    // One plug beside its jack says no more than the difference itself, unless its own jack was seen empty too.
    ...chains.map((chain) => chainMoved(floor, chain)).filter(({ covers }) => covers.size > 1),
  ];
}

/** The same cables in the same circle at both of their sides: the plugs are right, the labels went round. */
function twinCircles(floor: Floor, circles: readonly Displacement[][]): [Displacement[], Displacement[]][] {
  const bySign = new Map<string, Displacement[][]>();
  for (const circle of circles) {
    const sign = circle
      .map(({ cable, found }) => `${cable}>${floor.view.index.endsAt.get(found)?.[0]?.cable.id ?? '?'}`)
      .sort()
      .join(' ');
    bySign.set(sign, [...(bySign.get(sign) ?? []), circle]);
  }
  return [...bySign.values()].flatMap((same): [Displacement[], Displacement[]][] =>
    same.length === 2 ? [[same[0]!, same[1]!]] : [],
  );
}

function exchangedLabels(floor: Floor, a: readonly Displacement[], b: readonly Displacement[]): Candidate {
  const displacements = [...a, ...b];
  return {
    ...base(floor, displacements),
    kind: 'labels-exchanged',
    // Jack to jack the path is the planned one, whichever name it bears; that needs no further look.
    certainty: 'confirmed',
    severity: 'record',
    by: 'both-ends',
  };
}

interface Evidence {
  crossed: boolean;
  labels: boolean;
  /** Jacks that lead to neither far end: something else is behind it. */
  elsewhere: PlaceId[];
}

/** What was followed from the two jacks: to each other's far end, or to their own. */
function evidenceOf(floor: Floor, circle: readonly Displacement[]): Evidence {
  const { view } = floor;
  if (circle.every(({ id }) => isPairFollowed(floor.differences.get(id))))
    return { crossed: true, labels: false, elsewhere: [] };
  const evidence: Evidence = { crossed: false, labels: false, elsewhere: [] };
  for (const { found, cable } of circle) {
    const own = view.index.endsAt.get(found)?.[0]?.cable;
    const there = view.index.cables.get(cable);
    const home = circle.find((displacement) => displacement.cable === cable)!.home;
    const leads = (cable: Cable | undefined, from: PlaceId) =>
      (cable ? farPlaces(cable, from) : []).some((far) => leadsTo(view, found, far) || leadsTo(view, far, found));
    // The cable whose label is here really leads to that cable's own far end: the plug itself is here.
    const [isThere, isOwn] = [leads(there, home), leads(own, found)];
    if (isThere) evidence.crossed = true;
    if (isOwn) evidence.labels = true;
    if (!isThere && !isOwn && leadsElsewhere(view, found)) evidence.elsewhere.push(found);
  }
  return evidence;
}

/** Followed to the end of another cable, or an address table lists what is neither of the two. */
function leadsElsewhere(view: FoldView, place: PlaceId): boolean {
  return view.joined(place).some((far) => view.index.endsAt.has(far)) || isLearnedAt(view, place);
}

/** Somebody tried to tell at this jack and could not, or what was told fits neither story. */
function isTried(view: FoldView, place: PlaceId, how: LookHow): boolean {
  return isTriedAt(view, place, how) || leadsElsewhere(view, place);
}

const labelsExchanged = { kind: 'labels-exchanged', by: 'followed' } as const;

function crossed(floor: Floor, circle: readonly Displacement[]): Candidate {
  const { crossed: plugs, labels, elsewhere } = evidenceOf(floor, circle);
  const one = base(floor, circle);
  if (plugs && !labels) {
    const isPairs = circle.every(({ id }) => isPairFollowed(floor.differences.get(id)));
    const by = isPairs ? 'pairs-followed' : 'followed';
    return { ...one, kind: 'crossed', certainty: 'confirmed', severity: reach(floor, circle), by };
  }
  if (labels && !plugs) return { ...one, ...labelsExchanged, certainty: 'confirmed', severity: 'record' };
  return {
    ...one,
    kind: 'crossed-or-labels-exchanged',
    certainty: 'possible',
    severity: 'undecided',
    against: elsewhere,
    nextLook: lookToSettle(floor, circle),
  };
}

function rotated(floor: Floor, circle: readonly Displacement[]): Candidate {
  const { crossed: plugs, labels, elsewhere } = evidenceOf(floor, circle);
  const one = base(floor, circle);
  if (labels && !plugs) return { ...one, ...labelsExchanged, certainty: 'probable', severity: 'record' };
  return {
    ...one,
    kind: 'rotated',
    jacks: circle.length,
    certainty: plugs ? 'confirmed' : 'probable',
    severity: plugs ? reach(floor, circle) : 'undecided',
    against: elsewhere,
    nextLook: plugs ? null : lookToSettle(floor, circle),
  };
}

/** Plugs moved up one after the other into a free jack; the first one's jack is free now. */
function chainMoved(floor: Floor, chain: readonly Displacement[]): Candidate {
  const { view } = floor;
  const start = chain[0]!.home;
  const state = view.stateAt(start).type;
  const free = state === 'empty' || state === 'blanked';
  const occupied = ['label', 'unlabelled', 'plugged', 'illegible'].includes(state);
  return {
    ...base(floor, chain),
    kind: 'chain-moved',
    certainty: free ? 'probable' : 'possible',
    // The first jack was seen free: plugs have moved, not labels.
    ...(free ? { severity: reach(floor, chain) } : {}),
    against: occupied && !isAsPlanned(view, start) ? [start] : [],
    predicts: state === 'unseen' ? [{ place: start, label: null }] : [],
  };
}

function base(floor: Floor, displacements: readonly Displacement[]): CandidateFacts {
  const places = [...new Set(displacements.flatMap(({ found, home }) => [found, home]))];
  return {
    certainty: 'possible',
    places,
    labels: [...new Set(displacements.map(({ label }) => label))],
    covers: new Set([...displacements.map(({ id }) => id), ...coverable(floor, places, COVERED)]),
    against: [],
    predicts: [],
    nextLook: null,
  };
}

/** How far plugs in the wrong jacks reach, once it is known that it is the plugs. */
export function reach(floor: Floor, displacements: readonly Displacement[]): 'on-air' | 'service' | 'record' {
  const cables = displacements.flatMap(({ cable }) => floor.view.index.cables.get(cable) ?? []);
  if (cables.some(({ id }) => isOnAir(floor.view, id))) return 'on-air';
  return cables.some(({ status }) => status === 'in-use') ? 'service' : 'record';
}

/**
 * The cheapest look that tells the two stories apart, at the first jack of the circle in order where nobody tried it; where
 * it was tried at all of them the cable is followed.
 */
function lookToSettle(floor: Floor, circle: readonly Displacement[]): NextLook | null {
  const { index } = floor.view;
  const inOrder = [...circle].sort((a, b) => (a.found < b.found ? -1 : 1));
  const cheapest = ({ cable }: Displacement) => howToFollow(index.cables.get(cable));
  const untried = (how: (one: Displacement) => LookHow) =>
    inOrder.find((one) => !isTried(floor.view, one.found, how(one)));
  const easy = untried(cheapest);
  const at = easy ?? untried(() => 'follow') ?? inOrder[0]!;
  const own = index.endsAt.get(at.found)?.[0]?.cable;
  const there = index.cables.get(at.cable);
  const [ifLabels] = own ? farPlaces(own, at.found) : [];
  const [ifCrossed] = there ? farPlaces(there, at.home) : [];
  if (!ifLabels || !ifCrossed) return null;
  return {
    place: at.found,
    how: easy ? cheapest(at) : 'follow',
    expect: [
      { kind: circle.length === 2 ? 'crossed' : 'rotated', sees: { type: 'place', place: ifCrossed } },
      { kind: 'labels-exchanged', sees: { type: 'place', place: ifLabels } },
    ],
  };
}

/** Sound can be heard on a meter, a network port has learned an address; the rest has to be followed by hand. */
export function howToFollow(cable: Cable | undefined): LookHow {
  switch (cable?.signal) {
    case 'microphone':
    case 'line-audio':
    case 'aes3':
      return 'listen';
    case 'network':
    case 'poe':
      return 'read-page';
    default:
      return 'follow';
  }
}
