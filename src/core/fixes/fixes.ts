// The ordered list of hands-on work, from differences, causes and decisions: hazards first, then the looks that are
// owed, then the work, each on-air circuit off once. What is not settled never moves a plug; what is not allowed waits.
//
// Limits: What another trade does is one step that asks for it. Minutes are estimates without a source. A window has a
// name and no clock. Of renamings only those that are begun are in the list. With thousands of plugs in 25,000 cables
// the list takes some three seconds.

import type { PlaceId } from '../plan/identity.ts';
import type { Permission } from '../record/events.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Fold } from '../rules/foldView.ts';
import { askFor, cureOf, exchangedLabels, exchangedSettings, leadsWithoutLabel } from './cures.ts';
import { createGate, type Gate } from './gate.ts';
import { hazardGroup } from './hazardSteps.ts';
import type { FixInput, Waits } from './input.ts';
import { type Interruptions, interruptionsOf } from './interrupts.ts';
import { withoutTwins } from './looks.ts';
import { inWalkingOrder, toBlocks } from './order.ts';
import { plugGroups } from './plugs.ts';
import { renameGroups } from './renameSteps.ts';
import { isHazard, type Sorted, sortOut } from './sortOut.ts';
import { type Group, isMovement, makeStep, onAirOf, PERMISSION_RANK, placesOf, type Step } from './step.ts';

export interface Block {
  type: Group['type'];
  steps: Step[];
  about: string[];
  waits: Waits | null;
  /** Name of the window it is for. */
  window: string | null;
}

export interface FixList {
  /** In order. What waits keeps its place and is done when its time comes. */
  blocks: Block[];
  /** Ids of differences that the record follows, and of those that stay as they are. */
  record: string[];
  left: string[];
}

export function planFixes(fold: Fold, input: FixInput): FixList {
  const { differences, rank } = input;
  const off = interruptionsOf(fold);
  const sorted = sortOut(fold, input);
  const { jobs } = sorted;
  const hazards = differences.filter(isHazard);
  const { isAllowed, waitsOf } = createGate(fold, input, hazards);
  const blockOf = (groups: readonly Group[]) => toBlock(fold, input, waitsOf, groups);
  const movedTo = new Map(jobs.flatMap(({ from, to }) => (from === null ? [] : [[from, to]])));
  const moved = (place: PlaceId) => (fold.index.jacks.get(place)?.mult ? place : (movedTo.get(place) ?? place));
  const reached = new Set(jobs.map(({ to }) => to));
  const plugs = plugGroups(fold, jobs, off, (places) =>
    hazards.filter((one) => one.kind !== 'phantom-hazard' && one.places.some((place) => places.includes(place))),
  );
  const cures = [
    ...sorted.whole.flatMap((one) => cureCause(fold, one, off)),
    ...sorted.alone.flatMap((one) => cureAlone(fold, one, reached) ?? cureOf(fold, one, moved, off)),
    ...renameGroups(fold, moved, off),
  ];
  const work = joined(withoutTwins([...plugs, ...cures].filter(({ type }) => type === 'work')));
  const blocks = toBlocks(work, rank).map(blockOf);
  const phantomInWork = (one: Discrepancy) => blocks.find(({ steps }) => doesPhantom(steps, one.places[0]));
  const first = new Set<Block>();
  const hazardBlocks = alike(hazards).map(([one, all]) => {
    const inWork = phantomInWork(one);
    const merged = inWork !== undefined && (inWork.waits === null || !isAllowed('touch', one.places));
    if (merged) first.add(inWork);
    return blockOf([hazardGroup(fold, one, all, merged, off)]);
  });
  const looks = [...sorted.looks, ...[...plugs, ...cures].filter(({ type }) => type === 'look')];
  const lookBlocks = inWalkingOrder(withoutTwins(looks), rank).map((group) => blockOf([group]));
  const byWindow = (one: Block) => (first.has(one) ? 0 : one.window !== null ? 1 : 2);
  const ordered = inWalkingOrder(
    blocks.map((block) => ({ ...toGroup(block), block })),
    rank,
  )
    .map(({ block }) => block)
    .sort((a, b) => byWindow(a) - byWindow(b));
  return {
    blocks: [...hazardBlocks.flatMap(parted), ...lookBlocks, ...ordered],
    record: sorted.record,
    left: sorted.left,
  };
}

function cureCause(fold: Fold, { cause, all }: Sorted['whole'][number], off: Interruptions): Group[] {
  switch (cause.kind) {
    case 'labels-exchanged':
      return exchangedLabels(fold, cause, all);
    case 'addresses-exchanged':
      return exchangedSettings(fold, cause, all, off);
    case 'hop-not-on-sheet':
      return leadsWithoutLabel(fold, cause, all);
    default:
      return askFor(fold, cause);
  }
}

