// Puts a plan that the record worker makes into force, on a press. What it changes is shown by its caller beforehand.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import type { Questions } from '../../wire/page.ts';
import { errorToWhy, useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { count } from '../words.ts';

/** The questions whose answer holds a plan when it is asked for whole. */
type Made = 'amendedPlan' | 'renamingPlan';
type State = { type: 'idle' } | { type: 'saving' } | { type: 'failed'; why: string };

/** `button` stands where the changes are listed, `failed` beneath them. */
export function useAdoption(question: Made, audit: AuditId, changes: number) {
  const services = useServices();
  const state = useSignal<State>({ type: 'idle' });
  async function adopt(): Promise<void> {
    state.value = { type: 'saving' };
    try {
      const made: Questions[Made]['answer'] = await services.ask(question, { audit, whole: true });
      const kept = made?.plan ? await services.adoptPlan(made.plan) : null;
      state.value =
        kept?.type === 'saved'
          ? { type: 'idle' }
          : { type: 'failed', why: kept?.why ?? 'the plan in force is not on this phone' };
    } catch (error) {
      state.value = { type: 'failed', why: errorToWhy(error) };
    }
  }
  const saving = state.value.type === 'saving';
  return {
    button: changes > 0 && (
      <PlainButton primary disabled={saving} onPress={() => void adopt()}>
        {saving ? 'Saving' : `Update the plan: ${count(changes, 'change')}`}
      </PlainButton>
    ),
    failed: state.value.type === 'failed' && (
      <ErrorBox
        what="The plan was not changed."
        where={state.value.why}
        todo="Free some space on the phone and press again."
      />
    ),
  };
}
