// "Rows 1 to 25 landed in colour order": one statement over many landings, claimed by order and proven for none. A pair
// that was followed is told here too, and that one is proven.
import { useSignal } from '@preact/signals';
import { pairOrder } from '../../core/plan/desk/siteRules.ts';
import { jackToPlace, nameToKey, placeToParts } from '../../core/plan/identity.ts';
import { colourToSighting, leadToSighting } from '../../core/report/partPayloads.ts';
import { pairToColours } from '../../core/trade/partsPairs.ts';
import { useAsked, useServices } from '../context.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { CableLabel } from '../parts/label.tsx';
import { Empty, ErrorBox, Row, SectionHead } from '../parts/rows.tsx';
import { labelToShow } from '../walkState.ts';
import type { PartProps } from './partOver.tsx';
import { useDraft } from './useDraft.ts';
import '../look/desk.css';

const NEW = { first: '', last: '', label: '', here: '', there: '' };

export default function PartColour({ flow, view }: PartProps) {
  const services = useServices();
  const asked = useAsked('pairs', { audit: flow.audit, place: view.current.place });
  const known = asked.type === 'ready' ? asked.value : null;
  const rules = useAsked('siteRules', {});
  const order = rules.type === 'ready' ? pairOrder(rules.value.rules) : null;
  const isOwn = rules.type === 'ready' && rules.value.rules.pairs.length > 0;
  const { now: d, set, drop } = useDraft(`colours:${flow.audit}:${view.unit.id}`, NEW);
  const wrong = useSignal<string | null>(null);
  const back = () => {
    flow.mode.value = 'walk';
  };
  // The landings of a planned cable; else the numbered ones of this face, in their order.
  const own = view.face.rows.flat().filter((jack) => /^\d+$/.test(jack.label));
  const all = known?.landings.map(lastOf) ?? own.map((jack) => jack.label);
  const from = d.first || all[0] || '';
  const to = d.last || all.at(-1) || '';
  const inside = between(all, from, to);
  const cable = d.label.trim() || (view.blind ? '' : (known?.label ?? ''));
  const unit = { id: view.unit.id, label: view.unit.label };
  const say = async () => {
    const said = colourToSighting(unit, inside, cable);
    await flow.keep(said);
    drop();
    back();
  };
  const pair = async () => {
    const [a, b] = [d.here.trim(), d.there.trim()];
    if (!known) return;
    const n = all.indexOf(a);
    const far = await services.ask('place', { audit: flow.audit, text: known.far });
    const parts = far ? placeToParts(far.place) : null;
    if (n < 0 || b === '' || parts?.type !== 'jack') {
      wrong.value = `Write two landings: one of ${all[0]} to ${all.at(-1)} here, and the one it goes to.`;
      return;
    }
    wrong.value = null;
    const to = { place: jackToPlace(parts.unit, b), words: `${far!.words.split(' ')[0]} ${b}` };
    const said = leadToSighting({ place: jackToPlace(unit.id, a), words: `${unit.label} ${a}` }, to, 'followed');
    await flow.keep(said);
    set({ here: '', there: '' });
    flow.line.value = `Pair ${a} followed to ${to.words}.`;
    back();
  };
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: back }}
          cells={[{ small: view.unit.label, big: 'Landed in colour order', heading: true, wide: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Say nothing', big: 'Back out', onPress: back },
              {
                small: inside.length === 0 || cable === '' ? 'Landings and cable first' : 'One act, one undo',
                big: inside.length === 0 ? 'Nothing chosen' : `${inside.length} landed by colour`,
                primary: true,
                share: 2,
                disabled: inside.length === 0 || cable === '',
                onPress: () => void say(),
              },
            ],
          ]}
        />
      }
    >
      {asked.type === 'ready' && all.length === 0 ? (
        <Empty
          what="No numbered landings are known here."
          why="The plan has no range on this jack, and nobody described the block."
          next={{
            text: 'Describe the block',
            onPress: () => {
              flow.mode.value = 'panel';
            },
          }}
        />
      ) : (
        <>
          <div class="desk-part">
            <p>
              You say that {inside.length} landings hold the pairs of{' '}
              {cable ? <CableLabel text={labelToShow(cable)} /> : 'a cable'} in{' '}
              {isOwn ? 'the station’s' : 'the standard'} order of colours. That proves none of them: they stay open, and
              what is seen or followed counts before it.
            </p>
            <Field
              label="First landing"
              ident
              inputMode="numeric"
              value={d.first}
              placeholder={all[0] ?? ''}
              onInput={(first) => set({ first })}
            />
            <Field
              label="Last landing"
              ident
              inputMode="numeric"
              value={d.last}
              placeholder={all.at(-1) ?? ''}
              onInput={(last) => set({ last })}
            />
            <Field
              label="Cable"
              ident
              value={d.label}
              placeholder={view.blind ? '' : (known?.label ?? '')}
              onInput={(label) => set({ label })}
            />
          </div>
          {known && !view.blind && (
            <>
              <SectionHead title="Known of its pairs" right={`to ${known.far}`} />
              <p class="desk-note">{known.words}</p>
              <SectionHead title="One pair was followed" />
              {wrong.value !== null && <ErrorBox what={wrong.value} todo="Nothing was said yet." />}
              <div class="desk-part">
                <Field
                  label={`Landing on ${unit.label}`}
                  ident
                  inputMode="numeric"
                  value={d.here}
                  onInput={(here) => set({ here })}
                />
                <Field
                  label={`Landing it goes to, ${known.far.split(' ')[0]}`}
                  ident
                  inputMode="numeric"
                  value={d.there}
                  onInput={(there) => set({ there })}
                />
                <PlainButton disabled={d.here.trim() === '' || d.there.trim() === ''} onPress={() => void pair()}>
                  Say it was followed
                </PlainButton>
              </div>
            </>
          )}
          <SectionHead title="The order" right={`${inside.length} landings`} />
          {order &&
            inside.map((landing, i) => {
              const { tip, ring } = pairToColours(i + 1, order);
              return (
                <Row
                  key={landing}
                  title={<span class="ident">{landing}</span>}
                  second={`Pair ${i + 1}: ${tip} with ${ring}`}
                />
              );
            })}
        </>
      )}
    </Screen>
  );
}

function lastOf(place: string): string {
  const parts = placeToParts(place);
  return parts.type === 'jack' ? parts.jack : place;
}

function between(all: readonly string[], from: string, to: string): string[] {
  const keys = all.map(nameToKey);
  const [a, b] = [keys.indexOf(nameToKey(from)), keys.indexOf(nameToKey(to))];
  return a < 0 || b < 0 ? [] : all.slice(Math.min(a, b), Math.max(a, b) + 1);
}
