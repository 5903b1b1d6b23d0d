// One explanation for several differences: its kinds, how sure it is, what it rests on, what it predicts. How each kind
// is recognised stands in the files beside this one.

import type { CableId, EventId, PlaceId, UnitId } from '../plan/identity.ts';
import type { Occasion } from '../record/events.ts';
import type { JudgedEvidence, JudgementWord } from '../record/judgedEvents.ts';
import type { Severity } from '../trade/kinds.ts';

export const CAUSE_KINDS = [
  'crossed-or-labels-exchanged',
  'crossed',
  'labels-exchanged',
  'chain-moved',
  'rotated',
  'row-shifted',
  'row-mirrored',
  'odd-even-exchanged',
  'groups-exchanged',
  'unit-moved',
  'unit-replaced',
  'units-exchanged',
  'addresses-exchanged',
  'shared-part',
  'hop-not-on-sheet',
  'normal-bypassed',
  'group-reversed',
  'sheet-slipped',
  'half-renamed',
  'place-renamed',
  'template-copied',
  'old-cable-left',
  'bypass-left',
  'hand-slipped',
  /** In a person's own words. */
  'other',
] as const;
export type CauseKind = (typeof CAUSE_KINDS)[number];

/** Confirmed: followed, or read at every end concerned. Probable: fits, and fits alone. Possible: fits with another. */
export type Certainty = 'confirmed' | 'probable' | 'possible' | 'unknown';

/** What would be seen at a place if the story is true: a label, or nothing (null). */
export interface Prediction {
  place: PlaceId;
  label: string | null;
}

/** What a look at a place would have to tell, under each story that is open. */
export interface NextLook {
  place: PlaceId;
  how: LookHow;
  expect: Expected[];
}

/** What is seen under one story. */
export interface Expected {
  kind: CauseKind;
  sees: Seen;
}
/** What such a look tells: a label, nothing plugged, or the place that it leads to. */
export type Seen = { type: 'label'; label: string } | { type: 'nothing' } | { type: 'place'; place: PlaceId };
/** In the order in which they are preferred: nothing is touched, nobody logs in. */
export const LOOK_HOWS = ['look', 'listen', 'read-page', 'follow'] as const;
export type LookHow = (typeof LOOK_HOWS)[number];

/** What one person said about a cause, and nobody took back. */
export interface Judgement {
  /** The event that says it; withdrawing that takes it back. */
  event: EventId;
  /** Key of the cause it was said about, and its words then. */
  cause: string;
  about: string;
  judgement: JudgementWord;
  /** Which story was taken where the cause tells two. */
  as: CauseKind | null;
  words: string | null;
  reason: string | null;
  by: string;
  at: number;
  evidence: JudgedEvidence;
}

/** By which rule one number became another: other text before the same number, or a fixed step. */
export type RenamingRule = { type: 'text'; from: string; to: string } | { type: 'step'; before: string; by: number };

/** What happened, each kind with what only it knows. Labels, places and the like stand beside it in every cause. */
export type Story =
  | { kind: 'crossed-or-labels-exchanged' }
  /** How it is known: plugs or pairs were followed, or a person said so. */
  | { kind: 'crossed'; by: 'followed' | 'pairs-followed' | 'said' }
  /** Read at both ends, or followed at one, or a person said so. */
  | { kind: 'labels-exchanged'; by: 'both-ends' | 'followed' | 'said' }
  | { kind: 'chain-moved' }
  | { kind: 'rotated'; jacks: number }
  /** In jacks; above 0 further on. */
  | { kind: 'row-shifted'; offset: number }
  | { kind: 'hand-slipped' }
  /** Unit ids. */
  | { kind: 'row-mirrored'; unit: UnitId }
  | { kind: 'odd-even-exchanged'; unit: UnitId }
  | { kind: 'groups-exchanged'; of: { type: 'jacks'; unit: UnitId } | { type: 'tips'; cable: CableId; tips: string[] } }
  | { kind: 'unit-moved'; rightJacks: number }
  | { kind: 'unit-replaced' }
  /** Unit ids where jacks told it, null where their rack positions did. */
  | { kind: 'units-exchanged'; units: [string, string] | null }
  | { kind: 'addresses-exchanged'; setting: string }
  /** The part as its key, or what else they share. */
  | { kind: 'shared-part'; part: string }
  | { kind: 'hop-not-on-sheet'; panels: UnitId[] }
  | { kind: 'normal-bypassed' }
  | { kind: 'group-reversed'; units: UnitId[] }
  | { kind: 'sheet-slipped'; rows: [number, number]; offset: number }
  | { kind: 'half-renamed'; rule: RenamingRule }
  | { kind: 'place-renamed'; from: string; to: string }
  | { kind: 'template-copied'; from: UnitId; to: UnitId }
  | { kind: 'old-cable-left' }
  | { kind: 'bypass-left' }
  | { kind: 'other'; words: string };

export type Cause = Story & CauseFacts;

