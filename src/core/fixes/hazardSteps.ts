// What goes before and after where something can be harmed: a hazard is told first, and phantom power is off and gone
// before a plug moves. Never says that anything can be done without risk.
import { isJack, unitOf } from '../plan/identity.ts';
import { factsAt, microphoneAt, settingKey } from '../plan/planIndex.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import type { Interruptions } from './interrupts.ts';
import { type Group, makeStep, type Step } from './step.ts';

const PHANTOM = 'phantom';

/** What stands: the reading, else the plan's word; null where nobody knows. */
export function phantomAt(view: FoldView, place: string): 'on' | 'off' | null {
  const value = view.settings
    .valueOf({ unit: unitOf(place), place, name: PHANTOM })
    ?.trim()
    .toLowerCase();
  return value === 'on' || value === 'off' ? value : null;
}

function isPlannedOn(view: FoldView, place: string): boolean | null {
  const plan = view.index.settings.get(settingKey({ unit: unitOf(place), place, name: PHANTOM }))?.value;
  return plan === undefined ? null : plan.trim().toLowerCase() === 'on';
}

export function isRibbon(view: FoldView, cable: string): boolean {
  const ends = view.index.cables.get(cable)?.ends ?? [];
  return ends.some(({ place }) => place !== null && /ribbon/i.test(microphoneAt(view.index, place)));
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
  places: readonly string[],
  then: ReadonlyMap<string, string>,
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
      const wanted = isPlannedOn(view, to);
      if (cable === undefined || isRibbon(view, cable)) return [];
      if (wanted) return [phantomStep(view, to, 'on', about)];
      const open = wanted === null && powered.includes(to);
      return open ? [makeStep(view, 'ask', 'phantom-ask', { to, label: labelOf(view, cable), about })] : [];
    }),
    ...loud.map((to) => makeStep(view, 'set', 'unmute', { to, about })),
  ];
  return { before, after };
}

function phantomStep(view: FoldView, to: string, value: 'on' | 'off', about: string[]): Step {
  const as = phantomAt(view, to);
  // After work it was off; before it, what was found. A ribbon that had it must not get it back.
  const harmed =
    /ribbon/i.test(microphoneAt(view.index, to)) ||
    view.readingsAt(to).some(({ cable }) => cable !== null && isRibbon(view, cable));
  const now = value === 'on' ? 'off' : harmed ? null : as;
  const task = value === 'on' ? 'phantom-on' : 'phantom-off';
  return makeStep(view, 'set', task, { to, about, value: { name: PHANTOM, now, to: value } });
}

function labelOf(view: FoldView, cable: string): string | null {
  return view.index.cables.get(cable)?.label ?? null;
}

/** A hazard is told first. Phantom power where it must not be goes off at once, unless the work on the plug does it. */
export function hazardGroup(view: FoldView, one: Discrepancy, inWork: boolean, off: Interruptions): Group {
  const about = [one.id];
  const [at] = one.places;
  const to = at ?? null;
  const label = one.labels[0] ?? null;
  const steps = [makeStep(view, 'ask', 'tell-hazard', { to, label, about })];
  if (one.kind === 'phantom-hazard' && at !== undefined && isJack(at) && !inWork) {
    steps.push(
      makeStep(view, 'set', 'mute', { to, about, ...off.ofPlace(at) }),
      phantomStep(view, at, 'off', about),
      makeStep(view, 'wait', 'discharge', { to, about }),
      makeStep(view, 'set', 'unmute', { to, about }),
    );
  }
  return { type: 'hazard', steps, about, listens: false };
}
