// Names a rack: label by scan or keys, height, which way its U are counted. One event; corrected by another.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { nameToKey } from '../../core/plan/identity.ts';
import type { DescribedView } from '../../core/report/describedView.ts';
import { useServices } from '../context.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { noteAct } from '../walkState.ts';
import { NEW_RACK, type RackDraft, rackToPayload, rackTrouble } from './describeDraft.ts';
import { InlineCamera } from './inlineCamera.tsx';

export function DescribeRack({ view, label }: { view: DescribedView; label: string | null }) {
  const services = useServices();
  const { audit } = view;
  const key = `describe-rack:${audit}:${label ?? ''}`;
  const known = view.racks.find((rack) => rack.label === label);
  const draft = useSignal<RackDraft>(
    known
      ? { label: known.label, room: known.room ?? '', heightU: String(known.heightU), numbering: known.numbering }
      : { ...NEW_RACK, room: view.racks.at(-1)?.room ?? '' },
  );
  const tried = useSignal(false);
  const failed = useSignal<string | null>(null);
  useEffect(() => {
    void services.draft<RackDraft>(key).then((kept) => {
      if (kept) draft.value = { ...draft.value, ...kept };
    });
  }, [key]);
  const set = (change: Partial<RackDraft>) => {
    draft.value = { ...draft.value, ...change };
    services.saveDraft(key, draft.value);
  };
  const d = draft.value;
  const trouble = rackTrouble(d);
  const same = view.racks.find((rack) => rack.id === nameToKey(d.label) && rack.label !== label);
  const list = () => go({ screen: 'describe', audit, what: null, label: null }, 'replace');
  const keep = async () => {
    tried.value = true;
    if (trouble !== null) return;
    const result = await services.record('rack-described', rackToPayload(d, known?.events ?? []), { audit });
    if (result.event === '') {
      failed.value = result.type === 'not-saved' ? result.why : '';
      return;
    }
    await services.dropDraft(key);
    await noteAct(services, audit, result.event, `rack ${d.label.trim()}, as described`);
    if (known) list();
    else go({ screen: 'describe', audit, what: 'unit', label: null }, 'replace');
  };
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to what is here', onPress: list }}
          cells={[{ small: view.name, big: known ? `Correct rack ${known.label}` : 'Name a rack', heading: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Kept as typed', big: 'Back out', onPress: list },
              {
                small: known ? 'The earlier words stay on record' : 'Then its units, from the top',
                big: known ? 'Correct it' : 'Keep the rack',
                primary: true,
                share: 2,
                onPress: () => void keep(),
              },
            ],
          ]}
        />
      }
    >
      {failed.value !== null && (
        <ErrorBox what="The rack was not kept." where={failed.value} todo="What you typed is still here. Try again." />
      )}
      <div class="desk-part">
        <Field
          label="Label on the rack"
          ident
          value={d.label}
          error={tried.value && d.label.trim() === '' ? (trouble ?? undefined) : undefined}
          hint={same ? `Rack ${same.label} is known already; what you say is added to it.` : undefined}
          onInput={(text) => set({ label: text })}
        />
        <InlineCamera start="Scan the label" onText={(text) => set({ label: text })} />
        <Field label="Room, as it says on the door" value={d.room} onInput={(room) => set({ room })} />
        <Field
          label="Height in U"
          inputMode="numeric"
          value={d.heightU}
          hint="Count the holes: three to a U. 1 U is 44.45 mm."
          error={tried.value && d.label.trim() !== '' ? (trouble ?? undefined) : undefined}
          onInput={(heightU) => set({ heightU })}
        />
        <Choice
          legend="U1 is"
          value={d.numbering}
          options={[
            { value: 'bottom-up', text: 'At the bottom' },
            { value: 'top-down', text: 'At the top' },
          ]}
          onChoose={(numbering) => set({ numbering })}
          hint="As it is printed on the rails. Most count from the bottom."
        />
      </div>
    </Screen>
  );
}
