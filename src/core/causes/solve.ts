// From differences that hang together to causes: gathers the stories, chooses among them, and says of each what it
// covers, what it leaves over, what it predicts and which look would settle it. Knows nothing of other groups.

import { isOnAir } from '../plan/onAir.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import { SEVERITIES, type Severity } from '../trade/kinds.ts';
import {
  type Candidate,
  type Cause,
  type CauseFacts,
  candidateToId,
  type Judgement,
  type NextLook,
  type Seen,
} from './cause.ts';
import { choose } from './choose.ts';
import { cycleCandidates } from './cycles.ts';
import { Beside, evidenceOf } from './evidence.ts';
import { type Floor, floorOf } from './floor.ts';
import { hopCandidates } from './hops.ts';
import { type Judged, type Weighed, weigh } from './judgements.ts';
import { tipGroupsOf } from './pairs.ts';
import { rowCandidates } from './rows.ts';
import { sheetCandidates, slipOf } from './sheets.ts';
import { isTriedAt } from './tried.ts';
import { unitCandidates } from './units.ts';

export interface Solved {
  causes: Cause[];
  /** False where a group was too large to weigh every combination of stories and a cheaper one cannot be ruled out. */
  exact: boolean;
  judged: Judged[];
}

/** Every story that the facts allow, before any is chosen. */
export function candidatesOf(view: FoldView, differences: readonly Discrepancy[]): Candidate[] {
  return candidatesOn(floorOf(view, differences));
}

function candidatesOn(floor: Floor): Candidate[] {
  return [
    ...rowCandidates(floor),
    ...unitCandidates(floor),
    ...hopCandidates(floor),
    ...sheetCandidates(floor),
    ...cycleCandidates(floor),
  ]
    .filter(({ covers }) => covers.size > 0)
    .map((one) => withRival(floor, one));
}

/** @param differences Without hazards, which stand for themselves. */
export function solve(view: FoldView, differences: readonly Discrepancy[], judgements: readonly Judgement[]): Solved {
  const floor = floorOf(view, differences);
  const told = candidatesOn(floor);
  const stories = told.flatMap(toStories);
  const { taken, judged, isRefused } = weigh(floor, stories, judgements);
  const settled = new Set(taken.flatMap(({ story }) => [...story.covers]));
  const open = told.flatMap((one) => withoutRefused(one, isRefused)).flatMap((one) => withoutSettled(one, settled));
  const { chosen, exact } = choose(open, view.occasion);

  const known = new Beside(stories);
  const causes = new Map<string, Cause>();
  const tell = (one: Candidate, rivals: string[], more: Partial<CauseFacts> = {}) => {
    const cause = { ...toCause(floor, one, rivals, known), ...more };
    causes.set(cause.id, cause);
  };
  for (const { story, judged: said, disputed } of taken) {
    const severity = disputed ? worst(['undecided', toSeverity(floor, story)]) : toSeverity(floor, story);
    const others = disputed ? othersOf(story, taken) : [];
    const rivals = others.map(candidateToId);
    tell(story, rivals, { judged: said, disputed, severity });
    for (const one of others) if (!causes.has(candidateToId(one))) tell(one, [candidateToId(story)]);
  }
  // Two crossings may have one and the same story beside them.
  for (const one of chosen) {
    const both = toStories(one);
    for (const story of both) tell(story, both.filter((other) => other !== story).map(candidateToId));
  }
  return { causes: [...causes.values()], exact, judged };
}

/** A story with the one beside it that fits the same facts; a look between them where there is one. */
function withRival(floor: Floor, one: Candidate): Candidate {
  const slip = one.kind === 'row-shifted' ? slipOf(floor, one) : null;
  if (slip) {
    const nextLook = lookBetween(floor, one, slip);
    return { ...one, certainty: 'possible', severity: 'undecided', nextLook, rival: { ...slip, nextLook } };
  }
  const groups = one.kind === 'crossed' || one.kind === 'groups-exchanged' ? tipGroupsOf(floor, one) : null;
  return { ...one, nextLook: lookAt(floor, one), ...(groups ? { rival: groups } : {}) };
}