/** Null where the difference is put right as its kind is. */
function cureAlone(fold: Fold, one: Discrepancy, reached: ReadonlySet<PlaceId>): Group[] | null {
  const [at] = one.places;
  // The plug that belongs here is on its way.
  if (one.kind === 'empty-jack' && at !== undefined && reached.has(at)) return [];
  if (one.kind !== 'not-landed') return null;
  const step = makeStep(fold, 'test', 'which-end', {
    to: at ?? null,
    label: one.labels[0] ?? null,
    about: [one.id],
    how: 'follow',
  });
  return [{ type: 'look', steps: [step], about: [one.id], listens: false }];
}

/** Labels of a plug that moves are done with it. */
function joined(groups: Group[]): Group[] {
  const moving = groups.filter(({ steps }) => steps.some(isMovement));
  const others = groups.filter((group) => !moving.includes(group));
  const kept = others.filter((group) => {
    if (!group.steps.some(({ action }) => action === 'relabel')) return true;
    const places = placesOf(group.steps);
    const host = moving.find(({ steps }) => steps.some((step) => isMovement(step) && places.includes(step.to ?? '')));
    if (!host) return true;
    host.steps.push(...group.steps);
    host.about.push(...group.about);
    return false;
  });
  return [...moving, ...kept];
}

function toBlock(fold: Fold, { window }: FixInput, waitsOf: Gate['waitsOf'], groups: readonly Group[]): Block {
  const [one] = groups;
  const listens = groups.some((group) => group.listens);
  const listen = (task: 'listen-before' | 'listen-after') =>
    listens ? [makeStep(fold, 'test', task, { how: 'listen', about: groups.flatMap(({ about }) => about) })] : [];
  const steps = [
    ...listen('listen-before'),
    ...groups.flatMap((group) => [...group.steps, ...(group.listens ? listen('listen-after') : [])]),
  ];
  const places = placesOf(steps);
  const needs = steps.reduce<Permission>(
    (most, step) => (PERMISSION_RANK[step.needs] > PERMISSION_RANK[most] ? step.needs : most),
    'look',
  );
  return {
    type: one?.type ?? 'work',
    steps,
    about: [...new Set(groups.flatMap(({ about }) => about))],
    waits: waitsOf(one?.type ?? 'work', needs, places),
    window: window && needs !== 'look' && places.every((place) => window.has(place)) ? window.name : null,
  };
}

/** A hazard is told by everybody; only what follows may have to wait. */
function parted(block: Block): Block[] {
  const [tell, ...rest] = block.steps;
  if (block.waits === null || !tell || rest.length === 0) return [block];
  return [
    { ...block, steps: [tell], waits: null },
    { ...block, steps: rest },
  ];
}

/** One hazard that several people or entries tell of, with all that tell of it: it is told and cleared once. */
function alike(hazards: readonly Discrepancy[]): [one: Discrepancy, about: string[]][] {
  const groups = new Map<string, [Discrepancy, string[]]>();
  for (const one of hazards) {
    const key = `${one.kind} ${one.kind === 'hazard-seen' ? one.hazard : ''} ${one.places.join(' ')}`;
    const known = groups.get(key);
    if (known) known[1].push(one.id);
    else groups.set(key, [one, [one.id]]);
  }
  return [...groups.values()];
}

function toGroup({ type, steps, about }: Block): Group {
  return { type, steps, about, listens: false };
}

function doesPhantom(steps: readonly Step[], place: PlaceId | undefined): boolean {
  return steps.some(({ task, to }) => task === 'phantom-off' && to === place);
}

interface FixTotals {
  steps: number;
  movements: number;
  /** On-air circuits that go off, each time counted; and other services. */
  onAir: number;
  services: number;
  waiting: number;
}

export function totalsOf(list: FixList): FixTotals {
  const steps = list.blocks.flatMap((block) => block.steps);
  const keys = (block: Block, onAir: boolean) =>
    new Set(block.steps.flatMap((one) => one.interrupts.filter((cut) => cut.onAir === onAir).map(({ key }) => key)));
  return {
    steps: steps.length,
    movements: steps.filter(isMovement).length,
    onAir: list.blocks.reduce((sum, block) => sum + onAirOf(block.steps).size, 0),
    services: list.blocks.reduce((sum, block) => sum + keys(block, false).size, 0),
    waiting: list.blocks.reduce((sum, block) => sum + (block.waits ? block.steps.length : 0), 0),
  };
}
