// From differences that are decided to plug movements: which plug, from where, to where, and what stands in the way.
// A jack that nobody looked at is never taken for free, and no plug of mains is ever moved.
import { type CableId, isLooseEnd, type PlaceId } from '../plan/identity.ts';
import type { Cable } from '../plan/model.ts';
import { factsAt } from '../plan/planIndex.ts';
import { whichEnd } from '../rules/cableDiscrepancies.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Fold, FoldView } from '../rules/foldView.ts';
import type { Signal } from '../trade/kinds.ts';
import { bracket } from './hazardSteps.ts';
import type { Interruptions } from './interrupts.ts';
import { type Movement, type PlugMove, planMoves } from './moves.ts';
import { type Group, makeStep, onAirOf, type Step } from './step.ts';

export interface PlugJob {
  /** Name of this plug among all others: its cable and where it is. */
  plug: string;
  cable: CableId;
  label: string;
  /** Null for one that lies loose. */
  from: PlaceId | null;
  loose: string | null;
  to: PlaceId;
  about: string[];
  signal: Signal | undefined;
}

/** The plug that a difference speaks of, with the place it belongs in; null when it is not known which end it is. */
export function jobOf(view: FoldView, one: Discrepancy, about: string[]): PlugJob | null {
  const cable = view.index.cables.get(one.cable ?? '');
  const [found] = one.places;
  if (!cable || found === undefined) return null;
  const loose = isLooseEnd(found);
  const to = loose
    ? homeOfLoose(view, cable, found)
    : ((one.kind === 'wrong-jack' ? one.home : undefined) ?? homeByFollowing(view, cable, found));
  if (!to) return null;
  return {
    plug: `${cable.id} ${found}`,
    cable: cable.id,
    label: one.found ?? cable.label,
    from: loose ? null : found,
    loose: loose ? found : null,
    to,
    about,
    signal: cable.signal ?? factsAt(view.index, to).signal,
  };
}

function homeOfLoose(view: FoldView, cable: Cable, place: PlaceId): PlaceId | null {
  const mark = view.readingsAt(place).find((reading) => reading.cable === cable.id)?.mark ?? null;
  const end = whichEnd(view, cable, place, mark);
  return cable.ends.find((one) => one.end === end)?.place ?? null;
}

/** Followed to one planned end of a cable that has two: then it is the other one. */
function homeByFollowing(view: FoldView, cable: Cable, place: PlaceId): PlaceId | null {
  const joined = view.joined(place);
  const far = cable.ends.filter((end) => end.place !== null && joined.includes(end.place));
  if (cable.ends.length !== 2 || far.length !== 1) return null;
  return cable.ends.find((end) => end !== far[0])?.place ?? null;
}

const UNSEEN = 'nobody looked';

/** What stands at a place, in the words of the record; null where it was seen empty. */
function standsAt(view: FoldView, place: PlaceId): PlaceId | null {
  const { type } = view.stateAt(place);
  if (type === 'empty' || type === 'blanked') return null;
  if (type === 'unseen' || type === 'not-verified' || type === 'conflict') return UNSEEN;
  return view.readingsAt(place)[0]?.text ?? 'a plug without a label';
}

/** Sound does not pass these, so nobody has to listen. */
const QUIET: ReadonlySet<Signal> = new Set<Signal>(['closure', 'serial', 'dc', 'mains']);

