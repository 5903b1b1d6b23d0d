// The punch list as data: steps in order, what waits and for what, totals, cautions, the way back of each step. Every
// number comes from the same fold as the list of differences. Times are estimates and are called so.

import { explain } from '../causes/explain.ts';
import { triedAt } from '../causes/tried.ts';
import { wayBackFrom } from '../fixes/back.ts';
import { decisionsOf } from '../fixes/decisions.ts';
import { type Block, type FixList, planFixes, totalsOf } from '../fixes/fixes.ts';
import type { FixWindow } from '../fixes/input.ts';
import { type Action, isMovement, PERMISSION_RANK, type Step } from '../fixes/step.ts';
import { agreedWindow } from '../fixes/window.ts';
import { type AuditId, type EventId, isJack, type PlaceId, type RackId } from '../plan/identity.ts';
import type { Permission } from '../record/events.ts';
import type { Fold } from '../rules/foldView.ts';
import { type TriedLine, triedLines } from './causesView.ts';
import { walkOf } from './walk/walkStops.ts';
import { type About, interruptedToWords, placeWords, stepToWords, waitsToWords, whyToWords } from './words/fixWords.ts';

/**
 * Minutes by hand where nothing goes wrong: estimates of this project, no source. Following a cable with a tone set
 * takes longest.
 */
const MINUTES: Record<Action, number> = {
  ask: 3,
  test: 2,
  set: 1,
  wait: 1,
  hold: 1,
  pull: 1,
  plug: 1,
  relabel: 2,
  mend: 10,
};
const MINUTES_TO_FOLLOW = 10;

export interface FixStepView {
  /** Counted over the whole list, from 1. */
  n: number;
  action: Action;
  /** Jack to look at again; null where the step is at none. */
  placeId: PlaceId | null;
  from: string | null;
  to: string | null;
  label: string | null;
  words: string;
  why: string;
  /** What goes off, on-air circuits first. */
  interrupts: string[];
  onAir: boolean;
  /** Units behind which it is not known how the signal goes on. */
  beyond: string[];
  caution: string | null;
  needs: Permission;
  /** A test whose result is recorded; absent in work begun by an earlier build. */
  tests?: boolean | undefined;
  /** Steps back from here, in words; empty where nothing was changed. */
  back: string[];
  /** The check that it is has a form: its jack. Not kept with work under way. */
  check?: PlaceId;
  /** Checks of the same that told nothing. */
  tried?: TriedLine[];
}

export interface FixBlockView {
  /** The same on every phone for the same facts. */
  id: string;
  type: Block['type'];
  steps: FixStepView[];
  waits: string | null;
  window: string | null;
  /** True where only the window allows it: it is not to be begun before. */
  onlyInWindow: boolean;
  /** Places to look at again when it is done, in walking order. */
  lookAgain: { placeId: PlaceId; words: string }[];
}

/** The window agreed, in words. */
interface WindowView {
  event: EventId;
  name: string;
  permission: Permission;
  scope: { racks: RackId[]; rooms: string[] };
  where: string;
  by: string;
  author: string;
  at: number;
}

export interface FixesView {
  audit: AuditId;
  name: string;
  permission: Permission;
  window: WindowView | null;
  blocks: FixBlockView[];
  /** Blocks that wait, in their order; they stand among the others as well. */
  waiting: number;
  totals: { steps: number; movements: number; onAir: number; services: number; minutes: number };
  /** Differences that the record follows, and that stay as they are. */
  record: number;
  left: number;
}

/** Differences, causes and the list made of them, by one fold with what people said about them. */
export function fixesOf(fold: Fold, more: { permission?: Permission; window?: FixWindow | null } = {}) {
  const differences = fold.discrepancies();
  const { causes } = explain(fold, differences);
  const said = decisionsOf(fold, differences);
  const disputed = new Set(differences.filter((one) => said.ofDifference(one).disputed).map(({ id }) => id));
  const order = new Map(
    walkOf(fold)
      .flatMap(({ places }) => places)
      .map((place, i) => [place, i]),
  );
  const rank = (place: PlaceId) => order.get(place) ?? order.size;
  const permission = more.permission ?? fold.permission;
  const window = more.window ?? agreedWindow(fold);
  const decisions = said.standing;
  const list = planFixes(fold, { differences, causes, decisions, disputed, permission, window, rank });
  const causeById = new Map(causes.map((one) => [one.id, one]));
  const byId = new Map(differences.map((one) => [one.id, one]));
  const aboutOf = ({ about }: Step): About => {
    const [id = ''] = about;
    return { cause: causeById.get(id) ?? null, difference: byId.get(id) ?? null };
  };
  return { list, aboutOf, rank };
}

