// What goes before and after where something can be harmed: a hazard is told first, and phantom power is off and gone
// before a plug moves. Never says that anything can be done without risk.
import { type CableId, isJack, isUnit, type PlaceId } from '../plan/identity.ts';
import { factsAt } from '../plan/planIndex.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import { isRibbonAt, victimOf } from '../rules/phantom.ts';
import type { Interruptions } from './interrupts.ts';
import { type Group, makeStep, type Step } from './step.ts';

const PHANTOM = 'phantom';

/** What stands: the reading, else the plan's word; null where nobody knows. */
function phantomAt(view: FoldView, place: PlaceId): 'on' | 'off' | null {
  return view.settings.phantomAt(place);
}

function isRibbon(view: FoldView, cable: CableId): boolean {
  const planned = view.index.cables.get(cable);
  return planned !== undefined && victimOf(view.index, planned, '') === 'ribbon';
}

const LOUD = new Set(['microphone', 'loudspeaker']);

/**
 * Mute, phantom off, wait; and afterwards on again where the plan has it for what is plugged there then. A value that
 * was a hazard as found is not put back by the way back.
 *
 * @param then Cable that each place will hold.
 */
export function bracket(
  view: FoldView,
  places: readonly PlaceId[],
  then: ReadonlyMap<PlaceId, CableId>,
  about: string[],
  off: Interruptions,
): { before: Step[]; after: Step[] } {
  const loud = places.filter(
    (place) => isJack(place) && (LOUD.has(factsAt(view.index, place).signal ?? '') || phantomAt(view, place) !== null),
  );
  const powered = loud.filter((place) => phantomAt(view, place) === 'on');
  const before = [
    ...loud.map((to) => makeStep(view, 'set', 'mute', { to, about, ...off.ofPlace(to) })),
    ...powered.map((to) => phantomStep(view, to, 'off', about)),
    ...(powered.length > 0 ? [makeStep(view, 'wait', 'discharge', { to: powered[0]!, about })] : []),
  ];
  const after = [
    ...loud.flatMap((to): Step[] => {
      const cable = then.get(to);
      const wanted = view.settings.plannedPhantom(to);
      if (cable === undefined || isRibbon(view, cable)) return [];
      if (wanted === 'on') return [phantomStep(view, to, 'on', about)];
      const open = wanted === null && powered.includes(to);
      return open ? [makeStep(view, 'ask', 'phantom-ask', { to, label: labelOf(view, cable), about })] : [];
    }),
    ...loud.map((to) => makeStep(view, 'set', 'unmute', { to, about })),
  ];
  return { before, after };
}

function phantomStep(view: FoldView, to: PlaceId, value: 'on' | 'off', about: string[]): Step {
  const as = phantomAt(view, to);
  // After work it was off; before it, what was found. A ribbon that had it must not get it back.
  const harmed =
    isRibbonAt(view.index, to) || view.readingsAt(to).some(({ cable }) => cable !== null && isRibbon(view, cable));
  const now = value === 'on' ? 'off' : harmed ? null : as;
  const task = value === 'on' ? 'phantom-on' : 'phantom-off';
  return makeStep(view, 'set', task, { to, about, value: { name: PHANTOM, now, to: value } });
}

function labelOf(view: FoldView, cable: CableId): string | null {
  return view.index.cables.get(cable)?.label ?? null;
}

/** A hazard is told first. Phantom power where it must not be goes off at once, unless the work on the plug does it. */
export function hazardGroup(
  view: FoldView,
  one: Discrepancy,
  about: string[],
  inWork: boolean,
  off: Interruptions,
): Group {
  const [at] = one.places;
  const to = at ?? null;
  const label = one.labels[0] ?? null;
  const steps = [makeStep(view, 'ask', 'tell-hazard', { to, label, about })];
  if (one.kind === 'phantom-hazard' && at && !inWork) steps.push(...phantomSwitched(view, at, 'off', about, off));
  return { type: 'hazard', steps, about, listens: false };
}

/** Phantom goes on or off with the channel and the monitors muted; off, it has to be gone before a plug moves. */
export function phantomSwitched(
  view: FoldView,
  to: PlaceId,
  value: 'on' | 'off',
  about: string[],
  off: Interruptions,
): Step[] {
  const carries = isUnit(to) ? off.ofUnit(to) : off.ofPlace(to);
  return [
    makeStep(view, 'set', 'mute', { to, about, ...carries }),
    phantomStep(view, to, value, about),
    ...(value === 'off' ? [makeStep(view, 'wait', 'discharge', { to, about })] : []),
    makeStep(view, 'set', 'unmute', { to, about }),
  ];
}