/** @param hazardsAt Hazards seen at these places that are no matter of phantom power. */
export function plugGroups(
  fold: Fold,
  jobs: readonly PlugJob[],
  off: Interruptions,
  hazardsAt: (places: readonly PlaceId[]) => Discrepancy[],
): Group[] {
  const byPlug = new Map(jobs.map((job) => [job.plug, job]));
  const weightOf = ({ cable, from }: PlugJob) => {
    const { interrupts } = from === null ? { interrupts: [] } : off.ofPlug(cable, from);
    // One circuit on the air outweighs any number of others.
    return interrupts.filter(({ onAir }) => onAir).length * 1000 + interrupts.length;
  };
  const moves = jobs.map((job): PlugMove => ({ plug: job.plug, from: job.from, to: job.to, weight: weightOf(job) }));
  const isMult = (place: PlaceId) => fold.index.jacks.get(place)?.mult === true;
  const { groups, blocked } = planMoves(moves, (place) => standsAt(fold, place), isMult);
  const toSteps = (movements: readonly Movement[]) =>
    movements.map((one) => stepOf(fold, byPlug.get(one.plug)!, one, off));
  return [
    ...groups.map((movements): Group => {
      const mine = movements.map(({ plug }) => byPlug.get(plug)!);
      const about = [...new Set(mine.flatMap((job) => job.about))];
      const mains = mine.find(({ signal, to }) => signal === 'mains' || factsAt(fold.index, to).signal === 'mains');
      if (mains) {
        const { from, to, label, signal } = mains;
        const ask = makeStep(fold, 'ask', 'trade', { from, to, label, about, ...(signal ? { signal } : {}) });
        return { type: 'look', steps: [ask], about, listens: false };
      }
      const steps = roundWithLeastOffAir(toSteps, movements);
      const touched = movements.flatMap((one) => [from(one), to(one)].filter((place) => place !== null));
      const places = [...new Set(touched)].sort();
      const isolate = hazardsAt(places).map((one) =>
        makeStep(fold, 'ask', 'isolate', { to: one.places[0] ?? null, label: one.labels[0] ?? null, about: [one.id] }),
      );
      const { before, after } = bracket(fold, places, new Map(mine.map((job) => [job.to, job.cable])), about, off);
      const quiet = mine.every(({ signal }) => signal !== undefined && QUIET.has(signal));
      return {
        type: 'work',
        steps: [...isolate, ...before, ...steps, ...after],
        about,
        listens: !quiet || onAirOf(steps).size > 0,
      };
    }),
    ...blocked.map(({ plug, to, by }): Group => {
      const { about, from, label } = byPlug.get(plug)!;
      const step =
        by === UNSEEN
          ? makeStep(fold, 'test', 'look-free', { to, label, about, how: 'look' })
          : makeStep(fold, 'ask', 'taken', { from, to, label, about, by: byPlug.get(by)?.label ?? by });
      return { type: 'look', steps: [step], about, listens: false };
    }),
  ];
}

const from = (one: Movement) => (one.type === 'plug' ? null : one.from);
const to = (one: Movement) => (one.type === 'pull' ? null : one.to);

function stepOf(view: FoldView, job: PlugJob, one: Movement, off: Interruptions): Step {
  const { label, about, signal, cable, loose } = job;
  const common = { label, about, ...(signal ? { signal } : {}) };
  switch (one.type) {
    case 'pull':
      return makeStep(view, 'hold', 'move', { ...common, from: one.from, ...off.ofPlug(cable, one.from) });
    case 'move':
      return makeStep(view, 'plug', 'move', {
        ...common,
        from: one.from,
        to: one.to,
        ...off.ofPlug(cable, one.from),
      });
    case 'plug':
      return makeStep(view, 'plug', 'move', { ...common, from: loose, to: one.to });
  }
}

/** How long each on-air circuit stays off, in steps, over all of them. */
export function spanOf(steps: readonly Step[]): number {
  let total = 0;
  for (const key of onAirOf(steps)) {
    const isOff = (step: Step) => step.interrupts.some((one) => one.key === key);
    const first = steps.findIndex(isOff);
    const last = steps.findLastIndex(isOff);
    // What is kept in the hand is off until it is plugged again.
    const held = steps.some((step, i) => i >= first && step.action === 'hold' && isOff(step));
    total += (held ? steps.length : last + 1) - first;
  }
  return total;
}

/** More plugs than this in one circle, and the first order that is found stands. */
const TURNED_AT_MOST = 48;

/** A circle may be begun at any of its plugs; the best is the one that keeps circuits off the air the shortest. */
function roundWithLeastOffAir(
  toSteps: (movements: readonly Movement[]) => Step[],
  movements: readonly Movement[],
): Step[] {
  const given = toSteps(movements);
  const [first] = movements;
  if (first?.type !== 'pull' || movements.length > TURNED_AT_MOST) return given;
  const last = movements.at(-1);
  if (last?.type !== 'plug') return given;
  // The held one as a movement like the others: then the circle can be cut anywhere.
  const round: Extract<Movement, { type: 'move' }>[] = [
    { type: 'move', plug: first.plug, from: first.from, to: last.to },
    ...movements.flatMap((one) => (one.type === 'move' ? [one] : [])),
  ];
  let best = given;
  for (let i = 1; i < round.length; i++) {
    const held = round[i]!;
    const turned = toSteps([
      { type: 'pull', plug: held.plug, from: held.from },
      ...round.slice(i + 1),
      ...round.slice(0, i),
      { type: 'plug', plug: held.plug, to: held.to },
    ]);
    if (spanOf(turned) < spanOf(best)) best = turned;
  }
  return best;
}
