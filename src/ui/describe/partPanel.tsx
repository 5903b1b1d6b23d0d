// A panel, patchbay, block or trunk that the plan does not have: its holes or landings at once, both sides of a panel
// with the rear as it is seen from behind. One event, one undo.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { jackToPlace, type PlaceId } from '../../core/plan/identity.ts';
import { CONNECTOR_NAMES } from '../../core/record/jackWords.ts';
import { type PanelDraft, panelToPayload, trunkToSighting } from '../../core/report/walk/partPayloads.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { useAsked, useServices } from '../context.ts';
import { PANEL } from '../drafts/describeDrafts.ts';
import { FaceStrip } from '../parts/face-strip.tsx';
import { Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import { Stepper } from '../parts/stepper.tsx';
import { count as counted } from '../words.ts';
import { notSaved } from './describeWords.ts';
import { useFarPlace } from './farPlace.tsx';
import { keepPart } from './partFlow.ts';
import type { PartProps } from './partProps.ts';
import '../look/desk.css';
import '../look/describe.css';

type Kind = PanelDraft['form'];
const KINDS: Record<Kind, { text: string; second: string; count: string; connector: string; rows: number }> = {
  panel: { text: 'Panel', second: 'Holes seen from both sides', count: '24', connector: 'RJ45', rows: 1 },
  patchbay: { text: 'Patchbay', second: 'Front for leads, rear for cables', count: '48', connector: 'TT', rows: 2 },
  'punch-block': {
    text: 'Punch block',
    second: 'Landings, several wires each',
    count: '25',
    connector: 'IDC',
    rows: 1,
  },
  trunk: {
    text: 'Trunk',
    second: 'Pairs, fibres or cores from here to there',
    count: '25',
    connector: 'D-sub 50',
    rows: 1,
  },
};
/** So many holes or pairs at most in one act. */
const MOST = 512;

interface Draft extends Omit<PanelDraft, 'count' | 'u' | 'ends'> {
  count: string;
  u: string;
  /** First landing of a trunk here and, if known, at its other end. */
  first: string;
  far: string;
}

export default function PartPanel({ flow, view }: PartProps) {
  const services = useServices();
  const far = useFarPlace(flow.audit);
  const key = `panel:${flow.audit}` as const;
  const asked = useAsked('described', { audit: flow.audit });
  const racks = asked.type === 'ready' ? (asked.value?.racks ?? []) : [];
  const draft = useSignal<Draft>({
    ...{ form: 'panel', label: '', room: view.room ?? '', rack: view.rack === null ? '' : '?', u: '' },
    ...{ count: '24', rows: 1, connector: 'RJ45', sides: 'one', wires: 'pairs', first: '', far: '' },
  });
  const wrong = useSignal<string | null>(null);
  useEffect(() => {
    void services.draft(key, PANEL).then((kept) => {
      if (kept) draft.value = { ...draft.peek(), ...kept };
    });
  }, []);
  const set = (change: Partial<Draft>) => {
    draft.value = { ...draft.value, ...change };
    void services.saveDraft(key, draft.value, PANEL);
  };
  const d = draft.value;
  // Until somebody says otherwise it is in the rack one stands at.
  const here = racks.find(({ label }) => label === view.rack)?.id ?? '';
  const rack = d.rack === '?' ? here : d.rack;
  const count = Number(d.count);
  const u = Number(d.u);
  const whole = Number.isInteger(count) && count >= 1 && count <= MOST;
  const payload = panelToPayload({
    ...d,
    rack,
    count: whole ? count : 0,
    u: d.u.trim() !== '' && Number.isInteger(u) && u > 0 ? u : null,
  });
  const back = () => {
    flow.mode.value = 'walk';
  };
  /** Where the trunk lands, here first; null where one of its ends cannot be, which is said. */
  const trunkEnds = async () => {
    const ends: { place: PlaceId; words: string }[] = [];
    const here = d.first.trim();
    for (const text of [here === '' ? '' : `${view.unit.label} ${here}`, d.far.trim()]) {
      if (text === '' && ends.length > 0) continue;
      const first =
        text === ''
          ? { type: 'place' as const, place: view.current.place, words: view.current.jack }
          : await far.find(text);
      if (first.type === 'left') return null;
      const found =
        first.type === 'place'
          ? await services.ask('landings', { audit: flow.audit, place: first.place, count })
          : null;
      if (found && found.lacking === 0) ends.push(found);
      else {
        wrong.value = found
          ? `${found.words}: ${found.lacking} of these ${count} landings are not known there.`
          : `${text || view.current.jack} names no landing with a number.`;
        return null;
      }
    }
    return ends;
  };
  const keep = async () => {
    if (d.label.trim() === '') wrong.value = 'Enter its label.';
    else if (!whole) wrong.value = `How many: a whole number from 1 to ${MOST}.`;
    else {
      const ends = d.form === 'trunk' ? await trunkEnds() : [];
      if (ends === null) return;
      const [at] = ends;
      const trunk = panelToPayload({ ...d, rack: '', u: null, count, ends: ends.map(({ place }) => place) });
      const failed = at
        ? await keepPart(services, flow, trunk, [trunkToSighting(d.label, d.connector, at)])
        : await keepPart(services, flow, payload, []);
      if (failed !== null) {
        wrong.value = notSaved(failed);
        return;
      }
      void services.dropDraft(key);
      back();
      const [first] = payload.faces[0]?.rows[0] ?? [];
      if (first) await flow.moveTo(jackToPlace(nameToKey(payload.label), first));
    }
  };
  const what = KINDS[d.form];
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the jack', onPress: back }}
          cells={[{ small: 'Describe', big: 'Panel, block or trunk', heading: true, wide: true }]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Don’t record', big: 'Cancel', onPress: back },
              {
                small:
                  payload.jacks.length > 0
                    ? `${counted(payload.jacks.length, 'place')} to walk`
                    : (payload.description ?? ''),
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
      {far.question}
      {wrong.value !== null && <ErrorBox what={wrong.value} todo="What you typed is still here." />}
      <div class="desk-part">
        <Choice
          legend="What it is"
          stacked
          value={d.form}
          options={(Object.keys(KINDS) as Kind[]).map((form) => ({ value: form, ...KINDS[form] }))}
          onChoose={(form) => {
            const { count: usual, connector, rows } = KINDS[form];
            set({ form, count: usual, connector, rows });
          }}
        />
        <Field label="Its label" ident value={d.label} onInput={(label) => set({ label })} />
        <Field
          label={
            d.form === 'trunk'
              ? 'How many of them'
              : d.form === 'punch-block'
                ? 'Pairs, numbered from 1'
                : 'Holes, J1 and on'
          }
          inputMode="numeric"
          value={d.count}
          onInput={(text) => set({ count: text })}
        />
        {d.form === 'trunk' && (
          <>
            <Choice
              legend="What is in it"
              value={d.wires ?? 'pairs'}
              options={[
                { value: 'pairs' as const, text: 'Pairs' },
                { value: 'fibres' as const, text: 'Fibres' },
                { value: 'cores' as const, text: 'Cores' },
              ]}
              onChoose={(wires) => set({ wires })}
            />
            <Field
              label={`First landing here, on ${view.unit.label}`}
              ident
              value={d.first}
              placeholder={view.current.jack}
              onInput={(first) => set({ first })}
            />
            <Field
              label="First landing at the other end, if known"
              ident
              value={d.far}
              hint="For example: PP2 J1 rear. Whoever is there can describe the same trunk from that end."
              onInput={(far) => set({ far })}
            />
          </>
        )}
        {d.form !== 'trunk' && (
          <Stepper label="Rows" value={d.rows} least={1} most={12} onChange={(rows) => set({ rows })} />
        )}
        <Field
          label={d.form === 'trunk' ? 'Connector at both ends' : 'Connector'}
          value={d.connector}
          suggestions={CONNECTOR_NAMES}
          onInput={(connector) => set({ connector })}
        />
        {d.form === 'punch-block' && (
          <Choice
            legend="House and jumper side"
            value={d.sides}
            options={[
              { value: 'one' as const, text: 'One row of pairs' },
              { value: 'two' as const, text: 'Two sides, kept apart' },
            ]}
            onChoose={(sides) => set({ sides })}
          />
        )}
        {d.form !== 'trunk' && racks.length > 0 && (
          <Choice
            legend="Where"
            value={rack}
            options={[...racks.map(({ id, label }) => ({ value: id, text: label })), { value: '', text: 'In a room' }]}
            onChoose={(to) => set({ rack: to })}
          />
        )}
        {d.form !== 'trunk' && rack !== '' && (
          <Field label="Lowest U it takes up" inputMode="numeric" value={d.u} onInput={(text) => set({ u: text })} />
        )}
        {rack === '' && d.form !== 'trunk' && (
          <Field label="Room, as on the door" value={d.room} onInput={(room) => set({ room })} />
        )}
      </div>
      {whole && payload.faces.length > 0 && <SectionHead title="As you will see it" right={what.text} />}
      {whole &&
        payload.faces.map(({ face, rows, through }) => (
          <div key={face} class="describe-face">
            <FaceStrip
              unitLabel={d.label.trim() || '?'}
              heightU={1}
              rows={rows.map((row) =>
                row.map((label) => ({ place: label, label, connector: d.connector, state: 'unseen' as const })),
              )}
            />
            <p class="quiet">
              {face === 'front' ? 'From the front' : 'From behind'}: {rows[0]?.[0]} on your left
              {through && face === 'rear' ? ', mirrored' : ''}.
            </p>
          </div>
        ))}
    </Screen>
  );
}
