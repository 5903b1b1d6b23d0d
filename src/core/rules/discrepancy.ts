// One difference between plan and floor: its kinds, severities and identity. How each is derived stands in
// placeDiscrepancies.ts, cableDiscrepancies.ts and settings.ts. Holds values only: words are made in report/words.ts.
import type { CableId, EventId, PlaceId } from '../plan/identity.ts';
import type { Contradiction } from '../plan/model.ts';
import type { State } from '../record/events.ts';
import { SEVERITIES, type Severity, type Signal } from '../trade/kinds.ts';
import type { PhantomVictim } from '../trade/phantom.ts';
import { settingNameKeys } from '../trade/settingNames.ts';

export const DISCREPANCY_KINDS = [
  'wrong-jack',
  'empty-jack',
  'not-installed',
  'unplanned-cable',
  'unlabelled-cable',
  'illegible-label',
  'duplicate-label',
  'one-end-labelled',
  'ends-differ',
  'ends-reversed',
  'old-label-left',
  'not-landed',
  'abandoned-cable',
  'spare-in-use',
  'signal-clash',
  'direction-clash',
  'left-right-swapped',
  'polarity-reversed',
  'wrong-connector',
  'wrong-cable-type',
  'undeclared-adapter',
  'unit-moved',
  'unit-replaced',
  'unit-unlisted',
  'unit-not-found',
  'setting-differs',
  'phantom-hazard',
  'duplicate-channel',
  'duplicate-address',
  'hazard-seen',
  'sightings-conflict',
  'plan-contradiction',
  'test-failed',
  'not-tested',
] as const;
export type DiscrepancyKind = (typeof DISCREPANCY_KINDS)[number];

/** What several kinds know alike. */
interface Shared {
  /** What was found, in the words of a label, a page or a strip. */
  found?: string;
  /** What the plan has there, likewise. */
  plan?: string;
  /** Id of the planned cable that it is about. */
  cable?: CableId;
}

/** One person's claim to a number, and where labels of that cable stand. */
export interface GivenNumber {
  author: string;
  /** Milliseconds. */
  at: number;
  /** Place ids. */
  places: PlaceId[];
}

/** What one of several looks saw: the labels or what could be read of one, else the bare state. */
export interface SeenValue {
  state: State;
  text: string | null;
}

/** How a hazard is known: somebody saw it, or it follows from cords that were seen. */
export type HazardBasis =
  | { type: 'seen'; note: string; event: EventId }
  | { type: 'strip-in-strip'; strip: string; from: string }
  /** Place ids of inlet and outlet. `feed`: the unit's label. */
  | { type: 'one-feed'; ways: { inlet: PlaceId; outlet: PlaceId }[]; feed: string };

/** One kind of difference with what only it knows; ids are place, cable and unit ids. */
export type Finding = Shared &
  (
    | {
        kind: 'wrong-jack';
        /** Where it belongs by plan. */
        home?: PlaceId;
        /** No label was read: a pair of a cable itself was followed. */
        by?: 'followed';
      }
    /** Labels of the planned cables that it may be. */
    | { kind: 'unplanned-cable'; maybe: string[] }
    | { kind: 'illegible-label'; pattern: string }
    | { kind: 'duplicate-label'; given?: GivenNumber[] }
    | { kind: 'old-label-left'; old: string[] }
    /** The loose place in the words of whoever said it. */
    | { kind: 'not-landed'; where: string }
    /** `joined`: found by following from one place to the other, not by a label in a jack. */
    | { kind: 'signal-clash'; signals: [Signal, Signal]; joined: boolean }
    | { kind: 'direction-clash'; direction: 'in' | 'out' }
    /** Read off a page or a tester, where `setting` names it. */
    | {
        kind: 'left-right-swapped' | 'polarity-reversed' | 'unit-replaced' | 'setting-differs' | 'phantom-hazard';
        setting?: string;
        /** Of phantom: what hangs there that it must not meet, where that is known. */
        victim?: PhantomVictim;
      }
    /** Where the plan has it. */
    | { kind: 'unit-moved'; home: PlaceId }
    | { kind: 'duplicate-channel' | 'duplicate-address' }
    | { kind: 'hazard-seen'; hazard: string; basis: HazardBasis }
    | { kind: 'sightings-conflict'; looks: number; values: SeenValue[] }
    /** In the words of whoever tested; null where nobody wrote any. */
    | { kind: 'test-failed'; words: string | null }
    | { kind: 'plan-contradiction'; contradiction: Contradiction['type']; rows: Contradiction['rows'] }
    | {
        kind:
          | 'empty-jack'
          | 'not-installed'
          | 'unlabelled-cable'
          | 'one-end-labelled'
          | 'ends-differ'
          | 'ends-reversed'
          | 'abandoned-cable'
          | 'spare-in-use'
          | 'wrong-connector'
          | 'wrong-cable-type'
          | 'undeclared-adapter'
          | 'unit-unlisted'
          | 'unit-not-found'
          | 'not-tested';
      }
  );

export type Discrepancy = Finding & DiscrepancyFacts;

interface DiscrepancyFacts {
  /** Made of kind, places and labels, so that the same facts give the same id on every phone. */
  id: string;
  severity: Severity;
  /** Place ids, the one where it shows first. */
  places: PlaceId[];
  /** Labels as read or as planned, the found one first. */
  labels: string[];
  /** Names that it had when less was known or an earlier build told it: what was decided then still holds. */
  was?: string[];
  /** Ids of the events it rests on. */
  evidence: EventId[];
}

export function makeDiscrepancy(
  finding: Finding,
  severity: Severity,
  places: PlaceId[],
  labels: string[],
  evidence: Iterable<EventId>,
): Discrepancy {
  const id = [finding.kind, [...places].sort().join('+'), [...labels].sort().join('+')].join(' ');
  const facts = { severity, places, labels, evidence: [...new Set(evidence)].sort() };
  // Several values of one unit may differ, and hazards of two kinds may be at one place: each is a difference of its own.
  // Once they had one name between them.
  const more =
    finding.kind === 'hazard-seen'
      ? finding.hazard
      : 'setting' in finding && finding.setting !== undefined && labels.length === 0
        ? settingNameKeys(finding.setting).key
        : undefined;
  if (more === undefined) return { ...finding, ...facts, id };
  return { ...finding, ...facts, id: id + more, was: [id] };
}

/** Orders worst first, then by place and id, the same on every phone. */
export function compareDiscrepancies(a: Discrepancy, b: Discrepancy): number {
  const bySeverity = SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity);
  if (bySeverity !== 0) return bySeverity;
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}
