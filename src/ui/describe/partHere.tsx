// Adapter or tail at the jack in hand: one tap on a common shape keeps it; another is put together leg by leg. What is
// typed survives a reload.
import { useSignal } from '@preact/signals';
import { CONNECTOR_NAMES } from '../../core/record/jackWords.ts';
import { legOf, type PartDraft, type PartLeg, partToPayloads } from '../../core/report/walk/partPayloads.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { PART_FORMS, PART_SHAPES, type PartShape, partToName } from '../../core/trade/parts.ts';
import { useServices } from '../context.ts';
import { PART } from '../drafts/describeDrafts.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { Caution } from '../parts/hazard.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { InlineCamera } from '../photos/inlineCamera.tsx';
import { AudioPinsHere } from '../plan/audioPinsHere.tsx';
import { notSaved, shapeToLine, unlabelledHint } from './describeWords.ts';
import { useFarPlace } from './farPlace.tsx';
import { keepPart } from './partFlow.ts';
import { type LegDraft, LegRows } from './partLegs.tsx';
import { type PartProps, PartSheet } from './partSheet.tsx';

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
  const { now: d, set, drop } = useDraft<Draft>(`part:${flow.audit}:${at.place}`, PART, NEW);
  const wrong = useSignal<string | null>(null);
  const jack = view.face.rows.flat().find(({ place }) => place === at.place);
  const name = partToName(at.words, d.form);
  const keep = async (from: Draft) => {
    const read = await readLegs(from, far.find);
    if (!('legs' in read)) {
      wrong.value = read.why;
      return;
    }
    const { unit, sightings } = partToPayloads({ ...from, legs: read.legs }, at);
    const failed = await keepPart(services, flow, unit, sightings);
    wrong.value = failed === null ? null : notSaved(failed);
    if (failed === null) drop();
  };
  const choose = (one: PartShape) => {
    const next: Draft = { ...d, form: one.form, plug: one.plug, legs: legsOf(one), building: one.tails.length > 0 };
    // Tails are asked where they go; sockets are walked.
    if (one.tails.length > 0) set(next);
    else void keep(next);
  };
  const build = () => set({ building: true, ...(d.plug === '' && jack?.connector ? { plug: jack.connector } : {}) });
  return (
    <PartSheet
      flow={flow}
      about={at.words}
      title="Adapter or tail here"
      wrong={wrong.value}
      instead={
        d.building ? { small: 'The common ones', big: 'Back', onPress: () => set({ building: false }) } : undefined
      }
      act={
        d.building
          ? { small: d.label.trim() || name, big: 'Save', onPress: () => void keep(d) }
          : { small: 'Plug, sockets, tails', big: 'Put one together', primary: false, onPress: build }
      }
    >
      {far.question}
      <div class="desk-part">
        <Field
          label="Its label"
          ident
          value={d.label}
          hint={unlabelledHint(name)}
          onInput={(label) => set({ label })}
        />
        <InlineCamera start="Scan the label" onText={(label) => set({ label })} />
      </div>
      <AudioPinsHere audit={flow.audit} place={at.place} />
      {view.caution && <Caution>{view.caution}</Caution>}
      {d.building ? (
        <PutTogether d={d} set={set} />
      ) : (
        <OneTap connector={jack?.connector ?? ''} choose={choose} set={set} />
      )}
    </PartSheet>
  );
}

/** The legs as they are recorded; the reason where they cannot be, or none when a question about one was left. */
async function readLegs(
  { legs: typed, plug }: Draft,
  find: ReturnType<typeof useFarPlace>['find'],
): Promise<{ legs: PartLeg[] } | { why: string | null }> {
  const legs: PartLeg[] = [];
  for (const { into, ...leg } of typed) {
    const label = leg.label.trim();
    if (label === '') return { why: 'Every leg needs a name: L, R, 1, 2 …' };
    const found = leg.kind === 'tail' && into.trim() !== '' ? await find(into) : null;
    if (found?.type === 'unreadable') return { why: `“${into}” names no jack. Write unit and jack: SW1 P03.` };
    if (found?.type === 'left') return { why: null };
    const to = found && { place: found.place, words: found.words };
    const side = leg.leg ?? legOf(label);
    legs.push({ ...leg, label, ...(side ? { leg: side } : {}), ...(to ? { to } : {}) });
  }
  const twice = legs.find((leg, i) => legs.findIndex((one) => nameToKey(one.label) === nameToKey(leg.label)) !== i);
  if (twice) return { why: `Two legs are named ${twice.label}.` };
  if (legs.length === 0 || plug.trim() === '')
    return { why: 'Enter the plug in this jack and at least one socket or tail.' };
  return { legs };
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

function OneTap(props: {
  /** Of this jack; what fits it comes first. */
  connector: string;
  choose: (one: PartShape) => void;
  set: (change: Partial<Draft>) => void;
}) {
  const fits = (one: PartShape) => nameToKey(one.plug) === nameToKey(props.connector);
  const shapes = [...PART_SHAPES].sort((a, b) => Number(fits(b)) - Number(fits(a)));
  return (
    <>
      <SectionHead title="One touch records it" />
      {shapes.map((one) => (
        <Row key={one.id} title={one.name} second={shapeToLine(one, fits(one))} onPress={() => props.choose(one)} />
      ))}
      <div class="desk-part">
        <PlainButton onPress={() => props.set({ building: true })}>Another kind: put it together</PlainButton>
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
