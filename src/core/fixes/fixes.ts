// The ordered list of hands-on work, from differences, causes and decisions: hazards first, then the looks that are
// owed, then the work, each on-air circuit off once. What is not settled never moves a plug; what is not allowed waits.
//
// Limits: What another trade does is one step that asks for it. Minutes are estimates without a source. A window has a
// name and no clock. Of renamings only those that are begun are in the list. With thousands of plugs in 25,000 cables
// the list takes some three seconds.

import type { Cause, CauseKind } from '../causes/cause.ts';
import type { PlaceId } from '../plan/identity.ts';
import type { Permission } from '../record/events.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { Fold } from '../rules/foldView.ts';
import { askFor, cureOf, exchangedLabels, exchangedSettings, leadsWithoutLabel } from './cures.ts';
import { chosenFor, isSettled } from './decision.ts';
import { createGate } from './gate.ts';
import { hazardGroup } from './hazardSteps.ts';
import type { FixInput, Waits } from './input.ts';
import { interruptionsOf } from './interrupts.ts';
import { decide, decideCause, settleCause, settleDifference, withoutTwins } from './looks.ts';
import { inWalkingOrder, toBlocks } from './order.ts';
import { jobOf, type PlugJob, plugGroups } from './plugs.ts';
import { renameGroups } from './renameSteps.ts';
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

/** Causes that say which plug is where: moved back they are cured. */
const PLUG_STORIES: ReadonlySet<CauseKind> = new Set<CauseKind>([
  'crossed',
  'chain-moved',
  'rotated',
  'row-shifted',
  'row-mirrored',
  'odd-even-exchanged',
  'groups-exchanged',
  'units-exchanged',
]);
const isHazard = ({ severity }: Discrepancy) => severity === 'people' || severity === 'equipment';

