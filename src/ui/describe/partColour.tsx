// "Rows 1 to 25 landed in order": one statement over many landings, claimed by order and proven for none. What was
// followed, crossed, found dead or kept as spare is told here too, each as one act with one undo.
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { type EventId, jackOf } from '../../core/plan/identity.ts';
import { colourToSighting, fateToSettings } from '../../core/report/walk/partPayloads.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { pairOrder } from '../../core/schedule/desk/siteRules.ts';
import { pairToColours } from '../../core/trade/partsPairs.ts';
import type { PairsHere } from '../../wire/pageParts.ts';
import { useAsked, useServices } from '../context.ts';
import { COLOURS } from '../drafts/describeDrafts.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Empty, Row, SectionHead } from '../parts/rows.tsx';
import type { WalkFlow } from '../walk/walkFlowType.ts';
import { labelToShow } from '../walk/walkState.ts';
import { count } from '../words.ts';
import {
  type Landed,
  landingsToAct,
  landingsToLine,
  landingsToSentence,
  landingsToTitle,
  wireToLine,
} from './describeWords.ts';
import { keepTogether } from './partFlow.ts';
import { landingIndex, PairFollowed } from './partPair.tsx';
import { backToJack, type PartProps, PartSheet } from './partSheet.tsx';

const NEW = { first: '', last: '', label: '', here: '', there: '', what: 'order' as Landed };
type Draft = typeof NEW;
const WHATS: { value: Landed; text: string }[] = [
  { value: 'order', text: 'Landed in order' },
  { value: 'dead', text: 'Dead' },
  { value: 'spare', text: 'Spare' },
  { value: 'good', text: 'Good' },
];

export default function PartColour({ flow, view }: PartProps) {
  const services = useServices();
  const asked = useAsked('pairs', { audit: flow.audit, place: view.current.place });
  const known = asked.type === 'ready' ? asked.value : null;
  const order = useColourOrder();
  const { now: d, set, drop } = useDraft(`colours:${flow.audit}:${view.unit.id}`, COLOURS, NEW);
  const wrong = useSignal<string | null>(null);
  const { places, labels } = landingsHere(view, known);
  const [first, end] = between(labels, d.first || labels[0] || '', d.last || labels.at(-1) || '');
  const planned = view.blind ? '' : (known?.label ?? '');
  const cable = d.label.trim() || planned;
  const unit = { id: view.unit.id, label: view.unit.label };
  const wires = known?.wires ?? 'pairs';
  const n = end - first;
  const done = () => {
    drop();
    backToJack(flow);
  };
  const say = async () => {
    const { what } = d;
    const chosen = places.slice(first, end);
    if (what === 'order') {
      await flow.state(colourToSighting(unit, chosen.map(jackOf), cable));
      done();
      return;
    }
    const events: EventId[] = [];
    for (const one of fateToSettings(chosen, what)) {
      events.push((await services.record('setting-read', one, { audit: flow.audit })).event);
    }
    wrong.value = await keepTogether(flow, events, ...landingsToLine(cable, first + 1, end, what));
    if (wrong.value === null) done();
  };
  const ready = n > 0 && cable !== '' && (d.what === 'order' || known !== null);
  return (
    <PartSheet
      flow={flow}
      about={unit.label}
      title={landingsToTitle(wires)}
      wrong={wrong.value}
      todo="Nothing is recorded yet."
      act={{
        small: ready ? 'One Undo takes it back' : 'Landings and cable first',
        big: landingsToAct(n, wires, d.what),
        disabled: !ready,
        onPress: () => void say(),
      }}
    >
      {asked.type === 'ready' && labels.length === 0 ? (
        <NoLandings flow={flow} />
      ) : (
        <>
          <LandingFields form={d} set={set} known={known} labels={labels} planned={planned}>
            {landingsToSentence(n, wires, cable ? labelToShow(cable) : 'a cable', d.what, order.isOwn)}
          </LandingFields>
          {known && !view.blind && (
            <Known known={known}>
              {known.farUnit !== null && (
                <PairFollowed flow={flow} unit={unit} known={known} draft={d} set={set} back={() => backToJack(flow)} />
              )}
            </Known>
          )}
          <SectionHead title="The order" right={count(n, 'landing')} />
          {labels.slice(first, end).map((landing, i) => {
            const wire = known ? first + i + 1 : i + 1;
            const fate = view.blind ? null : (known?.fates[first + i] ?? null);
            return (
              <Row
                key={landing}
                title={<span class="ident">{landing}</span>}
                second={wireToLine(wires, wire, fate, order.colours)}
              />
            );
          })}
        </>
      )}
    </PartSheet>
  );
}

/** The landings of a cable's range; else the numbered ones of this face, in their order. */
function landingsHere({ face }: WalkView, known: PairsHere | null) {
  if (known) return { places: known.landings, labels: known.labels };
  const own = face.rows.flat().filter((jack) => /^\d+$/.test(jack.label));
  return { places: own.map((jack) => jack.place), labels: own.map((jack) => jack.label) };
}

/** The station's own order of colours, else the standard one; no colours before the rules are there. */
function useColourOrder() {
  const rules = useAsked('siteRules', {});
  if (rules.type !== 'ready') return { isOwn: false, colours: null };
  const order = pairOrder(rules.value.rules);
  return { isOwn: rules.value.rules.pairs.length > 0, colours: (wire: number) => pairToColours(wire, order) };
}

function Known({ known, children }: { known: PairsHere; children: ComponentChildren }) {
  return (
    <>
      <SectionHead
        title={`Known about its ${known.wires}`}
        right={known.far === null ? undefined : `to ${known.far}`}
      />
      <p class="desk-note">{known.words}</p>
      {children}
    </>
  );
}

function NoLandings({ flow }: { flow: WalkFlow }) {
  return (
    <Empty
      what="No numbered landings are known here."
      why="The plan has no range on this jack, and nobody has described the block or trunk."
      next={{
        text: 'Describe the block',
        onPress: () => {
          flow.mode.value = 'panel';
        },
      }}
    />
  );
}

function LandingFields(props: {
  form: Draft;
  set: (change: Partial<Draft>) => void;
  known: PairsHere | null;
  labels: readonly string[];
  /** The label that the plan has; blank where it is unknown, or hidden. */
  planned: string;
  children: string;
}) {
  const { form: d, set, labels } = props;
  return (
    <div class="desk-part">
      {props.known && (
        <Choice legend="What to record" value={d.what} options={WHATS} onChoose={(what) => set({ what })} />
      )}
      <p>{props.children}</p>
      <Field
        label="First landing"
        ident
        value={d.first}
        placeholder={labels[0] ?? ''}
        onInput={(first) => set({ first })}
      />
      <Field
        label="Last landing"
        ident
        value={d.last}
        placeholder={labels.at(-1) ?? ''}
        onInput={(last) => set({ last })}
      />
      {d.what === 'order' && (
        <Field label="Cable" ident value={d.label} placeholder={props.planned} onInput={(label) => set({ label })} />
      )}
    </div>
  );
}

/** Index of the first, and behind the last; twice the same where one of them is not there. */
function between(all: readonly string[], from: string, to: string): [number, number] {
  const [a, b] = [landingIndex(all, from), landingIndex(all, to)];
  return a < 0 || b < 0 ? [0, 0] : [Math.min(a, b), Math.max(a, b) + 1];
}
