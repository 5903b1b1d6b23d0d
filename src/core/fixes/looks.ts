// What is owed before anything may be decided: one look, one question. Moves nothing, changes nothing.
import type { Cause, LookHow } from '../causes/cause.ts';
import { howToFollow } from '../causes/cycles.ts';
import type { Discrepancy } from '../rules/discrepancy.ts';
import type { FoldView } from '../rules/foldView.ts';
import { type Group, makeStep, type Step } from './step.ts';

/** The look that tells which story is true: the cause's own, else what it predicts, else one of its cables followed. */
export function settleCause(view: FoldView, cause: Cause): Group {
  const [predicted] = cause.predicts;
  const look = cause.nextLook ?? (predicted ? { place: predicted.place, how: 'look' as const } : null);
  const to = look?.place ?? cause.places[0] ?? null;
  const how = look?.how ?? 'follow';
  const label = view.index.endsAt.get(to ?? '')?.[0]?.cable.label ?? cause.labels[0] ?? null;
  return group([makeStep(view, 'test', 'settle', { to, label, how, about: [cause.id] })]);
}

/** The same for a difference that no cause explains. */
export function settleDifference(view: FoldView, one: Discrepancy): Group {
  const about = [one.id];
  const to = one.places[0] ?? null;
  const label = one.labels[0] ?? null;
  const test = (how: LookHow, at = to) => group([makeStep(view, 'test', 'settle', { to: at, label, how, about })]);
  const ask = (task: 'cure' | 'decide') => group([makeStep(view, 'ask', task, { to, label, about })]);
  switch (one.kind) {
    case 'wrong-jack': {
      const { home, cable } = one;
      // It was followed and is not what its label says: whether it gets another label is for somebody to say.
      if (to !== null && view.joined(to).length > 0) return decide(view, one);
      if (home && view.stateAt(home).type === 'unseen') return test('look', home);
      return test(howToFollow(view.index.cables.get(cable ?? '')));
    }
    case 'unplanned-cable':
      // Both its ends were read: what is left is to say what it is.
      if (one.maybe.length > 0 || one.places.length === 2) return decide(view, one);
      return to !== null && view.joined(to).length > 0 ? decide(view, one) : test('follow');
    case 'duplicate-label':
      return one.given ? decide(view, one) : test('follow');
    case 'unlabelled-cable':
    case 'illegible-label':
      // What was followed already is not followed again: now it wants a number.
      return to !== null && view.joined(to).length > 0 ? ask('cure') : test('follow');
    case 'sightings-conflict':
      return test('look');
    default:
      return decide(view, one);
  }
}

/** Nobody has said what is to be done, or only somebody can. */
export function decide(view: FoldView, one: Discrepancy): Group {
  const at = { to: one.places[0] ?? null, label: one.labels[0] ?? null, about: [one.id] };
  return group([makeStep(view, 'ask', 'decide', at)]);
}

export function decideCause(view: FoldView, cause: Cause): Group {
  const at = { to: cause.places[0] ?? null, label: cause.labels[0] ?? null, about: [cause.id] };
  return group([makeStep(view, 'ask', 'decide', at)]);
}

function group(steps: Step[]): Group {
  return { type: 'look', steps, about: steps.flatMap(({ about }) => about), listens: false };
}

/** An id begins with its kind: what differs alike at one place, of one thing, is asked and done once. */
const kindOf = (id: string) => id.split(' ', 1)[0];

/** One look may settle several stories: it is made once. */
export function withoutTwins(groups: readonly Group[]): Group[] {
  const byLook = new Map<string, Group>();
  groups.forEach((group, i) => {
    const [step] = group.steps;
    const only = group.steps.length === 1 && step;
    const key = only
      ? [step.task, step.to, step.how, step.task === 'settle' ? '' : `${step.label} ${step.about.map(kindOf)}`].join(
          '\n',
        )
      : `${i}`;
    const other = byLook.get(key);
    if (!other) byLook.set(key, group);
    else {
      const about = [...new Set([...other.about, ...group.about])];
      byLook.set(key, { ...other, about, steps: other.steps.map((one) => ({ ...one, about })) });
    }
  });
  return [...byLook.values()];
}
