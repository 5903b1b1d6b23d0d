// What puts right a decided difference that no plug movement cures: labels, settings, and what another trade has to do.
// A new label goes on beside the old one; the old one comes off when every end bears the new one.

import type { Cause } from '../causes/cause.ts';
import { isJack, isUnit, type PlaceId } from '../plan/identity.ts';
import { factsAt } from '../plan/planIndex.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import { nameToKey } from '../trade/names.ts';
import { textToPhantom } from '../trade/phantom.ts';
import { settingNameKeys } from '../trade/settingNames.ts';
import { phantomSwitched } from './hazardSteps.ts';
import type { Interruption, Interruptions } from './interrupts.ts';
import { type Group, makeStep, type Step } from './step.ts';

/** A value that nothing else has, for a moment; which one is for the network's staff to say. */
const SPARE = '';

/** Where the plug of a place stands once the plugs have moved; the same place where none moves. */
export type Moved = (place: PlaceId) => string;

/** A text to put and a text to take off at one place; null is nothing. */
interface Relabel {
  at: PlaceId;
  put: string | null;
  off: string | null;
}

/** First all that is put, then all that comes off. */
function relabelSteps(view: FoldView, labels: readonly Relabel[], about: string[], moved: Moved): Step[] {
  const step = (task: 'label-put' | 'label-off', at: PlaceId, label: string) =>
    makeStep(view, 'relabel', task, { to: moved(at), label, about });
  return [
    ...labels.flatMap(({ at, put }) => (put === null ? [] : [step('label-put', at, put)])),
    ...labels.flatMap(({ at, off }) => (off === null ? [] : [step('label-off', at, off)])),
  ];
}

function work(steps: Step[], about: string[], listens = false): Group[] {
  return steps.length === 0 ? [] : [{ type: 'work', steps, about, listens }];
}

/** The plugs are right, the labels went round: each plug gets the number that the plan has at its jack. */
export function exchangedLabels(view: FoldView, cause: Cause, all: readonly Discrepancy[]): Group[] {
  const about = [cause.id];
  const labels = all.flatMap((one): Relabel[] => {
    const [at] = one.places;
    const own = at === undefined ? undefined : view.index.endsAt.get(at)?.[0]?.cable.label;
    if (one.kind !== 'wrong-jack' || at === undefined || !own) return [];
    const read = view.readingsAt(at).find(({ cable }) => cable === one.cable);
    return [{ at, put: own, off: read?.text ?? one.found ?? null }];
  });
  return work(
    relabelSteps(view, labels, about, (place) => place),
    about,
  );
}

/** Two units bear each other's value. One takes a spare value for a moment, so that none is ever there twice. */
export function exchangedSettings(
  view: FoldView,
  cause: Cause,
  all: readonly Discrepancy[],
  off: Interruptions,
): Group[] {
  const [a, b] = all;
  const about = [cause.id];
  if (!a?.places[0] || !b?.places[0] || a.kind !== 'setting-differs') return [];
  const name = a.setting ?? '';
  const set = (one: Discrepancy, now: string | null, to: string | null) =>
    settingStep(view, one, { name, now, to }, about, off);
  const [ofA, ofB] = [a.found ?? null, b.found ?? null];
  const steps = [set(a, ofA, SPARE), set(b, ofB, ofA), set(a, SPARE, ofB)];
  return work(steps, about, true);
}

function settingStep(
  view: FoldView,
  one: Discrepancy,
  value: NonNullable<Step['value']>,
  about: string[],
  off: Interruptions,
): Step {
  const to = one.places[0]!;
  const carries: Interruption = isUnit(to) ? off.ofUnit(to) : off.ofPlace(to);
  // A name or an address carries every service of the unit; where one is on the air it waits for the same window.
  const isOnAir = carries.interrupts.some(({ onAir }) => onAir);
  return makeStep(view, 'set', 'value', { to, about, value, ...carries, ...(isOnAir ? { needs: 'disconnect' } : {}) });
}

