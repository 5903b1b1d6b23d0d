// A panel, patchbay, block or trunk that the plan does not have: its holes or landings at once, both sides of a panel
// with the rear as it is seen from behind. One event, one undo.
import { useSignal } from '@preact/signals';
import { jackToPlace, type PlaceId } from '../../core/plan/identity.ts';
import { panelToPayload, trunkToSighting } from '../../core/report/walk/partPayloads.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { useAsked, useServices } from '../context.ts';
import { PANEL } from '../drafts/describeDrafts.ts';
import { useDraft } from '../drafts/useDraft.ts';
import { FaceStrip } from '../parts/face-strip.tsx';
import { SectionHead } from '../parts/rows.tsx';
import type { WalkFlow } from '../walk/walkFlowType.ts';
import { count as counted } from '../words.ts';
import { notSaved } from './describeWords.ts';
import { useFarPlace } from './farPlace.tsx';
import { keepPart } from './partFlow.ts';
import { newPanel, PANEL_KINDS, PanelFields, type PanelForm } from './partPanelFields.tsx';
import { backToJack, type PartProps, PartSheet } from './partSheet.tsx';

/** So many holes or pairs at most in one act. */
const MOST = 512;

export default function PartPanel({ flow, view }: PartProps) {
  const services = useServices();
  const trunk = useTrunkEnds(flow, view);
  const asked = useAsked('described', { audit: flow.audit });
  const racks = asked.type === 'ready' ? (asked.value?.racks ?? []) : [];
  const { now: d, set, drop } = useDraft<PanelForm>(`panel:${flow.audit}`, PANEL, newPanel(view));
  const wrong = useSignal<string | null>(null);
  // Until somebody says otherwise it is in the rack one stands at.
  const rack = d.rack === '?' ? (racks.find(({ label }) => label === view.rack)?.id ?? '') : d.rack;
  const [count, u] = [toWhole(d.count, MOST), toWhole(d.u, Number.MAX_SAFE_INTEGER)];
  const payload = panelToPayload({ ...d, rack, count: count ?? 0, u });
  /** @returns why it is not kept; null when it was, and when a question was left. */
  const keep = async (): Promise<string | null> => {
    if (d.label.trim() === '') return 'Enter its label.';
    if (count === null) return `How many: a whole number from 1 to ${MOST}.`;
    const landed = d.form === 'trunk' ? await trunk.find(d, count) : { ends: [] };
    if (!('ends' in landed)) return landed.why;
    const [at] = landed.ends;
    const ends = landed.ends.map(({ place }) => place);
    const failed = at
      ? await keepPart(services, flow, panelToPayload({ ...d, rack: '', u: null, count, ends }), [
          trunkToSighting(d.label, d.connector, at),
        ])
      : await keepPart(services, flow, payload, []);
    if (failed !== null) return notSaved(failed);
    drop();
    backToJack(flow);
    const [first] = payload.faces[0]?.rows[0] ?? [];
    if (first) await flow.moveTo(jackToPlace(nameToKey(payload.label), first));
    return null;
  };
  return (
    <PartSheet
      flow={flow}
      about="Describe"
      title="Panel, block or trunk"
      wrong={wrong.value}
      act={{
        small:
          payload.jacks.length > 0 ? `${counted(payload.jacks.length, 'place')} to walk` : (payload.description ?? ''),
        big: 'Save',
        onPress: async () => {
          wrong.value = await keep();
        },
      }}
    >
      {trunk.question}
      <PanelFields form={d} set={set} racks={racks} rack={rack} unit={view.unit.label} jack={view.current.jack} />
      {count !== null && payload.faces.length > 0 && <Preview form={d} faces={payload.faces} />}
    </PartSheet>
  );
}

/** A whole number from 1 on; null where the text is none or beyond `most`. */
function toWhole(text: string, most: number): number | null {
  const number = text.trim() === '' ? 0 : Number(text);
  return Number.isInteger(number) && number >= 1 && number <= most ? number : null;
}

type Ends = { ends: { place: PlaceId; words: string }[] } | { why: string | null };

/** Finds where a trunk lands, here first; the reason where one of its ends cannot be, or none when it was asked and left. */
function useTrunkEnds(flow: WalkFlow, view: WalkView) {
  const services = useServices();
  const far = useFarPlace(flow.audit);
  const find = async (form: PanelForm, count: number): Promise<Ends> => {
    const ends: { place: PlaceId; words: string }[] = [];
    const here = form.first.trim();
    for (const text of [here === '' ? '' : `${view.unit.label} ${here}`, form.far.trim()]) {
      if (text === '' && ends.length > 0) continue;
      const first =
        text === ''
          ? { type: 'place' as const, place: view.current.place, words: view.current.jack }
          : await far.find(text);
      if (first.type === 'left') return { why: null };
      const found =
        first.type === 'place'
          ? await services.ask('landings', { audit: flow.audit, place: first.place, count })
          : null;
      if (!found) return { why: `${text || view.current.jack} names no landing with a number.` };
      if (found.lacking > 0)
        return { why: `${found.words}: ${found.lacking} of these ${count} landings are not known there.` };
      ends.push(found);
    }
    return { ends };
  };
  return { find, question: far.question };
}

function Preview({ form, faces }: { form: PanelForm; faces: ReturnType<typeof panelToPayload>['faces'] }) {
  return (
    <>
      <SectionHead title="As you will see it" right={PANEL_KINDS[form.form].text} />
      {faces.map(({ face, rows, through }) => (
        <div key={face} class="describe-face">
          <FaceStrip
            unitLabel={form.label.trim() || '?'}
            heightU={1}
            rows={rows.map((row) =>
              row.map((label) => ({ place: label, label, connector: form.connector, state: 'unseen' as const })),
            )}
          />
          <p class="quiet">
            {face === 'front' ? 'From the front' : 'From behind'}: {rows[0]?.[0]} on your left
            {through && face === 'rear' ? ', mirrored' : ''}.
          </p>
        </div>
      ))}
    </>
  );
}
