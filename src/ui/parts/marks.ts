// The plain data that the drawings take: jacks of a face, units of a rack, strokes of an audit, and the words
// that name them aloud. It knows nothing of the store and never decides what a mark should be.

import type { PlaceId, UnitId } from '../../core/plan/identity.ts';
import { STATE_WORDS } from '../../core/report/words/recordWords.ts';

export type Mark = 'as-planned' | 'differs' | 'undecided' | 'hazard' | 'not-seen' | 'could-not-see';

export type JackState = 'unseen' | 'empty' | 'plugged' | 'label' | 'unlabelled' | 'illegible' | 'could-not-see';

export interface JackMark {
  /** Place id, handed back when the jack is pressed. */
  place: PlaceId;
  /** What is printed beside it, such as `P03`. */
  label: string;
  /** Free text of the jack list: RJ45, XLR, BNC ... decides the outline only. */
  connector?: string | undefined;
  state: JackState;
  /** Label that the plan expects here. Leave it out in a blind audit. */
  plan?: string | undefined;
  /** Label that was read here. */
  found?: string | undefined;
  /** Label that a cause predicts here and that nobody has seen yet. */
  predicted?: string | undefined;
  mark?: 'as-planned' | 'differs' | 'undecided' | 'hazard' | undefined;
  /** Sockets of a lower row are often turned, as in the metal. */
  upsideDown?: boolean | undefined;
}

export interface FaceProps {
  unitLabel: string;
  /** Rows from the top, each from the left as the eye sees the printed face. */
  rows: readonly (readonly JackMark[])[];
  heightU?: number | undefined;
  /** Place id of the jack that is meant now. */
  current?: string | undefined;
  onPress?: ((place: PlaceId) => void) | undefined;
  /** First and last touch of a row sweep, and the places in between that were taken out. */
  range?: { first: string; last: string; without?: readonly string[] | undefined } | undefined;
  /** A through-panel seen from its other side. */
  mirrored?: boolean | undefined;
  /** A blind audit: no plan, no prediction, no mark of agreement with a plan. */
  blind?: boolean | undefined;
}

function stateWords(state: JackState): string {
  if (state === 'unseen') return 'not looked at yet';
  return STATE_WORDS[state === 'could-not-see' ? 'not-visible' : state].full;
}

const MARK_WORDS: Record<NonNullable<JackMark['mark']>, string> = {
  'as-planned': 'as planned',
  differs: 'differs',
  undecided: 'undecided',
  hazard: 'hazard',
};

/** The accessible name of a jack: what is printed, what the plan says, what was seen, and the verdict. */
export function jackName(jack: JackMark, blind = false): string {
  const parts = [jack.label];
  if (!blind && jack.plan !== undefined) parts.push(`plan ${jack.plan}`);
  if (jack.found !== undefined) parts.push(`found ${jack.found}`);
  else parts.push(stateWords(jack.state));
  if (!blind && jack.predicted !== undefined) parts.push(`perhaps ${jack.predicted}`);
  if (jack.mark !== undefined && (!blind || jack.mark === 'hazard')) parts.push(MARK_WORDS[jack.mark]);
  return parts.join(', ');
}

/** What a drawing may show: a blind audit takes the plan and everything derived from it out. */
export function visibleMark(jack: JackMark, blind: boolean): JackMark {
  if (!blind) return jack;
  return {
    ...jack,
    plan: undefined,
    predicted: undefined,
    mark: jack.mark === 'hazard' ? 'hazard' : undefined,
  };
}

/** A mirrored face is the same holes from behind: left and right change places, up and down do not. */
export function seenRows(rows: readonly (readonly JackMark[])[], mirrored: boolean): JackMark[][] {
  return rows.map((row) => (mirrored ? [...row].reverse() : [...row]));
}

export interface RackUnit {
  id: string;
  label: string;
  /** Lowest U it covers in the rack's own numbering. */
  u: number;
  heightU: number;
  /** Second line of its row. */
  line?: string | undefined;
  mark?: Mark | undefined;
  /** Where the plan has it, when it was found elsewhere. */
  planU?: number | undefined;
}

export interface RackProps {
  label: string;
  units: readonly RackUnit[];
  heightU: number;
  numbering: 'bottom-up' | 'top-down';
  /** Ears cover the rails from the front, not from behind. */
  side: 'front' | 'rear';
  onPress?: ((unitId: UnitId) => void) | undefined;
}

export type EndState = 'as-planned' | 'differs' | 'undecided' | 'not-seen';

export interface CableStroke {
  id: string;
  label: string;
  from: EndState;
  to: EndState;
  /** Left out of the audit on purpose. */
  leftOut?: boolean | undefined;
}
export interface JackStroke {
  place: PlaceId;
  state: EndState | 'said';
}

/** Jacks in the order of their printed names: P2 before P10, whatever row of the face they are in. */
export function inNumberOrder(rows: readonly (readonly JackMark[])[]): JackMark[] {
  return rows.flat().sort((a, b) => a.label.localeCompare(b.label, 'en', { numeric: true }));
}

/** The places of a row sweep, from the first touch to the last in either order, without those taken out. */
export function rangePlaces(rows: readonly (readonly JackMark[])[], range: NonNullable<FaceProps['range']>): string[] {
  const order = inNumberOrder(rows).map((jack) => jack.place);
  const [a, b] = [order.indexOf(range.first), order.indexOf(range.last)];
  if (a < 0 || b < 0) return [];
  return order.slice(Math.min(a, b), Math.max(a, b) + 1).filter((place) => !range.without?.includes(place));
}
