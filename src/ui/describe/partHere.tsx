// Adapter or tail at the jack in hand: one tap on a common shape keeps it; another is put together leg by leg. What is
// typed survives a reload.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { CONNECTOR_NAMES } from '../../core/record/jackWords.ts';
import { legOf, type PartDraft, type PartLeg, partToPayloads } from '../../core/report/walk/partPayloads.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { PART_FORMS, PART_SHAPES, type PartShape, partToName } from '../../core/trade/parts.ts';
import { useServices } from '../context.ts';
import { PART } from '../drafts/describeDrafts.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Caution } from '../parts/hazard.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { InlineCamera } from '../photos/inlineCamera.tsx';
import { AudioPinsHere } from '../plan/audioPinsHere.tsx';
import { notSaved, unlabelledHint } from './describeWords.ts';
import { useFarPlace } from './farPlace.tsx';
import { keepPart } from './partFlow.ts';
import { type LegDraft, LegRows } from './partLegs.tsx';
import type { PartProps } from './partProps.ts';
import '../look/desk.css';
import '../look/describe.css';

interface Draft extends Omit<PartDraft, 'legs'> {
  legs: LegDraft[];
  /** False while only the list of common ones stands there. */
  building: boolean;
}
const NEW: Draft = { form: 'adapter', label: '', plug: '', legs: [], building: false };

export default function PartHere({ flow, view }: PartProps) {
  const services = useServices();
  const at = { place: view.current.place, words: `${view.unit.label} ${view.current.jack}` };
  const far = useFarPlace(flow.audit);
  const key = `part:${flow.audit}:${at.place}` as const;
  const draft = useSignal<Draft>(NEW);
  const wrong = useSignal<string | null>(null);
  useEffect(() => {
    void services.draft(key, PART).then((kept) => {
      if (kept) draft.value = { ...NEW, ...kept };
    });
  }, [key]);
  const set = (change: Partial<Draft>) => {
    draft.value = { ...draft.value, ...change };
    void services.saveDraft(key, draft.value, PART);
  };
  const d = draft.value;
  const back = () => {
    flow.mode.value = 'walk';
  };
  const jack = view.face.rows.flat().find(({ place }) => place === at.place);
  const fits = (one: PartShape) => nameToKey(one.plug) === nameToKey(jack?.connector ?? '');
  const shapes = [...PART_SHAPES].sort((a, b) => Number(fits(b)) - Number(fits(a)));

  const keep = async (from: Draft) => {
    const legs: PartLeg[] = [];
    for (const { into, ...leg } of from.legs) {
      const label = leg.label.trim();
      if (label === '') {
        wrong.value = 'Every leg needs a name: L, R, 1, 2 …';
        return;
      }
      const leads = leg.kind === 'tail' && into.trim() !== '';
      const found = leads ? await far.find(into) : null;
      if (found?.type === 'unreadable') wrong.value = `“${into}” names no jack. Write unit and jack: SW1 P03.`;
      if (found && found.type !== 'place') return;
      const to = found && { place: found.place, words: found.words };
      const side = leg.leg ?? legOf(label);
      legs.push({ ...leg, label, ...(side ? { leg: side } : {}), ...(to ? { to } : {}) });
    }
    const twice = legs.find((leg, i) => legs.findIndex((one) => nameToKey(one.label) === nameToKey(leg.label)) !== i);
    if (legs.length === 0 || from.plug.trim() === '' || twice) {
      wrong.value = twice
        ? `Two legs are named ${twice.label}.`
        : 'Enter the plug in this jack and at least one socket or tail.';
      return;
    }
    const { unit, sightings } = partToPayloads({ ...from, legs }, at);
    const failed = await keepPart(services, flow, unit, sightings);
    if (failed !== null) wrong.value = notSaved(failed);
    else void services.dropDraft(key);
  };
  const choose = (one: PartShape) => {
    const next: Draft = { ...d, form: one.form, plug: one.plug, legs: legsOf(one), building: one.tails.length > 0 };
    // Tails are asked where they go; sockets are walked.
    if (one.tails.length > 0) set(next);
    else void keep(next);
  };
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: back }}
          cells={[{ small: at.words, big: 'Adapter or tail here', heading: true, wide: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            d.building
              ? [
                  { small: 'The common ones', big: 'Back', onPress: () => set({ building: false }) },
                  {
                    small: d.label.trim() || partToName(at.words, d.form),
                    big: 'Save',
                    primary: true,
                    share: 2,
                    onPress: () => void keep(d),
                  },
                ]
              : [
                  { small: 'Don’t record', big: 'Cancel', onPress: back },
                  {
                    small: 'Plug, sockets, tails',
                    big: 'Put one together',
                    share: 2,
                    onPress: () =>
                      set({ building: true, ...(d.plug === '' && jack?.connector ? { plug: jack.connector } : {}) }),
                  },
                ],
          ]}
        />
      }
    >
      {far.question}
      {wrong.value !== null && <ErrorBox what={wrong.value} todo="What you entered is still here." />}
      <div class="desk-part">
        <Field
          label="Its label"
          ident
          value={d.label}
          hint={unlabelledHint(partToName(at.words, d.form))}
          onInput={(label) => set({ label })}
        />
        <InlineCamera start="Scan the label" onText={(label) => set({ label })} />
      </div>
      <AudioPinsHere audit={flow.audit} place={at.place} />
      {view.caution && <Caution>{view.caution}</Caution>}
      {d.building ? <PutTogether d={d} set={set} /> : <OneTap shapes={shapes} fits={fits} choose={choose} set={set} />}
    </Screen>
  );
}

function PutTogether({ d, set }: { d: Draft; set: (change: Partial<Draft>) => void }) {
  return (
    <>
      <SectionHead title="What it is" />
      <div class="desk-part">
        <Choice
          legend="Form"
          stacked
          value={d.form}
          options={PART_FORMS.map(({ form, words }) => ({ value: form, text: words }))}
          onChoose={(form) => set({ form })}
        />
        <Field
          label="Plug in this jack"
          value={d.plug}
          suggestions={CONNECTOR_NAMES}
          onInput={(plug) => set({ plug })}
        />
      </div>
      <LegRows legs={d.legs} set={(legs) => set({ legs })} />
    </>
  );
}

function OneTap({
  shapes,
  fits,
  choose,
  set,
}: {
  shapes: PartShape[];
  fits: (one: PartShape) => boolean;
  choose: (one: PartShape) => void;
  set: (change: Partial<Draft>) => void;
}) {
  return (
    <>
      <SectionHead title="One touch records it" />
      {shapes.map((one) => (
        <Row
          key={one.id}
          title={one.name}
          second={`${one.tails.length > 0 ? 'Asks where its tails go. ' : ''}${fits(one) ? 'Its plug fits this jack. ' : ''}${sourceWords(one)}`}
          onPress={() => choose(one)}
        />
      ))}
      <div class="desk-part">
        <PlainButton onPress={() => set({ building: true })}>Another kind: put it together</PlainButton>
      </div>
    </>
  );
}

function legsOf({ sockets, tails }: PartShape): LegDraft[] {
  return [
    ...sockets.map((one) => ({ ...one, kind: 'socket' as const, into: '' })),
    ...tails.map((one) => ({ ...one, kind: 'tail' as const, into: '' })),
  ];
}

function sourceWords({ sockets, tails }: PartShape): string {
  const legs = [...sockets, ...tails].map(({ label }) => label);
  return `${legs.length === 1 ? 'Leg' : 'Legs'} ${legs.length > 3 ? `${legs[0]} to ${legs.at(-1)}` : legs.join(', ')}.`;
}
