// What people said about causes, weighed against what is known now: what holds, what was overtaken by newer facts and
// is open again, and where two do not agree. Free of the order of events; it changes no fact and covers no hazard.
//
// Limits: Facts and looks are named by sums of 32 bits, up to 1,200 of each; a judgement on more facts is not opened
// again by a new one.

import { MAX_KEYS } from '../record/eventLimits.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import { fingerprint, idToFingerprint } from '../rules/fingerprints.ts';
import type { Fold } from '../rules/foldView.ts';
import {
  CAUSE_KINDS,
  type Candidate,
  type CauseKind,
  type Certainty,
  COST_ALONE,
  candidateToCost,
  candidateToId,
  type Judgement,
} from './cause.ts';
import type { Floor } from './floor.ts';

/** `past`: nothing that it was about differs any more. */
type JudgementState = 'stands' | 'disputed' | 'reopened' | 'past';

export interface Judged {
  judgement: Judgement;
  state: JudgementState;
  /** Places that were looked at since, for the words "new looks at"; none where a page or a follow told. */
  newLooks: string[];
}

export interface Weighed {
  judged: Judged[];
  /** Stories that people named, whatever they cost, each with what was said about it. */
  taken: { story: Candidate; judged: Judgement[]; disputed: boolean }[];
  /** Is a story refused by somebody, with nobody against that? */
  isRefused(story: Candidate): boolean;
}

const RANK: readonly Certainty[] = ['unknown', 'possible', 'probable', 'confirmed'];
const isSurer = (now: Certainty, then: Certainty) => RANK.indexOf(now) > RANK.indexOf(then);

/** All that people said and did not take back, by time. */
export function judgementsOf(fold: Pick<Fold, 'of'>): Judgement[] {
  return fold.of('cause-judged').map(({ id, at, payload }) => ({
    event: id,
    cause: payload.cause,
    about: payload.about,
    judgement: payload.judgement,
    as: kindOf(payload.as),
    words: payload.words ?? null,
    reason: payload.reason ?? null,
    by: payload.by,
    at,
    evidence: payload.evidence,
  }));
}

function kindOf(text: string | undefined): CauseKind | null {
  return CAUSE_KINDS.find((kind) => kind === text) ?? null;
}

/** Kinds that one kind tells: the same facts, two stories. */
export function storiesOf(kind: CauseKind | null): readonly CauseKind[] {
  if (kind === null) return [];
  return kind === 'crossed-or-labels-exchanged' ? [kind, 'crossed', 'labels-exchanged'] : [kind];
}

/** @param stories Every story that the facts allow, rivals included, nobody's word considered yet. */
export function weigh(floor: Floor, stories: readonly Candidate[], judgements: readonly Judgement[]): Weighed {
  const byKey = new Map(
    [...floor.differences.values()].flatMap((one) =>
      [...(one.was ?? []), one.id].map((id) => [fingerprint(id), one] as const),
    ),
  );
  const positions = judgements.map((one) => positionOf(floor, stories, byKey, one));
  const held = positions.filter(({ state }) => state === 'stands');
  for (const a of held) for (const b of held) if (a !== b && disagree(a, b)) a.state = 'disputed';

  const taken = new Map<string, Weighed['taken'][number]>();
  for (const { judgement, state, story } of held) {
    if (!story) continue;
    const id = candidateToId(story);
    const one = taken.get(id) ?? { story, judged: [], disputed: false };
    one.judged.push(judgement);
    if (state === 'disputed') one.disputed = true;
    taken.set(id, one);
  }
  // Who refuses a story is named beside it where somebody else took it, or said what it is instead.
  for (const one of taken.values())
    for (const { judgement, story } of held)
      if (!story && (isAbout(one.judged, judgement) || (one.disputed && refuses(judgement, one.story))))
        one.judged.push(judgement);
  const refusals = held.filter(({ story, state }) => !story && state === 'stands').map(({ judgement }) => judgement);
  const replaced = held.filter(({ story, state }) => story?.kind === 'other' && state === 'stands');
  return {
    judged: positions.map(({ judgement, state, newLooks }) => ({ judgement, state, newLooks })),
    taken: [...taken.values()],
    isRefused: (story) =>
      refusals.some((one) => refuses(one, story)) || replaced.some(({ judgement }) => refuses(judgement, story)),
  };
}

interface Position extends Judged {
  /** The story it speaks for; null for a refusal. */
  story: Candidate | null;
}

function positionOf(
  floor: Floor,
  stories: readonly Candidate[],
  byKey: ReadonlyMap<string, Discrepancy>,
  judgement: Judgement,
): Position {
  const { evidence } = judgement;
  const open = evidence.facts.flatMap((key) => byKey.get(key) ?? []);
  const position = (state: JudgementState, story: Candidate | null = null): Position => ({
    judgement,
    state,
    story,
    newLooks: state === 'reopened' ? newLooksAt(floor, judgement) : [],
  });
  if (open.length === 0) return position('past');
  const covers = new Set(open.map(({ id }) => id));
  if (judgement.judgement === 'rejected') {
    const back = stories.some(
      (one) =>
        !refuses(judgement, one) &&
        storiesOf(kindOfCause(judgement)).includes(one.kind) &&
        overlaps(one.covers, covers) &&
        (hasNews(judgement, one) || isSurer(one.certainty, evidence.certainty)),
    );
    return position(back ? 'reopened' : 'stands');
  }
  const story = judgement.judgement === 'other' ? ownWords(judgement, open) : storyTaken(judgement, stories, covers);
  if (!story) return position('reopened');
  const overtaken =
    judgement.judgement === 'other'
      ? stories.some((one) => isAgainst(judgement, one, story) && isSurer(one.certainty, evidence.certainty))
      : story.against.some((place) => !evidence.known.includes(fingerprint(place)));
  return position(overtaken || isOutdone(floor, stories, judgement, story) ? 'reopened' : 'stands', story);
}

