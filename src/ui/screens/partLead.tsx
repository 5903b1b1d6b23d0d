// A patch lead from jack to jack by two taps on the drawing, or no leads at all in this bay by one act. Nothing is
// pulled to see where it goes.
import { useSignal } from '@preact/signals';
import { leadToSighting } from '../../core/report/partPayloads.ts';
import { useServices } from '../context.ts';
import { Field } from '../parts/form.tsx';
import { Permission, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { SweepFace } from '../parts/sweep-face.tsx';
import { withdrawalsAt } from '../walkState.ts';
import type { PartProps } from './partOver.tsx';
import { permitted } from './walkFace.tsx';

export default function PartLead({ flow, view }: PartProps) {
  const services = useServices();
  const from = useSignal<string | null>(null);
  const to = useSignal<string | null>(null);
  const elsewhere = useSignal('');
  const basis = useSignal<'followed' | 'seen'>('followed');
  const wrong = useSignal<string | null>(null);
  const all = view.face.rows.flat();
  const words = (place: string) => {
    const jack = all.find((one) => one.place === place);
    return jack ? `${view.unit.label} ${jack.label}` : place;
  };
  const open = all.filter(({ state }) => state === 'unseen');
  const back = () => {
    flow.mode.value = 'walk';
  };
  const press = (place: string) => {
    wrong.value = null;
    if (from.value === null || to.value !== null || from.value === place) {
      from.value = from.value === place ? null : place;
      to.value = null;
    } else to.value = place;
  };
  const say = async () => {
    const first = from.value;
    if (first === null) return;
    const text = elsewhere.value.trim();
    const second =
      to.value !== null
        ? { place: to.value, words: words(to.value) }
        : text !== ''
          ? await services.ask('place', { audit: flow.audit, text })
          : null;
    if (!second) {
      wrong.value = `“${text}” names no jack. Write unit and jack: PB1 J27.`;
      return;
    }
    const said = leadToSighting({ place: first, words: words(first) }, second, basis.value);
    const withdraws = withdrawalsAt(flow.memory.value.visit ?? { unit: '', looks: [] }, said.places);
    await flow.keep({ ...said, ...(withdraws.length > 0 ? { withdraws } : {}) });
    back();
  };
  const none = () => {
    back();
    const places = open.map(({ place }) => ({ place, words: words(place) }));
    void flow.say({ places, state: 'empty', by: 'tapped' });
  };
  const ready = from.value !== null && (to.value !== null || elsewhere.value.trim() !== '');
  const label = (place: string | null) => all.find((one) => one.place === place)?.label ?? '–';
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: back }}
          cells={[
            { small: view.unit.label, big: 'Patch lead', heading: true, wide: true },
            { small: 'Left here', big: String(view.leftHere) },
          ]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              {
                small: 'From end to end',
                big: 'Followed by eye',
                pressed: basis.value === 'followed',
                onPress: () => {
                  basis.value = 'followed';
                },
              },
              {
                small: 'Both plugs, not the way',
                big: 'Only seen',
                pressed: basis.value === 'seen',
                onPress: () => {
                  basis.value = 'seen';
                },
              },
            ],
            [
              {
                small: open.length === 0 ? 'Every jack was said' : `${open.length} jacks not said, one act`,
                big: 'No leads in this bay',
                disabled: open.length === 0,
                onPress: none,
              },
              {
                small: ready ? 'One act, one undo' : 'Touch one jack, then the other',
                big: ready
                  ? `${label(from.value)} to ${to.value === null ? elsewhere.value.trim() : label(to.value)}`
                  : 'Nothing chosen',
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
      <Permission {...permitted(view)} />
      {wrong.value !== null && <ErrorBox what={wrong.value} todo="Touch the other jack, or write it anew." />}
      <div class="walk-face">
        <SweepFace
          unitLabel={view.unit.label}
          rows={view.face.rows}
          heightU={view.unit.heightU}
          mirrored={view.face.mirrored}
          blind={view.blind}
          range={
            from.value === null
              ? undefined
              : {
                  first: from.value,
                  last: to.value ?? from.value,
                  without: all.map(({ place }) => place).filter((place) => place !== from.value && place !== to.value),
                }
          }
          onPress={press}
        />
        <p class="walk-words">{view.sideWords} Pull nothing to see where it goes.</p>
      </div>
      {from.value !== null && to.value === null && (
        <Field
          label="Its other end is in another unit"
          ident
          value={elsewhere.value}
          hint="Unit and jack. Or touch the other jack above."
          onInput={(text) => {
            elsewhere.value = text;
          }}
        />
      )}
    </Screen>
  );
}
