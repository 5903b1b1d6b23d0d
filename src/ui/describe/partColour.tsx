// "Rows 1 to 25 landed in order": one statement over many landings, claimed by order and proven for none. What was
// followed, crossed, found dead or kept as spare is told here too, each as one act with one undo.
import { useSignal } from '@preact/signals';
import { type EventId, jackOf } from '../../core/plan/identity.ts';
import { colourToSighting, fateToSettings } from '../../core/report/walk/partPayloads.ts';
import { pairOrder } from '../../core/schedule/desk/siteRules.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { pairToColours } from '../../core/trade/partsPairs.ts';
import { useAsked, useServices } from '../context.ts';
import { COLOURS } from '../drafts/describeDrafts.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Empty, ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { labelToShow } from '../walk/walkState.ts';
import { count } from '../words.ts';
import { type Landed, landingsToSentence } from './describeWords.ts';
import { keepTogether } from './partFlow.ts';
import { PairFollowed } from './partPair.tsx';
import type { PartProps } from './partProps.ts';
import '../look/desk.css';

type What = Landed;
const NEW = { first: '', last: '', label: '', here: '', there: '', what: 'order' as What };
const WHATS: { value: What; text: string }[] = [
  { value: 'order', text: 'Landed in order' },
  { value: 'dead', text: 'Dead' },
  { value: 'spare', text: 'Spare' },
  { value: 'good', text: 'Good' },
];

export default function PartColour({ flow, view }: PartProps) {
  const services = useServices();
  const asked = useAsked('pairs', { audit: flow.audit, place: view.current.place });
  const known = asked.type === 'ready' ? asked.value : null;
  const rules = useAsked('siteRules', {});
  const order = rules.type === 'ready' ? pairOrder(rules.value.rules) : null;
  const isOwn = rules.type === 'ready' && rules.value.rules.pairs.length > 0;
  const { now: d, set, drop } = useDraft(`colours:${flow.audit}:${view.unit.id}`, COLOURS, NEW);
  const wrong = useSignal<string | null>(null);
  const back = () => {
    flow.mode.value = 'walk';
  };
  // The landings of a cable's range; else the numbered ones of this face, in their order.
  const own = view.face.rows.flat().filter((jack) => /^\d+$/.test(jack.label));
  const places = known?.landings ?? own.map((jack) => jack.place);
  const labels = known?.labels ?? own.map((jack) => jack.label);
  const from = d.first || labels[0] || '';
  const to = d.last || labels.at(-1) || '';
  const [first, end] = between(labels, from, to);
  const inside = labels.slice(first, end);
  const cable = d.label.trim() || (view.blind ? '' : (known?.label ?? ''));
  const unit = { id: view.unit.id, label: view.unit.label };
  const wires = known?.wires ?? 'pairs';
  const n = inside.length;
  const done = () => {
    drop();
    back();
  };
  const say = async () => {
    const { what } = d;
    if (what === 'order') {
      const jacks = places.slice(first, end).map((place) => jackOf(place));
      await flow.state(colourToSighting(unit, jacks, cable));
      done();
      return;
    }
    const events: EventId[] = [];
    for (const one of fateToSettings(places.slice(first, end), what)) {
      events.push((await services.record('setting-read', one, { audit: flow.audit })).event);
    }
    const those = `${cable} ${rangeWords(first, end)}`;
    wrong.value = await keepTogether(flow, events, `${those} ${what}`, `${those}: ${what}.`);
    if (wrong.value === null) done();
  };
  const ready = n > 0 && cable !== '' && (d.what === 'order' || known !== null);
  const title = wires === 'pairs' ? 'Landed in colour order' : 'Landed in order';
  const says = d.what === 'order' ? `landed ${wires === 'pairs' ? 'by colour' : 'in order'}` : d.what;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: back }}
          cells={[{ small: view.unit.label, big: title, heading: true, wide: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Don’t record', big: 'Cancel', onPress: back },
              {
                small: ready ? 'One Undo takes it back' : 'Landings and cable first',
                big: n === 0 ? 'Nothing chosen' : `Record ${n} ${says}`,
                primary: true,
                share: 2,
                disabled: !ready,
                onPress: () => void say(),
              },
            ],
          ]}
        />
      }
    >
      {asked.type === 'ready' && labels.length === 0 ? (
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
      ) : (
        <>
          {wrong.value !== null && <ErrorBox what={wrong.value} todo="Nothing is recorded yet." />}
          <div class="desk-part">
            {known && (
              <Choice legend="What to record" value={d.what} options={WHATS} onChoose={(what) => set({ what })} />
            )}
            <p>{landingsToSentence(n, wires, cable ? labelToShow(cable) : 'a cable', d.what, isOwn)}</p>
            <Field
              label="First landing"
              ident
              value={d.first}
              placeholder={labels[0] ?? ''}
              onInput={(text) => set({ first: text })}
            />
            <Field
              label="Last landing"
              ident
              value={d.last}
              placeholder={labels.at(-1) ?? ''}
              onInput={(last) => set({ last })}
            />
            {d.what === 'order' && (
              <Field
                label="Cable"
                ident
                value={d.label}
                placeholder={view.blind ? '' : (known?.label ?? '')}
                onInput={(label) => set({ label })}
              />
            )}
          </div>
          {known && !view.blind && (
            <>
              <SectionHead
                title={`Known about its ${wires}`}
                right={known.far === null ? undefined : `to ${known.far}`}
              />
              <p class="desk-note">{known.words}</p>
              {known.farUnit !== null && (
                <PairFollowed flow={flow} unit={unit} known={known} draft={d} set={set} back={back} />
              )}
            </>
          )}
          <SectionHead title="The order" right={count(n, 'landing')} />
          {inside.map((landing, i) => {
            const wire = known ? first + i + 1 : i + 1;
            const { tip, ring } = pairToColours(wire, order ?? undefined);
            const fate = known && !view.blind ? known.fates[first + i] : null;
            const colours = wires === 'pairs' && order ? `: ${tip} with ${ring}` : '';
            return (
              <Row
                key={landing}
                title={<span class="ident">{landing}</span>}
                second={`${ONE[wires]} ${wire}${fate ? `, ${fate}` : ''}${colours}`}
              />
            );
          })}
        </>
      )}
    </Screen>
  );
}

const ONE = { pairs: 'Pair', fibres: 'Fibre', cores: 'Core' } as const;
/** `7`, `20 to 24`: numbers of the wires, counted from the first landing of the range. */
function rangeWords(first: number, end: number): string {
  return end - first === 1 ? `${end}` : `${first + 1} to ${end}`;
}

/** Index of the first, and behind the last; twice the same where one of them is not there. */
function between(all: readonly string[], from: string, to: string): [number, number] {
  const keys = all.map(nameToKey);
  // A number alone names its landing where the others bear letters too: 7 of J1 rear to J24 rear.
  const at = (text: string) => {
    const exact = keys.indexOf(nameToKey(text));
    return exact >= 0 || !/^\d+$/.test(text.trim())
      ? exact
      : keys.findIndex((key) => Number(/\d+/.exec(key)?.[0] ?? Number.NaN) === Number(text));
  };
  const [a, b] = [at(from), at(to)];
  return a < 0 || b < 0 ? [0, 0] : [Math.min(a, b), Math.max(a, b) + 1];
}