/** The story and the one beside it; where both are one, the way in which the latter tells it. */
function toStories(one: Candidate): Candidate[] {
  if (!one.rival) return [one];
  return candidateToId(one.rival) === candidateToId(one) ? [one.rival] : [one, one.rival];
}

/** Where a story is refused the one beside it is left. */
function withoutRefused(one: Candidate, isRefused: (story: Candidate) => boolean): Candidate[] {
  const rival = one.rival && !isRefused(one.rival) ? one.rival : undefined;
  if (!isRefused(one)) return [{ ...one, rival }];
  return rival ? [rival] : [];
}

/** What a person's story explains needs no other; another one counts for the rest alone. */
function withoutSettled(one: Candidate, settled: ReadonlySet<string>): Candidate[] {
  const covers = new Set([...one.covers].filter((id) => !settled.has(id)));
  if (covers.size === one.covers.size) return [one];
  return covers.size > 0 ? [{ ...one, covers, rival: undefined }] : [];
}

/** While people do not agree, what else they named and what fits as well stays in view beside it. */
function othersOf(story: Candidate, taken: Weighed['taken']): Candidate[] {
  const named = taken.flatMap((one) =>
    one.disputed && one.story !== story && touch(one.story, story) ? one.story : [],
  );
  const beside = story.rival ? [story.rival] : [];
  return [...named, ...beside.filter((one) => !named.some((other) => candidateToId(other) === candidateToId(one)))];
}

function touch(a: Candidate, b: Candidate): boolean {
  return [...a.covers].some((id) => b.covers.has(id));
}

function toSeverity(floor: Floor, one: Candidate): Severity {
  const own = one.severity ?? worst([...one.covers].map((id) => floor.differences.get(id)!.severity));
  if (one.kind !== 'crossed' || one.by !== 'said') return own;
  // Somebody says that the plugs are exchanged: then it reaches as far as they do.
  const cables = [...one.covers].map((id) => floor.view.index.cables.get(floor.differences.get(id)!.cable ?? ''));
  return worst([own, cables.some((cable) => isOnAir(floor.view, cable?.id)) ? 'on-air' : own]);
}

function toCause(floor: Floor, one: Candidate, rivals: string[], beside: Beside): Cause {
  const explains = [...one.covers].sort();
  const near = new Set(one.places.flatMap((place) => floor.at(place).map(({ id }) => id)));
  const leftover = [...near].filter((id) => !one.covers.has(id)).sort();
  const { covers, rival, ...told } = one;
  return {
    ...told,
    id: candidateToId(one),
    severity: toSeverity(floor, one),
    explains,
    leftover,
    rivals,
    judged: [],
    disputed: false,
    evidence: evidenceOf(floor, one, [...leftover, ...beside.of(one)]),
  };
}

function worst(severities: readonly Severity[]): Severity {
  return SEVERITIES.find((one) => severities.includes(one)) ?? 'record';
}

const labelOrNothing = (label: string | null): Seen =>
  label === null ? { type: 'nothing' } : { type: 'label', label };

/** A look that a story offers itself, else the first thing that it predicts and nobody has seen or tried to see. */
function lookAt({ view }: Floor, one: Candidate): NextLook | null {
  if (one.nextLook || one.certainty === 'confirmed') return one.nextLook;
  const first = one.predicts.find(({ place }) => !isTriedAt(view, place, 'look')) ?? one.predicts[0];
  return first
    ? { place: first.place, how: 'look', expect: [{ kind: one.kind, sees: labelOrNothing(first.label) }] }
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
      { kind: slip.kind, sees: labelOrNothing(planned) },
      { kind: shift.kind, sees: labelOrNothing(null) },
    ],
  };
}
