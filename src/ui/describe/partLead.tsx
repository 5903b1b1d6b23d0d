// A patch lead from jack to jack by two taps on the drawing, or no leads at all in this bay by one act. Nothing is
// pulled to see where it goes.

import { useSignal } from '@preact/signals';
import type { PlaceId } from '../../core/plan/identity.ts';
import { leadToSighting } from '../../core/report/walk/partPayloads.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { LEAD } from '../drafts/describeDrafts.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { Field } from '../parts/form.tsx';
import { type CellProps, Permission, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox } from '../parts/rows.tsx';
import { SweepFace } from '../parts/sweep-face.tsx';
import { permitted } from '../walk/walkFace.tsx';
import type { WalkFlow } from '../walk/walkFlowType.ts';
import { count } from '../words.ts';
import { useFarPlace } from './farPlace.tsx';
import { backToJack, type PartProps } from './partSheet.tsx';

interface Draft {
  from: string | null;
  to: string | null;
  elsewhere: string;
  basis: 'followed' | 'seen';
}
const NEW: Draft = { from: null, to: null, elsewhere: '', basis: 'followed' };

export default function PartLead({ flow, view }: PartProps) {
  const lead = useLead(flow, view);
  const { now: d, set, open } = lead;
  const ready = d.from !== null && (d.to !== null || d.elsewhere.trim() !== '');
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: () => backToJack(flow) }}
          cells={[
            { small: view.unit.label, big: 'Patch lead', heading: true, wide: true },
            { small: 'To go', big: String(view.leftHere) },
          ]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            basisCells(d.basis, (basis) => set({ basis })),
            [
              {
                small: open.length === 0 ? 'Every jack has an entry' : `${count(open.length, 'jack')} without an entry`,
                big: 'Record: no leads in this bay',
                disabled: open.length === 0,
                onPress: lead.none,
              },
              {
                small: ready ? 'Record, one Undo takes it back' : 'Touch one jack, then the other',
                big: ready ? lead.words : 'Nothing chosen',
                primary: true,
                share: 2,
                disabled: !ready,
                onPress: () => void lead.say(),
              },
            ],
          ]}
        />
      }
    >
      {lead.question}
      <Permission
        {...permitted(view)}
        onPress={() => {
          flow.sheet.value = { type: 'permission' };
        }}
      />
      {lead.wrong !== null && <ErrorBox what={lead.wrong} todo="Touch the other jack, or type it again." />}
      <Bay view={view} from={d.from} to={d.to} press={lead.press} />
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

/** The two ends as they are chosen, and what records them. */
function useLead(flow: WalkFlow, view: WalkView) {
  const far = useFarPlace(flow.audit);
  const { now: d, set, drop } = useDraft(`lead:${flow.audit}:${view.unit.id}`, LEAD, NEW);
  const wrong = useSignal<string | null>(null);
  const all = view.face.rows.flat();
  const label = (place: PlaceId | null) => all.find((one) => one.place === place)?.label ?? '–';
  const atPlace = (place: PlaceId) => ({ place, words: `${view.unit.label} ${label(place)}` });
  const open = all.filter(({ state }) => state === 'unseen').map(({ place }) => place);
  const press = (place: PlaceId) => {
    wrong.value = null;
    if (d.from === null || d.to !== null || d.from === place) set({ from: d.from === place ? null : place, to: null });
    else set({ to: place });
  };
  const say = async () => {
    if (d.from === null) return;
    const text = d.elsewhere.trim();
    const other = d.to === null ? await far.find(text) : { type: 'place' as const, ...atPlace(d.to) };
    if (other.type === 'unreadable') wrong.value = `“${text}” names no jack. Type unit and jack: PB1 J27.`;
    if (other.type !== 'place') return;
    if (other.place === d.from) {
      wrong.value = `${other.words} is this jack itself. Enter where the other end is.`;
      return;
    }
    await flow.state(leadToSighting(atPlace(d.from), { place: other.place, words: other.words }, d.basis));
    drop();
    backToJack(flow);
  };
  const none = () => {
    backToJack(flow);
    void flow.say({ places: open.map(atPlace), state: 'empty', by: 'tapped' });
  };
  const words = `${label(d.from)} to ${d.to === null ? d.elsewhere.trim() : label(d.to)}`;
  return { now: d, set, open, words, wrong: wrong.value, question: far.question, press, say, none };
}

function basisCells(basis: Draft['basis'], choose: (basis: Draft['basis']) => void): CellProps[] {
  return [
    {
      small: 'From end to end',
      big: 'Followed by eye',
      pressed: basis === 'followed',
      onPress: () => choose('followed'),
    },
    { small: 'Both plugs, not the lead', big: 'Only seen', pressed: basis === 'seen', onPress: () => choose('seen') },
  ];
}

/** The jacks of this bay, the two that are chosen marked. */
function Bay(props: { view: WalkView; from: PlaceId | null; to: PlaceId | null; press: (place: PlaceId) => void }) {
  const { view, from, to } = props;
  const places = view.face.rows.flat().map(({ place }) => place);
  const without = places.filter((place) => place !== from && place !== to);
  return (
    <div class="walk-face">
      <SweepFace
        unitLabel={view.unit.label}
        rows={view.face.rows}
        heightU={view.unit.heightU}
        mirrored={view.face.mirrored}
        blind={view.blind}
        range={from === null ? undefined : { first: from, last: to ?? from, without }}
        onPress={props.press}
      />
      <p class="walk-words">{view.sideWords} Do not unplug it to see where it goes.</p>
    </div>
  );
}
