// Makes the record of an audit the station's plan: says in words what will be in it and what stays unknown, before it
// counts. The plan before it stays on record.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { AuditId } from '../../core/plan/identity.ts';
import { errorToWhy, useAsked, useServices } from '../context.ts';
import { TEXT } from '../drafts/draftKind.ts';
import { Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { count } from '../words.ts';
import { back, NoAnswer } from './planParts.tsx';
import '../look/desk.css';

export default function MakePlan({ audit }: { audit: AuditId }) {
  const services = useServices();
  const asked = useAsked('recordCounts', { audit });
  const name = useSignal('');
  const state = useSignal<{ type: 'asking' } | { type: 'saving' } | { type: 'failed'; why: string }>({
    type: 'asking',
  });
  const key = `make-plan:${audit}` as const;
  useEffect(() => {
    void services.draft(key, TEXT).then((kept) => {
      if (kept && name.peek() === '') name.value = kept;
    });
  }, [key]);
  if (asked.type !== 'ready' || asked.value === null) {
    return (
      <NoAnswer
        title="Use as the plan"
        asked={asked}
        missing="This audit is not on this phone, or its plan has not arrived yet."
        next="Send and receive fetches both."
      />
    );
  }
  const counts = asked.value;
  const adopt = async (called: string) => {
    const plan = await services.ask('recordPlan', { audit, name: called });
    return plan ? services.adoptPlan(plan) : ({ type: 'not-saved', why: 'the record is not here' } as const);
  };
  const make = async () => {
    if (state.value.type === 'saving') return;
    state.value = { type: 'saving' };
    const result = await adopt(name.value.trim() || counts.name).catch(
      (error: unknown) => ({ type: 'not-saved', why: errorToWhy(error) }) as const,
    );
    if (result.type !== 'saved') {
      state.value = { type: 'failed', why: result.why };
      return;
    }
    await services.dropDraft(key);
    go({ screen: 'plan' }, 'replace');
  };
  const facts: [string, string][] = [
    ['Racks', String(counts.racks)],
    ['Units', String(counts.units)],
    ['Jacks', String(counts.jacks)],
    ['Cables with both ends', String(counts.bothEnds)],
    ['Cables with one end, the other not known', String(counts.oneEnd)],
    ['Plugs that nobody could name', String(counts.unknown)],
    ['Jacks where entries differ: noted, not used', String(counts.differ)],
  ];
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[{ small: counts.name, big: 'Use as the plan', heading: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Nothing is changed', big: 'Cancel', onPress: back },
              {
                small: count(counts.bothEnds + counts.oneEnd + counts.unknown, 'cable'),
                big: state.value.type === 'saving' ? 'Saving' : 'Use as the plan',
                primary: true,
                share: 2,
                onPress: () => void make(),
              },
            ],
          ]}
        />
      }
    >
      {state.value.type === 'failed' && (
        <ErrorBox
          what="The plan could not be saved."
          where={state.value.why}
          todo="Nothing is lost. Free some space on the phone, then try again."
        />
      )}
      <div class="desk-part">
        <p>
          What was found becomes the plan in force on every phone of this station.
          {counts.parent
            ? ' Planned cables keep their jack where nobody looked; where the jack was empty, their end becomes unknown.'
            : ''}{' '}
          What nobody knows stays unknown, and this audit stays as it is.
        </p>
        <dl class="desk-facts desk-facts-flush desk-facts-counts">
          {facts.map(([what, value]) => (
            <>
              <dt>{what}</dt>
              <dd>{value}</dd>
            </>
          ))}
        </dl>
        <Field
          label="Name of the plan"
          value={name.value}
          hint={
            <>
              Leave it blank to use the name shown. <b>{counts.name}</b>
            </>
          }
          onInput={(text) => {
            name.value = text;
            void services.saveDraft(key, text, TEXT);
          }}
        />
      </div>
    </Screen>
  );
}
