// A patch lead from jack to jack by two taps on the drawing, or no leads at all in this bay by one act. Nothing is
// pulled to see where it goes.

import { useSignal } from '@preact/signals';
import type { PlaceId } from '../../core/plan/identity.ts';
import { leadToSighting } from '../../core/report/walk/partPayloads.ts';
import { LEAD } from '../drafts/describeDrafts.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { Field } from '../parts/form.tsx';
import { Permission, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { SweepFace } from '../parts/sweep-face.tsx';
import { permitted } from '../walk/walkFace.tsx';
import { count } from '../words.ts';
import { useFarPlace } from './farPlace.tsx';
import type { PartProps } from './partProps.ts';

interface Draft {
  from: string | null;
  to: string | null;
  elsewhere: string;
  basis: 'followed' | 'seen';
}
const NEW: Draft = { from: null, to: null, elsewhere: '', basis: 'followed' };

export default function PartLead({ flow, view }: PartProps) {
  const far = useFarPlace(flow.audit);
  const { now: d, set, drop } = useDraft(`lead:${flow.audit}:${view.unit.id}`, LEAD, NEW);
  const wrong = useSignal<string | null>(null);
  const all = view.face.rows.flat();
  const words = (place: PlaceId) => {
    const jack = all.find((one) => one.place === place);
    return jack ? `${view.unit.label} ${jack.label}` : place;
  };
  const open = all.filter(({ state }) => state === 'unseen');
  const back = () => {
    flow.mode.value = 'walk';
  };
  const press = (place: PlaceId) => {
    wrong.value = null;
    if (d.from === null || d.to !== null || d.from === place) set({ from: d.from === place ? null : place, to: null });
    else set({ to: place });
  };
  const say = async () => {
    const first = d.from;
    if (first === null) return;
    const text = d.elsewhere.trim();
    const second = d.to !== null ? { type: 'place' as const, place: d.to, words: words(d.to) } : await far.find(text);
    if (second.type !== 'place') {
      if (second.type === 'unreadable') wrong.value = `“${text}” names no jack. Type unit and jack: PB1 J27.`;
      return;
    }
    if (second.place === first) {
      wrong.value = `${second.words} is this jack itself. Enter where the other end is.`;
      return;
    }
    const { place, words: there } = second;
    const said = leadToSighting({ place: first, words: words(first) }, { place, words: there }, d.basis);
    await flow.state(said);
    drop();
    back();
  };
  const none = () => {
    back();
    const places = open.map(({ place }) => ({ place, words: words(place) }));
    void flow.say({ places, state: 'empty', by: 'tapped' });
  };
  const ready = d.from !== null && (d.to !== null || d.elsewhere.trim() !== '');
  const label = (place: PlaceId | null) => all.find((one) => one.place === place)?.label ?? '–';
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: back }}
          cells={[
            { small: view.unit.label, big: 'Patch lead', heading: true, wide: true },
            { small: 'To go', big: String(view.leftHere) },
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
                pressed: d.basis === 'followed',
                onPress: () => set({ basis: 'followed' }),
              },
              {
                small: 'Both plugs, not the lead',
                big: 'Only seen',
                pressed: d.basis === 'seen',
                onPress: () => set({ basis: 'seen' }),
              },
            ],
            [
              {
                small: open.length === 0 ? 'Every jack has an entry' : `${count(open.length, 'jack')} without an entry`,
                big: 'Record: no leads in this bay',
                disabled: open.length === 0,
                onPress: none,
              },
              {
                small: ready ? 'Record, one Undo takes it back' : 'Touch one jack, then the other',
                big: ready
                  ? `${label(d.from)} to ${d.to === null ? d.elsewhere.trim() : label(d.to)}`
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
      {far.question}
      <Permission
        {...permitted(view)}
        onPress={() => {
          flow.sheet.value = { type: 'permission' };
        }}
      />
      {wrong.value !== null && <ErrorBox what={wrong.value} todo="Touch the other jack, or type it again." />}
      <div class="walk-face">
        <SweepFace
          unitLabel={view.unit.label}
          rows={view.face.rows}
          heightU={view.unit.heightU}
          mirrored={view.face.mirrored}
          blind={view.blind}
          range={
            d.from === null
              ? undefined
              : {
                  first: d.from,
                  last: d.to ?? d.from,
                  without: all.map(({ place }) => place).filter((place) => place !== d.from && place !== d.to),
                }
          }
          onPress={press}
        />
        <p class="walk-words">{view.sideWords} Do not unplug it to see where it goes.</p>
      </div>
      {d.from !== null && d.to === null && (
        <Field
          label="Its other end is in another unit"
          ident
          value={d.elsewhere}
          hint="Unit and jack. Or touch the other jack above."
          onInput={(elsewhere) => set({ elsewhere })}
        />
      )}
    </Screen>
  );
}