export function planFixes(fold: Fold, input: FixInput): FixList {
  const { differences, causes, decisions, rank } = input;
  const byId = new Map(differences.map((one) => [one.id, one]));
  const causeOf = new Map<string, Cause>();
  for (const cause of causes) for (const id of cause.explains) if (!causeOf.has(id)) causeOf.set(id, cause);
  const explainedBy = ({ explains }: Cause) => explains.flatMap((id) => byId.get(id) ?? []);
  const off = interruptionsOf(fold);
  const sorted = sortOut();
  const jobs = sorted.jobs;
  const hazards = differences.filter(isHazard);
  const { isAllowed, waitsOf } = createGate(fold, input, hazards);
  const movedTo = new Map(jobs.flatMap(({ from, to }) => (from === null ? [] : [[from, to]])));
  const moved = (place: PlaceId) => (fold.index.jacks.get(place)?.mult ? place : (movedTo.get(place) ?? place));
  const reached = new Set(jobs.map(({ to }) => to));
  const plugs = plugGroups(fold, jobs, off, (places) =>
    hazards.filter((one) => one.kind !== 'phantom-hazard' && one.places.some((place) => places.includes(place))),
  );
  const renames = renameGroups(fold, moved, off);
  const cures = [...sorted.whole.flatMap(cureCause), ...sorted.alone.flatMap(cureAlone), ...renames];
  const work = joined(withoutTwins([...plugs, ...cures].filter(({ type }) => type === 'work')));
  const blocks = toBlocks(work, rank).map((groups) => toBlock(groups));
  const phantomInWork = (one: Discrepancy) => blocks.find(({ steps }) => doesPhantom(steps, one.places[0]));
  const first = new Set<Block>();
  const hazardBlocks = alike(hazards).map(([one, all]) => {
    const inWork = phantomInWork(one);
    const merged = inWork !== undefined && (inWork.waits === null || !isAllowed('touch', one.places));
    if (merged) first.add(inWork);
    return toBlock([hazardGroup(fold, one, all, merged, off)]);
  });
  const looks = [...sorted.looks, ...[...plugs, ...cures].filter(({ type }) => type === 'look')];
  const lookBlocks = inWalkingOrder(withoutTwins(looks), rank).map((group) => toBlock([group]));
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

  /** Each difference once: told, owed a look, asked about, done, amended or left. */
  function sortOut() {
    const found = {
      jobs: [] as PlugJob[],
      looks: [] as Group[],
      whole: [] as { cause: Cause; all: Discrepancy[] }[],
      alone: [] as Discrepancy[],
      record: [] as string[],
      left: [] as string[],
    };
    const asked = new Set<Cause>();
    const byCause = new Map<Cause, Discrepancy[]>();
    for (const one of differences) {
      const cause = causeOf.get(one.id) ?? null;
      const chosen = chosenFor(decisions, fold.occasion, one, cause);
      const { decision } = chosen;
      const choice = input.disputed?.has(one.id) ? null : chosen.choice;
      // Whoever leaves a hazard as it is takes it out of no list.
      if (isHazard(one)) continue;
      else if (choice === 'leave' && decision) found.left.push(one.id);
      else if (cause) {
        // A plug that was followed is in the wrong jack, whatever story holds for its neighbours.
        const isOpen = cause.disputed || cause.rivals.length > 0 || one.severity === 'undecided';
        const proven = PLUG_STORIES.has(cause.kind) && !isOpen;
        if (!isSettled(cause, explainedBy(cause)) && !proven) {
          if (!asked.has(cause)) found.looks.push(settleCause(fold, withLook(cause)));
          asked.add(cause);
        } else if (choice === 'fix-floor') byCause.set(cause, [...(byCause.get(cause) ?? []), one]);
        else if (choice === null) {
          if (!asked.has(cause)) found.looks.push(decideCause(fold, cause));
          asked.add(cause);
        } else {
          found.record.push(one.id);
          if (cause.kind === 'hop-not-on-sheet') byCause.set(cause, [...(byCause.get(cause) ?? []), one]);
        }
      } else if (one.severity === 'undecided') {
        // Where a hazard is told at the same plug, that comes first and says the same.
        if (!isBesideHazard(one)) found.looks.push(settleDifference(fold, one));
      } else if (choice === 'fix-floor') found.alone.push(one);
      else if (choice === null) found.looks.push(decide(fold, one));
      else found.record.push(one.id);
    }
    for (const [cause, all] of byCause) {
      if (PLUG_STORIES.has(cause.kind)) {
        const settled = isSettled(cause, explainedBy(cause));
        for (const one of all) if (one.kind === 'wrong-jack') addJob(one, [settled ? cause.id : one.id]);
        // Units seen in each other's place have no plugs in their story.
        if (!all.some(({ kind }) => kind === 'wrong-jack')) found.whole.push({ cause, all });
      } else found.whole.push({ cause, all });
    }
    found.alone = found.alone.filter((one) => {
      if (one.kind !== 'wrong-jack' && one.kind !== 'not-landed') return true;
      return !addJob(one, [one.id]);
    });
    const placeOf = ({ from, to }: PlugJob) => from ?? to;
    found.jobs.sort((a, b) => rank(placeOf(a)) - rank(placeOf(b)) || (a.plug < b.plug ? -1 : 1));
    return found;

    function addJob(one: Discrepancy, about: string[]): boolean {
      const job = jobOf(fold, one, about);
      if (job) found.jobs.push(job);
      return job !== null;
    }
  }

  /** Of stories that fit the same facts, the one that knows which look tells them apart. */
  function withLook(cause: Cause): Cause {
    if (cause.nextLook) return cause;
    return causes.find(({ id, nextLook }) => nextLook !== null && cause.rivals.includes(id)) ?? cause;
  }

  /** Unlabelled or unplanned, and followed into a jack that it harms: told as that. */
  function isBesideHazard({ kind, places }: Discrepancy): boolean {
    if (kind !== 'unlabelled-cable' && kind !== 'unplanned-cable') return false;
    return differences.some(
      (one) => isHazard(one) && one.kind === 'signal-clash' && one.places.some((place) => places.includes(place)),
    );
  }

  function cureCause({ cause, all }: { cause: Cause; all: Discrepancy[] }): Group[] {
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

  function cureAlone(one: Discrepancy): Group[] {
    const [at] = one.places;
    // The plug that belongs here is on its way.
    if (one.kind === 'empty-jack' && at !== undefined && reached.has(at)) return [];
    if (one.kind === 'not-landed') {
      const step = makeStep(fold, 'test', 'which-end', {
        to: at ?? null,
        label: one.labels[0] ?? null,
        about: [one.id],
        how: 'follow',
      });
      return [{ type: 'look', steps: [step], about: [one.id], listens: false }];
    }
    return cureOf(fold, one, moved, off);
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

  function toBlock(groups: readonly Group[]): Block {
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
    const { window } = input;
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