export interface CauseFacts {
  /** Made of kind, places and labels: the same facts give the same id on every phone. */
  id: string;
  certainty: Certainty;
  /** The worst of what it explains; grouping never lowers a hazard. */
  severity: Severity;
  places: PlaceId[];
  labels: string[];
  /** Ids of the differences it covers, and how many it would have to. */
  explains: string[];
  /** Places whose state speaks against it. */
  against: string[];
  predicts: Prediction[];
  /** Ids of differences in its reach that it does not cover. */
  leftover: string[];
  /** Ids of other causes that fit the same facts. */
  rivals: string[];
  nextLook: NextLook | null;
  /** What people said about it that holds. Never changes what was seen: certainty and hazards stay as they are. */
  judged: Judgement[];
  /** They do not agree; undecided until one of them takes it back. */
  disputed: boolean;
  /** What a judgement made now would rest on. */
  evidence: JudgedEvidence;
}

/** A story that may be chosen; the choice weighs its cost against the differences it covers. */
export type Candidate = Story & CandidateFacts;

export interface CandidateFacts {
  certainty: Certainty;
  places: PlaceId[];
  labels: string[];
  covers: Set<string>;
  against: string[];
  predicts: Prediction[];
  nextLook: NextLook | null;
  /** Severity of its own where the story itself decides it; else the worst of what it covers. */
  severity?: Severity;
  /** Told beside the chosen one: covers the same and cannot be told apart from here. */
  rival?: Candidate | undefined;
  /** Where kind, places and labels do not make its name: a story in somebody's own words. */
  id?: string;
}

/**
 * What a story costs: near 1, since each is one mistake, with a little more where more would have had to go wrong or
 * nobody would have noticed.
 */
const COSTS: Record<CauseKind, { cost: number; because: string }> = {
  crossed: { cost: 1, because: 'two plugs taken one for the other: the commonest mistake of all' },
  'crossed-or-labels-exchanged': { cost: 1, because: 'as crossed; which of the two is left open' },
  'labels-exchanged': { cost: 1, because: 'two labels taken one for the other' },
  'chain-moved': { cost: 1, because: 'one plug put aside, the others moved up after it' },
  rotated: { cost: 1.3, because: 'three and more plugs pulled at once and put back in another order' },
  'row-shifted': { cost: 1, because: 'one jack missed in counting' },
  'row-mirrored': { cost: 1.1, because: 'counted from the other side' },
  'odd-even-exchanged': { cost: 1.2, because: 'the wrong one of two rows first, all along' },
  'groups-exchanged': { cost: 1.1, because: 'two connectors of a group exchanged' },
  'unit-moved': { cost: 1, because: 'one box in another place' },
  'unit-replaced': { cost: 1, because: 'one box taken out, another put in' },
  'units-exchanged': { cost: 1.1, because: 'two like boxes exchanged' },
  'addresses-exchanged': { cost: 1, because: 'two addresses set the wrong way round' },
  'shared-part': { cost: 1, because: 'one part that all of them pass' },
  'hop-not-on-sheet': { cost: 1, because: 'one panel that nobody wrote down' },
  'normal-bypassed': { cost: 1, because: 'one cord in a bay' },
  'group-reversed': { cost: 1, because: 'a bundle pulled the other way round' },
  'sheet-slipped': { cost: 1.2, because: 'a column of the sheet moved by rows; the floor is right' },
  'half-renamed': { cost: 1, because: 'a renaming that stopped half way' },
  'place-renamed': { cost: 1, because: 'another name for the same place' },
  'template-copied': { cost: 1.1, because: 'labels printed from another room’s set' },
  'old-cable-left': { cost: 1, because: 'a cable replaced and not removed' },
  'bypass-left': { cost: 1, because: 'an emergency lead that stayed' },
  'hand-slipped': { cost: 1, because: 'the auditor missed a jack' },
  other: { cost: 1, because: 'one thing that a person names' },
};
/** A difference that no story covers is a mistake of its own, and a little more: a named mistake says what to do. */
export const COST_ALONE = 1.2;
/** A place whose state speaks against a story. */
const COST_AGAINST = 0.7;
/** Something the story says must have happened and nobody has seen yet. */
const COST_UNSEEN = 0.05;

/** After a move plugs are likelier wrong, after relabelling labels are. Common practice, no source. */
function costOf(kind: CauseKind, occasion: Occasion | null): number {
  const shift =
    occasion === 'after-move' && kind === 'labels-exchanged'
      ? 0.2
      : occasion === 'relabel' && (kind === 'crossed' || kind === 'rotated')
        ? 0.2
        : 0;
  return COSTS[kind].cost + shift;
}

export function candidateToCost(one: Candidate, occasion: Occasion | null): number {
  return costOf(one.kind, occasion) + COST_AGAINST * one.against.length + COST_UNSEEN * one.predicts.length;
}

/** Made of kind, places and labels, in whatever order they were found. */
export function candidateToId({
  id,
  kind,
  places,
  labels,
}: Pick<Candidate, 'id' | 'kind' | 'places' | 'labels'>): string {
  return id ?? [kind, [...places].sort().join('+'), [...labels].sort().join('+')].join(' ');
}
