// Names a rack: label by scan or keys, height, which way its U are counted. One event; corrected by another.
import { useSignal } from '@preact/signals';
import type { DescribedView } from '../../core/report/describedView.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { useServices } from '../context.ts';
import { RACK, UNIT } from '../drafts/describeDrafts.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { InlineCamera } from '../photos/inlineCamera.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { NEW_RACK, NEW_UNIT, type RackDraft, rackToPayload, rackTrouble } from './describeDraft.ts';
import { noteKept } from './describeKept.tsx';
import { rackDraftKey, unitDraftKey, useKeptDraft } from './describeStart.ts';

export function DescribeRack(props: { view: DescribedView; label: string | null }) {
  const kept = useKeptDraft(rackDraftKey(props.view.audit, props.label), RACK);
  if (kept.type === 'loading') return <NoAnswer title="Describe" asked={kept} missing="" />;
  return <RackForm {...props} kept={kept.draft} />;
}

interface Props {
  view: DescribedView;
  label: string | null;
  kept: RackDraft | null;
}

function RackForm(props: Props) {
  const { view } = props;
  const form = useRackForm(props);
  const { draft: d, set, known, trouble } = form;
  const same = view.racks.find((rack) => rack.id === nameToKey(d.label) && rack.label !== props.label);
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to what is here', onPress: form.list }}
          cells={[{ small: view.name, big: known ? `Correct rack ${known.label}` : 'Name a rack', heading: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Your draft stays', big: 'Cancel', onPress: form.list },
              {
                small: known ? 'The earlier entry stays' : 'Then its units, from the top',
                big: known ? 'Correct it' : 'Save the rack',
                primary: true,
                share: 2,
                disabled: form.saving,
                onPress: () => void form.keep(),
              },
            ],
          ]}
        />
      }
    >
      {form.failed !== null && (
        <ErrorBox what="The rack was not saved." where={form.failed} todo="What you typed is still here. Try again." />
      )}
      <div class="desk-part">
        <Field
          label="Label on the rack"
          ident
          value={d.label}
          error={d.label.trim() === '' ? trouble : undefined}
          hint={same ? `Rack ${same.label} is already in the record; what you enter is added to it.` : undefined}
          onInput={(text) => set({ label: text })}
        />
        <InlineCamera start="Scan the label" onText={(text) => set({ label: text })} />
        <Field label="Room, as on the door" value={d.room} onInput={(room) => set({ room })} />
        <Field
          label="Height in U"
          inputMode="numeric"
          value={d.heightU}
          hint="Count the holes: three to a U. 1 U is 44.45 mm."
          error={d.label.trim() !== '' ? trouble : undefined}
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
          hint="As printed on the rails. Most count from the bottom."
        />
      </div>
    </Screen>
  );
}

/** The draft of a rack, what is missing once it was tried, and how it is kept. */
function useRackForm({ view, label, kept }: Props) {
  const services = useServices();
  const { audit } = view;
  const key = rackDraftKey(audit, label);
  const known = view.racks.find((rack) => rack.label === label);
  const draft = useSignal<RackDraft>({
    ...(known
      ? { label: known.label, room: known.room ?? '', heightU: String(known.heightU), numbering: known.numbering }
      : { ...NEW_RACK, room: view.racks.find(({ id }) => id === view.usual)?.room ?? view.racks.at(-1)?.room ?? '' }),
    ...kept,
  });
  const tried = useSignal(false);
  const failed = useSignal<string | null>(null);
  const saving = useSignal(false);
  const set = (change: Partial<RackDraft>) => {
    draft.value = { ...draft.value, ...change };
    void services.saveDraft(key, draft.value, RACK);
  };
  const d = draft.value;
  const trouble = rackTrouble(d);
  const list = () => go({ screen: 'describe', audit, what: null, label: null }, 'replace');
  const keep = async () => {
    tried.value = true;
    if (trouble !== null || saving.value) return;
    saving.value = true;
    const payload = rackToPayload(d, known?.events ?? []);
    const result = await services.record('rack-described', payload, { audit });
    saving.value = false;
    if (result.event === '') {
      failed.value = result.type === 'not-saved' ? result.why : '';
      return;
    }
    await services.dropDraft(key);
    await noteKept(services, audit, result.event, `Rack ${payload.label}`);
    if (known) return list();
    // Its units come next, and a half-typed one with them: the form waits for this rack, however late the answer.
    const unit = unitDraftKey(audit, null);
    const typed = await services.draft(unit, UNIT);
    void services.saveDraft(unit, { ...NEW_UNIT, ...typed, rack: nameToKey(payload.label), gap: 0, u: '' }, UNIT);
    go({ screen: 'describe', audit, what: 'unit', label: null }, 'replace');
  };
  return {
    draft: d,
    set,
    known,
    trouble: tried.value ? (trouble ?? undefined) : undefined,
    saving: saving.value,
    failed: failed.value,
    list,
    keep,
  };
}