export function fixesView(fold: Fold, audit: AuditId): FixesView {
  const { list, aboutOf, rank } = fixesOf(fold);
  const allowed = PERMISSION_RANK[fold.permission];
  const { index } = fold;
  const words = (place: PlaceId | null) => place && placeWords(fold, place);
  let n = 0;
  const toStep = (step: Step): FixStepView => {
    n += 1;
    const about = aboutOf(step);
    return {
      n,
      action: step.action,
      placeId: onlyJack(step.to) ?? onlyJack(step.from),
      from: words(step.from),
      to: words(step.to),
      label: step.label,
      words: stepToWords(fold, step, about),
      why: whyToWords(index, step, about),
      interrupts: step.interrupts.map(interruptedToWords),
      onAir: step.interrupts.some(({ onAir }) => onAir),
      beyond: step.beyond.map((unit) => index.units.get(unit)?.label ?? unit),
      caution: step.caution,
      needs: step.needs,
      tests: step.task === 'first-test' || step.task === 'retest',
      back: backWords(step, about),
      ...(step.task === 'settle' && step.to !== null && hasForm(step, about) ? { check: step.to } : {}),
      ...(step.task === 'settle' ? { tried: triedOf(fold, step, about) } : {}),
    };
  };
  const backWords = (step: Step, about: About): string[] => {
    const back = wayBackFrom([step]).map((one) => stepToWords(fold, one, about));
    const charged = step.task === 'phantom-on';
    return charged ? [...back, stepToWords(fold, { ...step, action: 'wait', task: 'discharge' }, about)] : back;
  };
  const { waiting: _, ...totals } = totalsOf(list);
  return {
    audit,
    name: fold.started?.payload.name ?? '',
    permission: fold.permission,
    window: windowView(fold),
    blocks: list.blocks.map(({ type, steps, waits, window: name }): FixBlockView => {
      const changed = steps.filter((one) => isMovement(one) || one.action === 'relabel' || one.action === 'test');
      const places = new Set(
        changed.flatMap(({ from, to }) => [onlyJack(from), onlyJack(to)].filter((one) => one !== null)),
      );
      return {
        id: `${type} ${steps.flatMap(({ task, to, from }) => [task, from ?? '', to ?? '']).join(' ')}`,
        type,
        steps: steps.map(toStep),
        waits: waits && waitsToWords(waits),
        window: name,
        onlyInWindow: waits === null && steps.some(({ needs }) => PERMISSION_RANK[needs] > allowed),
        lookAgain: [...places]
          .sort((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1))
          .map((placeId) => ({ placeId, words: placeWords(fold, placeId) })),
      };
    }),
    waiting: list.blocks.filter(({ waits }) => waits !== null).length,
    totals: { ...totals, minutes: minutesOf(list) },
    record: list.record.length,
    left: list.left.length,
  };
}

function windowView(fold: Fold): WindowView | null {
  const agreed = agreedWindow(fold);
  if (!agreed) return null;
  const { has: _, ...window } = agreed;
  const { racks, rooms } = window.scope;
  const named = [...racks.map((id) => `rack ${fold.index.racks.get(id)?.label ?? id}`), ...rooms];
  return { ...window, where: named.length > 0 ? named.join(', ') : 'everywhere' };
}

/** What settles a cause has a form, and so has what is followed; what one difference alone wants looked at is walked. */
const hasForm = ({ how }: Step, { cause }: About) => (cause ? cause.nextLook !== null : how !== 'look');

function triedOf(fold: Fold, { to }: Step, { cause }: About): TriedLine[] {
  if (cause) return triedLines(fold, cause);
  const looks = to === null ? [] : triedAt(fold, [to]);
  return looks.map(({ place, author, at }) => ({ place: placeWords(fold, place), by: author, at }));
}

const onlyJack = (place: PlaceId | null) => (place !== null && isJack(place) ? place : null);

function minutesOf({ blocks }: FixList): number {
  return blocks
    .flatMap(({ steps }) => steps)
    .reduce((sum, { action, how }) => sum + (how === 'follow' ? MINUTES_TO_FOLLOW : MINUTES[action]), 0);
}
