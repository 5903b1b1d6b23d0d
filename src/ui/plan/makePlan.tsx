// Makes the record of an audit the station's plan: says in words what will be in it and what stays unknown, before it
// counts. The plan before it stays on record.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import type { Questions } from '../../wire/page.ts';
import { errorToWhy, useAsked, useServices } from '../context.ts';
import { useDraftText } from '../drafts/useDraft.ts';
import { Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { count } from '../words.ts';
import { back, NoAnswer } from './planParts.tsx';
import '../look/desk.css';

export default function MakePlan({ audit }: { audit: AuditId }) {
  const asked = useAsked('recordCounts', { audit });
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
  return <Counted audit={audit} counts={asked.value} />;
}

function Counted({ audit, counts }: { audit: AuditId; counts: NonNullable<Questions['recordCounts']['answer']> }) {
  const name = useDraftText(`make-plan:${audit}`);
  const { saving, failed, make } = useMaking(audit, name.text.trim() || counts.name, name.drop);
  const facts: [string, number][] = [
    ['Racks', counts.racks],
    ['Units', counts.units],
    ['Jacks', counts.jacks],
    ['Cables with both ends', counts.bothEnds],
    ['Cables with one end, the other not known', counts.oneEnd],
    ['Plugs that nobody could name', counts.unknown],
    ['Jacks where entries differ: noted, not used', counts.differ],
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
                big: saving ? 'Saving' : 'Use as the plan',
                primary: true,
                share: 2,
                onPress: () => void make(),
              },
            ],
          ]}
        />
      }
    >
      {failed !== null && (
        <ErrorBox
          what="The plan could not be saved."
          where={failed}
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
          value={name.text}
          hint={
            <>
              Leave it blank to use the name shown. <b>{counts.name}</b>
            </>
          }
          onInput={name.set}
        />
      </div>
    </Screen>
  );
}

function useMaking(audit: AuditId, name: string, onKept: () => void) {
  const services = useServices();
  const saving = useSignal(false);
  const failed = useSignal<string | null>(null);
  /** @returns why the plan is not saved; null when it is. */
  const adopt = async (): Promise<string | null> => {
    const plan = await services.ask('recordPlan', { audit, name });
    if (!plan) return 'the record is not here';
    const result = await services.adoptPlan(plan);
    return result.type === 'saved' ? null : result.why;
  };
  const make = async () => {
    if (saving.value) return;
    saving.value = true;
    failed.value = await adopt().catch(errorToWhy);
    saving.value = false;
    if (failed.value !== null) return;
    onKept();
    go({ screen: 'plan' }, 'replace');
  };
  return { saving: saving.value, failed: failed.value, make };
}
