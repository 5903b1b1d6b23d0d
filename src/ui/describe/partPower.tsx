// Power by looking along cords: where the cord of this inlet goes, and feeds, strips and supplies that nobody described.
// Mains always shows its caution; nothing here suggests that a cord is moved.

import { useSignal } from '@preact/signals';
import type { PlaceId } from '../../core/plan/identity.ts';
import type { Payload } from '../../core/record/events.ts';
import type { PowerHere } from '../../core/report/powerView.ts';
import { leadToSighting } from '../../core/report/walk/partPayloads.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { partToName } from '../../core/trade/parts.ts';
import { useAsked, useServices } from '../context.ts';
import { POWER } from '../drafts/describeDrafts.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Caution, HazardRow } from '../parts/hazard.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { Stepper } from '../parts/stepper.tsx';
import { notSaved, unlabelledHint } from './describeWords.ts';
import { useFarPlace } from './farPlace.tsx';
import { keepPart } from './partFlow.ts';
import { backToJack, type PartProps, PartSheet } from './partSheet.tsx';
import { hangsInJack, type PowerKind, powerToPayload } from './powerPayload.ts';

interface Draft {
  kind: PowerKind;
  label: string;
  outlets: number;
  into: string;
  second: string;
}
const NEW: Draft = { kind: 'strip', label: '', outlets: 8, into: '', second: '' };

const KINDS: { value: PowerKind; text: string; second: string }[] = [
  { value: 'strip', text: 'Strip', second: 'A row of outlets on one cord' },
  { value: 'feed', text: 'Feed', second: 'Outlets of the building' },
  { value: 'supply', text: 'Plug-in supply', second: 'In an outlet, its lead in this jack' },
  { value: 'cord', text: 'Dual cord', second: 'One plug in an outlet, two inlets' },
];

interface At {
  place: PlaceId;
  words: string;
}

export default function PartPower({ flow, view }: PartProps) {
  const services = useServices();
  const at: At = { place: view.current.place, words: `${view.unit.label} ${view.current.jack}` };
  const far = useFarPlace(flow.audit);
  const asked = useAsked('power', { audit: flow.audit, place: at.place });
  const here = asked.type === 'ready' ? asked.value : null;
  const { now: d, set, drop } = useDraft(`power:${flow.audit}:${at.place}`, POWER, NEW);
  const wrong = useSignal<string | null>(null);
  /** @returns why it is not kept; null when it was, and when a question was left. */
  const keep = async (): Promise<string | null> => {
    const hangs = hangsInJack(d.kind);
    const label = d.label.trim();
    const name = label || (hangs ? partToName(at.words, d.kind) : '');
    if (name === '') return 'Enter its label.';
    const places: (PlaceId | undefined)[] = [];
    for (const text of [d.into, d.second].map((one) => one.trim())) {
      const found = text === '' ? null : await far.find(text);
      if (found?.type === 'unreadable') return `“${text}” names no outlet or inlet. Type unit and jack: ST1 OUT 3.`;
      if (found?.type === 'left') return null;
      places.push(found?.place);
    }
    const [outlet, other] = places;
    const unit = powerToPayload({ ...d, label: name, at: at.place, outlet, other, room: view.room });
    // What hangs in this jack is stated with it; an outlet or another inlet is left to its own look.
    const failed = await keepPart(services, flow, unit, hangs ? [lookAt(at, name, label !== '')] : []);
    if (failed !== null) return notSaved(failed);
    drop();
    backToJack(flow);
    return null;
  };
  return (
    <PartSheet
      flow={flow}
      about={at.words}
      title="Power"
      wrong={wrong.value}
      act={{
        small: KINDS.find(({ value }) => value === d.kind)?.text ?? '',
        big: 'Save',
        onPress: async () => {
          wrong.value = await keep();
        },
      }}
    >
      {far.question}
      {here && (
        <Known
          here={here}
          unit={view.unit.label}
          jack={view.current.jack}
          cordTo={(outlet) => void flow.state(leadToSighting(at, outlet, 'followed'))}
        />
      )}
      <PowerFields form={d} set={set} at={at} outlets={here?.outlets.map(({ words }) => words)} />
    </PartSheet>
  );
}

function lookAt(at: At, name: string, isMarked: boolean): Payload<'sighting'> {
  return {
    places: [at.place],
    said: [at.words],
    state: isMarked ? 'label' : 'unlabelled',
    plugs: [{ labels: isMarked ? [{ text: name }] : [], adapter: nameToKey(name) }],
    basis: 'seen',
    by: 'tapped',
  };
}

/** The caution of the place, cords that are known, and the outlets that the cord of this inlet may be in. */
function Known(props: { here: PowerHere; unit: string; jack: string; cordTo: (outlet: At) => void }) {
  const { caution, remarks, paths, isInlet, outlets } = props.here;
  return (
    <>
      <Caution>{caution}</Caution>
      {remarks.map(({ title, line }) => (
        <HazardRow key={line} title={title}>
          {line}
        </HazardRow>
      ))}
      {paths.length > 0 && <SectionHead title={`Cords of ${props.unit}`} right={String(paths.length)} />}
      {paths.map((path) => (
        <Row key={path} title={path} />
      ))}
      {isInlet && outlets.length > 0 && (
        <>
          <SectionHead title={`The cord of ${props.jack} goes to`} right="by eye" />
          {outlets.map((outlet) => (
            <Row
              key={outlet.place}
              title={<span class="ident">{outlet.words}</span>}
              onPress={() => props.cordTo(outlet)}
            />
          ))}
        </>
      )}
    </>
  );
}

function PowerFields(props: {
  form: Draft;
  set: (change: Partial<Draft>) => void;
  at: At;
  outlets: readonly string[] | undefined;
}) {
  const { form: d, set, at } = props;
  const hangs = hangsInJack(d.kind);
  return (
    <>
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
            suggestions={props.outlets}
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
    </>
  );
}
