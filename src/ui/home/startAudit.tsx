// Starts an audit: name, occasion, scope, what is left out and why, what the person may do. Saved as typed; nothing
// is recorded before the last press.

import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { OCCASIONS, type Occasion, PERMISSIONS } from '../../core/record/events.ts';
import { PERMISSION_WORDS } from '../../core/report/words/recordWords.ts';
import type { ScopeOptions } from '../../wire/page.ts';
import { useAsked, useServices } from '../context.ts';
import { START } from '../drafts/workDrafts.ts';
import { CheckRow, Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { count } from '../words.ts';
import { StartCautions } from './startAuditCautions.tsx';
import { Exclusions } from './startAuditExclusions.tsx';
import {
  draftToPayload,
  NEW_DRAFT,
  OCCASION_WORDS,
  type StartDraft,
  scopeToWords,
  suggestName,
  toggled,
} from './startDraft.ts';
import '../look/home.css';

const DRAFT = 'start-audit';
/** There is nothing to compare with, and no names to change. */
const NEEDS_NO_PLAN: ReadonlySet<Occasion> = new Set(['inherit', 'build']);

export default function StartAudit() {
  const services = useServices();
  const asked = useAsked('scope', {});
  const plate = (
    <Plate
      back={{ label: 'Back to the station', onPress: () => go({ screen: 'home' }) }}
      cells={[{ small: services.stationName.value || 'Station', big: 'Begin an audit', heading: true }]}
    />
  );
  if (asked.type === 'failed') {
    return (
      <Screen plate={plate}>
        <ErrorBox what="The plan could not be read." where={asked.why} todo="Go back to the station and try again." />
      </Screen>
    );
  }
  if (asked.type === 'loading') {
    return (
      <Screen plate={plate}>
        <p class="home-line">Opening the plan.</p>
      </Screen>
    );
  }
  return <StartForm options={asked.value} plate={plate} />;
}

function StartForm(props: { options: ScopeOptions; plate: preact.ComponentChildren }) {
  const { options } = props;
  const noPlan = options.plan === null;
  const { draft: d, set, nameless, saving, failed, start } = useStart(options);
  return (
    <Screen
      plate={props.plate}
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Nothing is recorded', big: 'Cancel', onPress: () => go({ screen: 'home' }) },
              {
                small: `${d.permission === 'look' ? 'Look only' : PERMISSION_WORDS[d.permission].text}, ${scopeToWords(d, options)}`,
                big: saving ? 'Saving' : 'Begin the walk',
                primary: true,
                share: 2,
                onPress: () => void start(),
              },
            ],
          ]}
        />
      }
    >
      {failed !== null && (
        <ErrorBox
          what="The audit could not be saved."
          where={failed}
          todo="What you filled in is still here. Free some space on the phone, then press Begin the walk again."
        />
      )}
      {noPlan && (
        <Row
          title="No plan is in force on this phone"
          second="The walk will make one. If there is a schedule, import it first."
          onPress={() => go({ screen: 'bring-in' })}
        />
      )}
      <WhoAndWhy d={d} options={options} set={set} nameless={nameless} />
      <Scope noPlan={noPlan} d={d} options={options} set={set} />
      {!noPlan && <Exclusions options={options} list={d.exclusions} onChange={(exclusions) => set({ exclusions })} />}
      <SectionHead title="How" />
      <CheckRow
        text="Blind checking"
        second="Expected labels stay hidden until you record what you see. Slower, and better proof."
        checked={d.blind}
        onChange={(blind) => set({ blind })}
      />
      <StartCautions permission={d.permission} />
    </Screen>
  );
}

