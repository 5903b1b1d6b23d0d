// Power by looking along cords: where the cord of this inlet goes, and feeds, strips and supplies that nobody described.
// Mains always shows its caution; nothing here suggests that a cord is moved.

import { useSignal } from '@preact/signals';
import type { PlaceId } from '../../core/plan/identity.ts';
import type { Tail } from '../../core/plan/model.ts';
import type { Payload } from '../../core/record/events.ts';
import { leadToSighting } from '../../core/report/walk/partPayloads.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { partToName } from '../../core/trade/parts.ts';
import { useAsked, useServices } from '../context.ts';
import { POWER } from '../drafts/describeDrafts.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Caution, HazardRow } from '../parts/hazard.tsx';
import { ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { Stepper } from '../parts/stepper.tsx';
import { notSaved, unlabelledHint } from './describeWords.ts';
import { useFarPlace } from './farPlace.tsx';
import { keepPart } from './partFlow.ts';
import type { PartProps } from './partProps.ts';
import '../look/desk.css';
import '../look/describe.css';

interface Draft {
  kind: Kind;
  label: string;
  outlets: number;
  into: string;
  second: string;
}
const NEW: Draft = { kind: 'strip', label: '', outlets: 8, into: '', second: '' };

type Kind = 'feed' | 'strip' | 'supply' | 'cord';
const KINDS: { value: Kind; text: string; second: string }[] = [
  { value: 'strip', text: 'Strip', second: 'A row of outlets on one cord' },
  { value: 'feed', text: 'Feed', second: 'Outlets of the building' },
  { value: 'supply', text: 'Plug-in supply', second: 'In an outlet, its lead in this jack' },
  { value: 'cord', text: 'Dual cord', second: 'One plug in an outlet, two inlets' },
];

export default function PartPower({ flow, view }: PartProps) {
  const services = useServices();
  const at = { place: view.current.place, words: `${view.unit.label} ${view.current.jack}` };
  const far = useFarPlace(flow.audit);
  const asked = useAsked('power', { audit: flow.audit, place: at.place });
  const here = asked.type === 'ready' ? asked.value : null;
  const { now: d, set, drop } = useDraft(`power:${flow.audit}:${at.place}`, POWER, NEW);
  const wrong = useSignal<string | null>(null);
  const back = () => {
    flow.mode.value = 'walk';
  };
  const cordTo = async (outlet: { place: PlaceId; words: string }) => {
    await flow.state(leadToSighting(at, outlet, 'followed'));
  };
  const hangs = d.kind === 'supply' || d.kind === 'cord';
  const keep = async () => {
    const name = d.label.trim() || (hangs ? partToName(at.words, d.kind) : '');
    if (name === '') {
      wrong.value = 'Enter its label.';
      return;
    }
    const places: (string | undefined)[] = [];
    for (const text of [d.into, d.second].map((one) => one.trim())) {
      const found = text === '' ? null : await far.find(text);
      if (found?.type === 'unreadable')
        wrong.value = `“${text}” names no outlet or inlet. Type unit and jack: ST1 OUT 3.`;
      if (found && found.type !== 'place') return;
      places.push(found?.place);
    }
    const [outlet, other] = places;
    // What hangs in this jack is stated with it; an outlet or another inlet is left to its own look.
    const look: Payload<'sighting'> = {
      places: [at.place],
      said: [at.words],
      state: d.label.trim() ? 'label' : 'unlabelled',
      plugs: [{ labels: d.label.trim() ? [{ text: name }] : [], adapter: nameToKey(name) }],
      basis: 'seen',
      by: 'tapped',
    };
    const failed = await keepPart(services, flow, toPayload(name, outlet, other), hangs ? [look] : []);
    if (failed !== null) {
      wrong.value = notSaved(failed);
      return;
    }
    drop();
    back();
  };
  function toPayload(name: string, outlet: PlaceId | undefined, other: string | undefined): Payload<'unit-described'> {
    const plug: Tail = { end: 'A', signal: 'mains', ...(outlet ? { place: outlet } : {}) };
    const isRow = d.kind === 'feed' || d.kind === 'strip';
    const jacks = isRow
      ? Array.from({ length: d.outlets }, (_, i) => ({
          label: `OUT ${i + 1}`,
          direction: 'out' as const,
          signal: 'mains' as const,
        }))
      : [];
    const lead: Tail = {
      end: 'B',
      signal: d.kind === 'supply' ? 'dc' : 'mains',
      place: at.place,
    };
    const tails = isRow
      ? d.kind === 'strip'
        ? [plug]
        : []
      : [plug, lead, ...(other ? [{ end: 'C', signal: 'mains' as const, place: other }] : [])];
    return {
      label: name,
      heightU: 1,
      mounted: 'rear',
      form: d.kind,
      ...(view.room ? { room: view.room } : {}),
      jacks,
      faces: isRow ? [{ face: 'front', through: false, rows: [jacks.map((jack) => jack.label)] }] : [],
      tails,
    };
  }
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: back }}
          cells={[{ small: at.words, big: 'Power', heading: true, wide: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Don’t record', big: 'Cancel', onPress: back },
              {
                small: KINDS.find(({ value }) => value === d.kind)?.text ?? '',
                big: 'Save',
                primary: true,
                share: 2,
                onPress: () => void keep(),
              },
            ],
          ]}
        />
      }
    >
      {here && <Caution>{here.caution}</Caution>}
      {far.question}
      {wrong.value !== null && <ErrorBox what={wrong.value} todo="What you typed is still here." />}
      {here?.remarks.map(({ title, line }) => (
        <HazardRow key={line} title={title}>
          {line}
        </HazardRow>
      ))}
      {here && here.paths.length > 0 && (
        <SectionHead title={`Cords of ${view.unit.label}`} right={String(here.paths.length)} />
      )}
      {here?.paths.map((path) => (
        <Row key={path} title={path} />
      ))}
      {here?.isInlet && here.outlets.length > 0 && (
        <>
          <SectionHead title={`The cord of ${view.current.jack} goes to`} right="by eye" />
          {here.outlets.map((outlet) => (
            <Row
              key={outlet.place}
              title={<span class="ident">{outlet.words}</span>}
              onPress={() => void cordTo(outlet)}
            />
          ))}
        </>
      )}
      <SectionHead strong title="Describe a feed, strip or supply" />
      <div class="desk-part">
        <Choice legend="What it is" stacked value={d.kind} options={KINDS} onChoose={(kind) => set({ kind })} />
        <Field
          label="Its label"
          ident
          value={d.label}
          hint={hangs ? unlabelledHint(partToName(at.words, d.kind)) : undefined}
          onInput={(label) => set({ label })}
        />
        {!hangs && (
          <Stepper label="Outlets" value={d.outlets} least={1} most={48} onChange={(outlets) => set({ outlets })} />
        )}
        {d.kind !== 'feed' && (
          <Field
            label="Its plug is in outlet"
            ident
            value={d.into}
            suggestions={here?.outlets.map(({ words }) => words)}
            hint="By looking along the cord. Leave blank if you cannot see it."
            onInput={(into) => set({ into })}
          />
        )}
        {d.kind === 'cord' && (
          <Field
            label="Its other inlet"
            ident
            value={d.second}
            hint={`The first one is ${at.words}.`}
            onInput={(second) => set({ second })}
          />
        )}
      </div>
    </Screen>
  );
}
