// One step of the list of hands-on work: what it is, what it needs, what it interrupts. Data only; words stand in the
// reports, the order in order.ts.

import type { LookHow } from '../causes/cause.ts';
import { isJack, type PlaceId, type UnitId } from '../plan/identity.ts';
import { factsAt } from '../plan/planIndex.ts';
import type { Permission } from '../record/events.ts';
import type { FoldView } from '../rules/foldView.ts';
import { cautionFor } from '../trade/hazards.ts';

/**
 * `hold` is pulled and kept in the hand, `plug` goes into a jack (out of another one in the same go when it names where
 * from), `pull` is out and left loose. `set` is a knob or a page. `mend` is an end made anew.
 */
export const ACTIONS = ['ask', 'test', 'set', 'wait', 'hold', 'pull', 'plug', 'relabel', 'mend'] as const;
export type Action = (typeof ACTIONS)[number];

/** What is to be done in particular; the words follow it. */
type Task =
  | 'tell-hazard'
  | 'decide'
  | 'cure'
  | 'taken'
  | 'trade'
  | 'isolate'
  | 'phantom-ask'
  | 'settle'
  | 'look-free'
  | 'which-end'
  | 'far-end'
  | 'prove'
  | 'listen-before'
  | 'listen-after'
  | 'mute'
  | 'unmute'
  | 'phantom-off'
  | 'phantom-on'
  | 'value'
  | 'discharge'
  | 'move'
  | 'label-put'
  | 'label-off'
  | 'mend'
  | 'first-test'
  | 'retest';

/** A service that is off while the step is under way. */
export interface Interrupted {
  /** The circuit, or the cable where it has none: counted once however many cables it runs over. */
  key: string;
  label: string;
  circuit: string | null;
  onAir: boolean;
  /** Who says so: the plan, what was seen, or both. */
  by: ('plan' | 'seen')[];
  /** Age of what was seen; null where only the plan says so. */
  at: number | null;
}

export interface Step {
  action: Action;
  task: Task;
  /** Place ids. A step at one place has it in `to`; the hand and the floor beside it are null. */
  from: PlaceId | null;
  to: PlaceId | null;
  /** The cable's label; for a label, the text that is put on or taken off. */
  label: string | null;
  /** Ids of the differences and causes it is for. */
  about: string[];
  interrupts: Interrupted[];
  /** Units behind which the plan does not know how the signal goes on. */
  beyond: UnitId[];
  needs: Permission;
  caution: string | null;
  /** How a look is made. */
  how?: LookHow;
  /** A setting: what it is called, what stands there now, what it shall be; null is not known. */
  value?: { name: string; now: string | null; to: string | null };
  /** What is in the way, in the words of the record. */
  by?: string;
  /** The renaming under way that it belongs to. */
  rename?: { old: string; new: string };
}

const NEEDS: Record<Action, Permission> = {
  ask: 'look',
  test: 'look',
  wait: 'look',
  set: 'touch',
  relabel: 'touch',
  hold: 'disconnect',
  pull: 'disconnect',
  plug: 'disconnect',
  mend: 'disconnect',
};

const UNKNOWN_JACK = cautionFor(undefined, 'RJ45');

/** A step with what it needs and the caution of its places filled in. A cable is followed by hand or tone: a touch. */
export function makeStep(
  view: FoldView,
  action: Action,
  task: Task,
  given: Partial<Omit<Step, 'action' | 'task' | 'caution'>> & { signal?: Parameters<typeof cautionFor>[0] },
): Step {
  const { signal, ...rest } = given;
  const caution = [given.to, given.from].flatMap((place) => {
    if (place === null || place === undefined || !isJack(place)) return [];
    const facts = factsAt(view.index, place);
    const said = cautionFor(facts.signal, facts.connector);
    // What is told of a modular jack while nobody knows what it carries does not fit one where it is known.
    return said === null || (facts.signal && said === UNKNOWN_JACK) ? [] : [said];
  })[0];
  return {
    action,
    task,
    from: null,
    to: null,
    label: null,
    about: [],
    interrupts: [],
    beyond: [],
    needs: given.how === 'follow' ? 'touch' : NEEDS[action],
    caution: caution ?? cautionFor(signal) ?? null,
    ...rest,
  };
}

/** Is a plug moved by it? */
export function isMovement({ action }: Pick<Step, 'action'>): boolean {
  return action === 'hold' || action === 'pull' || action === 'plug';
}

/** Steps that belong together and are never parted: all of one circle or chain, with what goes before and after. */
export interface Group {
  type: 'hazard' | 'look' | 'work';
  steps: Step[];
  /** Ids of the differences and causes it is for. */
  about: string[];
  /** Sound may pass here: somebody listens to the air before and after. */
  listens: boolean;
}

export const PERMISSION_RANK: Record<Permission, number> = { look: 0, touch: 1, disconnect: 2 };

/** Places where hands go, or eyes if there are none. */
export function placesOf(steps: readonly Step[]): PlaceId[] {
  return [...new Set(steps.flatMap(({ from, to }) => [from, to].filter((place) => place !== null)))];
}

/** On-air circuits that are off during these steps. */
export function onAirOf(steps: readonly Step[]): Set<string> {
  return new Set(steps.flatMap(({ interrupts }) => interrupts.flatMap(({ onAir, key }) => (onAir ? [key] : []))));
}
