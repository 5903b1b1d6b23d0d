// One pair, fibre or core that was followed from its landing here to one at the far end, or two that are crossed. It
// records looks with both landings named; nothing here is claimed by order.

import { useSignal } from '@preact/signals';
import type { EventId, PlaceId } from '../../core/plan/identity.ts';
import { leadToSighting } from '../../core/report/walk/partPayloads.ts';
import { nameToKey } from '../../core/trade/names.ts';
import type { PairsHere } from '../../wire/pageParts.ts';
import { useServices } from '../context.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import type { WalkFlow } from '../walk/walkFlowType.ts';
import { keepTogether } from './partFlow.ts';

interface Draft {
  here: string;
  there: string;
}

export function PairFollowed(props: {
  flow: WalkFlow;
  unit: { id: string; label: string };
  known: PairsHere;
  draft: Draft;
  set: (change: Partial<Draft>) => void;
  back: () => void;
}) {
  const { flow, unit, known, draft, set, back } = props;
  const services = useServices();
  const wrong = useSignal<string | null>(null);
  const farUnit = known.farUnit ?? '';
  const here = landingIndex(known.labels, draft.here);
  const there = landingIndex(known.farLabels, draft.there);
  const named = draft.here.trim() !== '' && draft.there.trim() !== '';
  const end = (places: readonly PlaceId[], labels: readonly string[], label: string, i: number) => ({
    place: places[i] ?? '',
    words: `${label} ${labels[i]}`,
  });
  const joined = (from: number, to: number) =>
    leadToSighting(
      end(known.landings, known.labels, unit.label, from),
      end(known.farLandings, known.farLabels, farUnit, to),
      'followed',
    );
  const keep = async (both: boolean) => {
    if (here < 0 || there < 0) {
      wrong.value = `Type two landings: one of ${known.labels[0]} to ${known.labels.at(-1)} here, and the one it goes to.`;
      return;
    }
    const looks = both ? [joined(here, there), joined(there, here)] : [joined(here, there)];
    const events: EventId[] = [];
    for (const look of looks) events.push((await services.record('sighting', look, { audit: flow.audit })).event);
    const words = both
      ? `${known.labels[here]} and ${known.labels[there]} crossed`
      : `${known.labels[here]} followed to ${farUnit} ${known.farLabels[there]}`;
    wrong.value = await keepTogether(flow, events, words, `${known.label}: ${words}.`);
    if (wrong.value !== null) return;
    set({ here: '', there: '' });
    back();
  };
  return (
    <>
      <SectionHead title="One pair followed" />
      {wrong.value !== null && <ErrorBox what={wrong.value} todo="Nothing is recorded yet." />}
      <div class="desk-part">
        <Field label={`Landing on ${unit.label}`} ident value={draft.here} onInput={(text) => set({ here: text })} />
        <Field
          label={`Landing it goes to, ${farUnit}`}
          ident
          value={draft.there}
          onInput={(text) => set({ there: text })}
        />
        <PlainButton disabled={!named} onPress={() => void keep(false)}>
          Record it as followed
        </PlainButton>
        {named && here !== there && here >= 0 && there >= 0 && (
          <PlainButton onPress={() => void keep(true)}>
            Record {known.labels[here]} and {known.labels[there]} as crossed
          </PlainButton>
        )}
      </div>
    </>
  );
}

/** Where a landing is among these. A number alone names it where they bear letters too: 7 of J1 rear to J24 rear. */
export function landingIndex(labels: readonly string[], text: string): number {
  const keys = labels.map(nameToKey);
  const exact = keys.indexOf(nameToKey(text));
  if (exact >= 0 || !/^\s*\d+\s*$/.test(text)) return exact;
  return keys.findIndex((key) => Number(/\d+/.exec(key)?.[0] ?? Number.NaN) === Number(text));
}