/** What a difference that stands for itself wants done; none where a plug movement does it. */
export function cureOf(view: FoldView, one: Discrepancy, moved: Moved, off: Interruptions): Group[] {
  const about = [one.id];
  const [at] = one.places;
  const to = at ?? null;
  const label = one.labels[0] ?? null;
  const relabel = (...labels: Relabel[]) => work(relabelSteps(view, labels, about, moved), about);
  const lookAt = (step: Step): Group[] => [{ type: 'look', steps: [step], about, listens: false }];
  const ask = () => lookAt(makeStep(view, 'ask', 'cure', { to, label, about }));
  if (at === undefined) return ask();
  switch (one.kind) {
    case 'one-end-labelled':
      return relabel({ at, put: label, off: null });
    case 'ends-differ': {
      const wrong = endsRelabelled(view, one, at);
      return wrong === null ? ask() : relabel(...wrong);
    }
    case 'ends-reversed': {
      const read = view.readingsAt(at).find(({ cable }) => cable === one.cable)?.text;
      const { found = '', plan = '' } = one;
      if (!read || !plan || !read.toUpperCase().endsWith(found.toUpperCase())) return ask();
      return relabel({ at, put: read.slice(0, read.length - found.length) + plan, off: read });
    }
    case 'unlabelled-cable':
    case 'illegible-label': {
      // By plan only: it is followed before it is named.
      const { plan } = one;
      if (!plan) return ask();
      const prove = makeStep(view, 'test', 'prove', { to: moved(at), label: plan, about, how: 'follow' });
      const off = one.kind === 'illegible-label' ? one.pattern : null;
      return work([prove, ...relabelSteps(view, [{ at, put: plan, off }], about, moved)], about);
    }
    case 'old-label-left': {
      const olds = one.labels.slice(1).map((off): Relabel => ({ at, put: null, off }));
      const far = farWithout(view, at, one.labels[0] ?? '');
      const look = far ? [makeStep(view, 'test', 'far-end', { to: far, label, about, how: 'look' })] : [];
      return work([...look, ...relabelSteps(view, olds, about, moved)], about);
    }
    case 'setting-differs': {
      const { setting = '', found = null, plan = null } = one;
      const phantom = settingNameKeys(setting).key === 'PHANTOM' && plan !== null ? textToPhantom(plan) : null;
      if (phantom !== null) return work(phantomSwitched(view, at, phantom, about, off), about);
      return work([settingStep(view, one, { name: setting, now: found, to: plan }, about, off)], about, true);
    }
    case 'test-failed':
    case 'not-tested':
      return tested(view, one, at, off);
    case 'sightings-conflict':
      return lookAt(makeStep(view, 'test', 'settle', { to, label, about, how: 'look' }));
    default:
      return ask();
  }
}

/** Both ends get the number that the plan has there; null where it has none for both. */
function endsRelabelled(view: FoldView, one: Discrepancy, at: PlaceId): Relabel[] | null {
  const planned = view.index.endsAt
    .get(at)
    ?.find(({ cable }) => cable.ends.some(({ place }) => place === one.places[1]));
  const number = planned?.cable.label;
  if (!number) return null;
  return one.places.flatMap((place): Relabel[] => {
    const read = view.readingsAt(place)[0]?.text;
    return read === undefined || nameToKey(read) === nameToKey(number) ? [] : [{ at: place, put: number, off: read }];
  });
}

/** An end that failed is made anew and tested again; a tester goes in where the plug comes out. */
function tested(view: FoldView, one: Discrepancy, at: string, off: Interruptions): Group[] {
  const about = [one.id];
  const carries = off.ofPlug(one.cable ?? null, at);
  const given = { to: at, label: one.labels[0] ?? null, about, ...carries };
  const test = (task: 'first-test' | 'retest') => makeStep(view, 'test', task, { ...given, needs: 'disconnect' });
  const steps =
    one.kind === 'test-failed' ? [makeStep(view, 'mend', 'mend', given), test('retest')] : [test('first-test')];
  return work(
    steps,
    about,
    carries.interrupts.some(({ onAir }) => onAir),
  );
}

/** The planned far end where the new number was not read yet; null where every end bears it. */
function farWithout(view: FoldView, at: PlaceId, text: string): PlaceId | null {
  const cable = view.readingsAt(at).find((reading) => reading.text === text)?.cable;
  const ends = cable ? (view.index.cables.get(cable)?.ends ?? []) : [];
  const far = ends.find(
    ({ place }) => place !== null && place !== at && !view.readingsAt(place).some((reading) => reading.text === text),
  );
  return far?.place ?? null;
}

/** Leads through a panel that is not on the sheet bear no number of their own: each end of them wants one. */
export function leadsWithoutLabel(view: FoldView, cause: Cause, all: readonly Discrepancy[]): Group[] {
  const about = [cause.id];
  const bare = new Set(
    all.flatMap(({ kind, places }) =>
      kind === 'unlabelled-cable' || kind === 'one-end-labelled'
        ? places.filter((place) => view.stateAt(place).type === 'unlabelled')
        : [],
    ),
  );
  const steps = [...bare].filter(isJack).map((to) => makeStep(view, 'relabel', 'label-put', { to, about }));
  return work(steps, about);
}

/** A cause that neither plugs, labels nor settings cure: somebody has to do it, or to say how. */
export function askFor(view: FoldView, cause: Cause): Group[] {
  const to = cause.places[0] ?? null;
  const signal = to ? factsAt(view.index, to).signal : undefined;
  const step = makeStep(view, 'ask', 'cure', {
    to,
    label: cause.labels[0] ?? null,
    about: [cause.id],
    ...(signal ? { signal } : {}),
  });
  return [{ type: 'look', steps: [step], about: [cause.id], listens: false }];
}