/** The draft of an audit, and what begins it. */
function useStart(options: ScopeOptions) {
  const services = useServices();
  const noPlan = options.plan === null;
  const draft = useSignal<StartDraft>(noPlan ? { ...NEW_DRAFT, occasion: 'inherit' } : NEW_DRAFT);
  const saving = useSignal(false);
  const failed = useSignal<string | null>(null);
  const nameless = useSignal(false);
  useEffect(() => {
    void services.draft(DRAFT, START).then((kept) => {
      if (!kept) return;
      // A draft can outlive the plan it was begun with.
      const occasion = noPlan && !NEEDS_NO_PLAN.has(kept.occasion) ? 'inherit' : kept.occasion;
      draft.value = { ...NEW_DRAFT, ...kept, occasion };
    });
  }, []);
  const start = async () => {
    if (saving.value) return;
    const d = draft.peek();
    const { author } = services.settings.value;
    if (author.trim() === '') {
      nameless.value = true;
      document.getElementById('start-author')?.scrollIntoView({ block: 'center' });
      return;
    }
    saving.value = true;
    failed.value = null;
    const audit = services.newId();
    const result = await services.record('audit-started', draftToPayload(d, options, author), { audit });
    saving.value = false;
    if (result.type === 'not-saved') {
      failed.value = result.why;
      return;
    }
    await services.dropDraft(DRAFT);
    // Leaving with Back from the walk should lead to the station, not to a second start.
    // A relabelling begins with its list; the walk is one press from there.
    if (noPlan) go({ screen: 'describe', audit, what: null, label: null }, 'replace');
    else go({ screen: d.occasion === 'relabel' ? 'renaming' : 'walk', audit, place: null }, 'replace');
  };
  return {
    draft: draft.value,
    set: (change: Partial<StartDraft>) => {
      draft.value = { ...draft.value, ...change };
      void services.saveDraft(DRAFT, draft.value, START);
    },
    nameless: nameless.value,
    saving: saving.value,
    failed: failed.value,
    start,
  };
}

function WhoAndWhy(props: {
  d: StartDraft;
  options: ScopeOptions;
  set: (change: Partial<StartDraft>) => void;
  /** It was tried without a name. */
  nameless: boolean;
}) {
  const { d, options, set } = props;
  const { settings } = useServices();
  const { author } = settings.value;
  return (
    <div class="form-part">
      <Field
        label="Name of the audit"
        value={d.name}
        hint={
          <>
            Leave it blank to use the name shown. <b>{suggestName(d, options)}</b>
          </>
        }
        onInput={(name) => set({ name })}
      />
      <div id="start-author">
        <Field
          label="Your name"
          value={author}
          hint="Shown beside every entry you make. Name as typed; nobody checks it."
          error={props.nameless && author.trim() === '' ? 'Type your name: every entry needs one.' : undefined}
          onInput={(name) => {
            settings.value = { ...settings.value, author: name };
          }}
        />
      </div>
      <Choice
        legend="Occasion: what is right?"
        stacked
        options={OCCASIONS.filter((value) => options.plan !== null || NEEDS_NO_PLAN.has(value)).map((value) => ({
          value,
          ...OCCASION_WORDS[value],
        }))}
        value={d.occasion}
        onChoose={(occasion) => set({ occasion })}
      />
      <Choice
        legend="You may"
        stacked
        options={PERMISSIONS.map((value) => ({ value, ...PERMISSION_WORDS[value] }))}
        value={d.permission}
        onChoose={(permission) => set({ permission })}
        hint="Agree it with whoever is responsible for the air. You can change it during the walk."
      />
    </div>
  );
}

function Scope({
  noPlan,
  d,
  options,
  set,
}: {
  noPlan: boolean;
  d: StartDraft;
  options: ScopeOptions;
  set: (change: Partial<StartDraft>) => void;
}) {
  return (
    <>
      {!noPlan && (
        <>
          <SectionHead title="Scope" right={scopeToWords(d, options)} />
          <p class="home-line">Tick what you will walk. Nothing ticked means the whole plan.</p>
        </>
      )}
      {options.racks.map((rack) => (
        <CheckRow
          key={rack.id}
          text={`Rack ${rack.label}`}
          second={[rack.room, count(rack.units, 'unit'), count(rack.jacks, 'jack')].filter(Boolean).join(', ')}
          checked={d.racks.includes(rack.id)}
          onChange={(on) => set({ racks: toggled(d.racks, rack.id, on) })}
        />
      ))}
      {options.rooms.map((room) => (
        <CheckRow
          key={room.name}
          text={`Room ${room.name}`}
          second={`${count(room.units, 'unit')}, ${count(room.jacks, 'jack')}, its racks with it`}
          checked={d.rooms.includes(room.name)}
          onChange={(on) => set({ rooms: toggled(d.rooms, room.name, on) })}
        />
      ))}
    </>
  );
}
