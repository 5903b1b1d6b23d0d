// Makes finished renames the plan: shows every change first, then stores one new document. What is not done on the
// floor stays as it is in the plan.
import { useSignal } from '@preact/signals';
import { useAsked, useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import { labelToShow } from '../walkState.ts';
import { count } from './homeWords.ts';
import { Pair } from './renamingPair.tsx';

const SHOWN = 30;

export function Adopt({ audit }: { audit: string }) {
  const services = useServices();
  const asked = useAsked('renamingPlan', { audit, whole: false });
  const state = useSignal<{ type: 'idle' | 'saving' } | { type: 'failed'; why: string }>({ type: 'idle' });
  if (asked.type !== 'ready' || asked.value === null) return null;
  const { cables, settings, left } = asked.value;
  const adopt = async () => {
    if (state.value.type === 'saving') return;
    state.value = { type: 'saving' };
    const made = await services.ask('renamingPlan', { audit, whole: true });
    const kept = made?.plan ? await services.adoptPlan(made.plan) : null;
    state.value =
      kept?.type === 'saved'
        ? { type: 'idle' }
        : { type: 'failed', why: kept?.why ?? 'the plan in force is not on this phone' };
  };
  return (
    <section aria-label="Make the new names the plan">
      <SectionHead title="Make the new names the plan" right={String(cables.length)} />
      <div class="desk-part">
        {cables.length === 0 ? (
          <p>{left.length === 0 ? 'The plan has the new names.' : 'No finished name can go into the plan yet.'}</p>
        ) : (
          <>
            <p>
              {count(cables.length, 'cable')} {cables.length === 1 ? 'gets its' : 'get their'} new name
              {cables.length === 1 ? '' : 's'}
              {settings.length > 0
                ? `, ${count(settings.length, 'setting')} with ${cables.length === 1 ? 'it' : 'them'}`
                : ''}
              . All others stay as they are. The plan of today is kept as its parent.
            </p>
            {cables.slice(0, SHOWN).map((one) => (
              <p key={one.id}>
                <Pair old={one.old} fresh={one.new} done />
              </p>
            ))}
            {cables.length > SHOWN && <p>And {cables.length - SHOWN} more.</p>}
            {settings.slice(0, SHOWN).map((one) => (
              <p key={`${one.place ?? one.unit} ${one.name}`}>
                {one.unit} {one.name}: {labelToShow(one.old)} becomes {labelToShow(one.new)}
              </p>
            ))}
          </>
        )}
        {left.map((one) => (
          <p key={one.id}>
            Left out: {labelToShow(one.old)}, {one.why}.
          </p>
        ))}
        {cables.length > 0 && (
          <PlainButton primary disabled={state.value.type === 'saving'} onPress={() => void adopt()}>
            Make {cables.length === 1 ? 'it' : 'them'} the plan
          </PlainButton>
        )}
      </div>
      {state.value.type === 'failed' && (
        <ErrorBox
          what="The plan was not changed."
          where={state.value.why}
          todo="Free some space on the phone and press again."
        />
      )}
    </section>
  );
}
