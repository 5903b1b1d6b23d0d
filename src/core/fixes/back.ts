// The way back from any point of the list to the floor as it was found. A hazard that was found is not brought back.
import { isLooseEnd } from '../plan/identity.ts';
import { isMovement, type Step } from './step.ts';

/** One step back: where a plug, a label or a setting goes. */
export type BackStep = Pick<Step, 'action' | 'task' | 'from' | 'to' | 'label'> & Pick<Partial<Step>, 'value'>;

/** What leads back from the steps done so far, the last one first. Looks, questions and waiting have no way back. */
export function wayBackFrom(done: readonly Step[]): BackStep[] {
  const back: BackStep[] = [];
  let charged: string | null = null;
  for (const step of [...done].reverse()) {
    const one = backOf(step);
    if (!one) continue;
    // Phantom that goes off on the way back has to be gone before a plug moves.
    if (charged !== null && isMovement(one)) {
      back.push({ action: 'wait', task: 'discharge', from: null, to: charged, label: null });
      charged = null;
    }
    if (one.task === 'phantom-off') charged = one.to;
    back.push(one);
  }
  return back;
}

function backOf({ action, task, from, to, label, value }: Step): BackStep | null {
  switch (action) {
    case 'hold':
      return { action: 'plug', task, from: null, to: from, label };
    case 'pull':
      return { action: 'plug', task, from: to, to: from, label };
    case 'plug': {
      // Out of the hand into the jack: back into the hand. A loose one goes back where it lay.
      if (from === null) return { action: 'hold', task, from: to, to: null, label };
      const isLoose = isLooseEnd(from);
      return { action: isLoose ? 'pull' : 'plug', task, from: to, to: from, label };
    }
    case 'relabel':
      return { action, task: task === 'label-put' ? 'label-off' : 'label-put', from, to, label };
    case 'set':
      if (task === 'mute') return { action, task: 'unmute', from, to, label };
      if (task === 'unmute') return { action, task: 'mute', from, to, label };
      if (!value || value.now === null) return null;
      return {
        action,
        task: task === 'phantom-on' ? 'phantom-off' : task === 'phantom-off' ? 'phantom-on' : task,
        from,
        to,
        label,
        value: { name: value.name, now: value.to, to: value.now },
      };
    default:
      return null;
  }
}