/** The story that somebody accepted, as it is told now: it may have grown, and it still covers all that is left. */
function storyTaken(
  judgement: Judgement,
  stories: readonly Candidate[],
  open: ReadonlySet<string>,
): Candidate | undefined {
  const kind = judgement.as ?? kindOfCause(judgement);
  const [story] = stories
    .filter((one) => storiesOf(one.kind).some((story) => story === kind) && contains(one.covers, open))
    .sort(
      (a, b) =>
        Number(idToFingerprint(candidateToId(b)) === judgement.cause) -
          Number(idToFingerprint(candidateToId(a)) === judgement.cause) ||
        a.covers.size - b.covers.size ||
        (candidateToId(a) < candidateToId(b) ? -1 : 1),
    );
  // A person decides between two stories; how sure the looks are stays as it is.
  return story && (judgement.as ? asTaken(story, judgement.as) : story);
}

/** Of two stories on one set of facts the one that a person took, under the name that both bear. */
function asTaken(story: Candidate, kind: CauseKind): Candidate {
  if (story.kind === kind || (kind !== 'crossed' && kind !== 'labels-exchanged')) return story;
  return { ...story, id: candidateToId(story), kind, by: 'said' };
}

function ownWords(judgement: Judgement, open: readonly Discrepancy[]): Candidate {
  const words = judgement.words ?? '';
  return {
    id: `other ${judgement.cause} ${fingerprint(words)}`,
    kind: 'other',
    certainty: 'unknown',
    places: [...new Set(open.flatMap(({ places }) => places))].sort(),
    labels: [...new Set(open.flatMap(({ labels }) => labels))].sort(),
    covers: new Set(open.map(({ id }) => id)),
    against: [],
    predicts: [],
    nextLook: null,
    words,
  };
}

/** Does another story explain all of it and something that the person could not know? */
function isOutdone(floor: Floor, stories: readonly Candidate[], judgement: Judgement, story: Candidate): boolean {
  const { occasion } = floor.view;
  return stories.some((other) => {
    const more = other.covers.size - story.covers.size;
    return (
      more > 0 &&
      !storiesOf(other.kind).some((kind) => kind === story.kind) &&
      contains(other.covers, story.covers) &&
      hasNews(judgement, other) &&
      candidateToCost(other, occasion) <= candidateToCost(story, occasion) + COST_ALONE * more
    );
  });
}

/** The story that was judged, told today, where somebody put own words in its place. */
function isAgainst(judgement: Judgement, one: Candidate, story: Candidate): boolean {
  return storiesOf(kindOfCause(judgement)).includes(one.kind) && overlaps(one.covers, story.covers);
}

/** The same story on the same facts or fewer, and no surer than it was then. */
function refuses({ cause, evidence }: Judgement, story: Candidate): boolean {
  if (kindOfCause({ cause }) !== story.kind || isSurer(story.certainty, evidence.certainty)) return false;
  if (idToFingerprint(candidateToId(story)) === cause) return true;
  return [...story.covers].every((id) => evidence.facts.includes(fingerprint(id)));
}

function disagree(a: Position, b: Position): boolean {
  if (a.story && b.story) {
    const same = candidateToId(a.story) === candidateToId(b.story);
    if (same) return a.story.kind !== b.story.kind;
    return contains(a.story.covers, b.story.covers) || contains(b.story.covers, a.story.covers);
  }
  const [taker, refuser] = a.story ? [a, b] : [b, a];
  if (!taker.story || refuser.story) return false;
  return taker.judgement.cause === refuser.judgement.cause
    ? taker.judgement.judgement === 'accepted'
    : refuses(refuser.judgement, taker.story);
}

const isAbout = (these: readonly Judgement[], { cause }: Judgement) => these.some((one) => one.cause === cause);

/** Facts that the person did not have; of a judgement on too many to name, none is known to be new. */
function hasNews({ evidence }: Judgement, story: Candidate): boolean {
  if (evidence.facts.length >= MAX_KEYS || evidence.known.length >= MAX_KEYS) return false;
  return [...story.covers].some(
    (id) => !evidence.facts.includes(fingerprint(id)) && !evidence.known.includes(fingerprint(id)),
  );
}

function newLooksAt({ view }: Floor, { evidence }: Judgement): string[] {
  const known = new Set(evidence.looks);
  return evidence.places.filter((place) =>
    view.stateAt(place).looks.some(({ event }) => !known.has(fingerprint(event))),
  );
}

function kindOfCause({ cause }: Pick<Judgement, 'cause'>): CauseKind | null {
  return kindOf(cause.split(' ')[0]);
}

function contains(all: ReadonlySet<string>, some: ReadonlySet<string>): boolean {
  return [...some].every((id) => all.has(id));
}

function overlaps(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return [...a].some((id) => b.has(id));
}
