// Places a unit: label, where it sits, its jacks tapped together or in one line, or copied from another one. The
// drawing follows while it is filled in. One event; corrected by another.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { jackToPlace, nameToKey } from '../../core/plan/identity.ts';
import { parseJacks } from '../../core/plan/jackNotation.ts';
import { type DescribedView, unitsInTheWay } from '../../core/report/describedView.ts';
import { useAsked, useServices } from '../context.ts';
import { CheckRow, Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { noteAct } from '../walkState.ts';
import { draftToRows, NEW_UNIT, type UnitDraft, unitToPayload, unitToU, unitTrouble } from './describeDraft.ts';
import { DescribeJacks } from './describeJacks.tsx';
import { InlineCamera } from './inlineCamera.tsx';
import { Stepper } from './stepper.tsx';

export function DescribeUnit({ view, label }: { view: DescribedView; label: string | null }) {
  const services = useServices();
  const { audit } = view;
  const key = `describe-unit:${audit}:${label ?? ''}`;
  const home = view.racks.find((rack) => rack.units.some((unit) => unit.label === label)) ?? latestRack(view);
  const known = home?.units.find((unit) => unit.label === label);
  const draft = useSignal<UnitDraft>({
    ...NEW_UNIT,
    ...(known ? { label: known.label, u: String(known.u ?? ''), heightU: known.heightU, mounted: known.face } : {}),
  });
  const tried = useSignal(false);
  const failed = useSignal<string | null>(null);
  const ready = useSignal(false);
  const set = (change: Partial<UnitDraft>) => {
    draft.value = { ...draft.value, ...change };
    services.saveDraft(key, draft.value);
  };
  // What is corrected starts from what was said; a draft that was being typed comes before it.
  const before = useAsked('like', { audit, label: label ?? '' });
  useEffect(() => {
    if (ready.value || (label !== null && before.type === 'loading')) return;
    ready.value = true;
    const like = label !== null && before.type === 'ready' ? before.value : null;
    void services.draft<UnitDraft>(key).then((kept) => {
      if (kept) draft.value = { ...draft.value, ...kept };
      else if (like) draft.value = { ...draft.value, notation: like.notation, face: like.face, through: like.through };
    });
  }, [before.type]);

  const d = draft.value;
  // A rack that was named a moment ago may not be in the answer yet: nothing is settled before somebody chooses.
  const rackId = d.rack ?? home?.id ?? '';
  const rack = view.racks.find(({ id }) => id === rackId);
  const trouble = unitTrouble(d, rack);
  const u = unitToU(d, rack);
  const inTheWay = rack && u !== null ? unitsInTheWay(rack, d.mounted, u, d.heightU, known?.label ?? '') : [];
  const same = view.units.find((one) => nameToKey(one) === nameToKey(d.label) && one !== label);
  const list = () => go({ screen: 'describe', audit, what: null, label: null }, 'replace');
  const keep = async (then: 'walk' | 'next') => {
    tried.value = true;
    if (trouble !== null) return;
    const payload = unitToPayload(d, rack, known?.events ?? []);
    const result = await services.record('unit-described', payload, { audit });
    if (result.event === '') {
      failed.value = result.type === 'not-saved' ? result.why : '';
      return;
    }
    await services.dropDraft(key);
    await noteAct(services, audit, result.event, `unit ${payload.label}, as described`);
    const [jack] = payload.faces[0]?.rows[0] ?? [];
    if (then === 'walk' && jack) {
      go({ screen: 'walk', audit, place: jackToPlace(nameToKey(payload.label), jack) }, 'replace');
    } else if (known) list();
    else {
      draft.value = { ...NEW_UNIT, rack: d.rack, room: d.room, mounted: d.mounted };
      tried.value = false;
    }
  };
  const jacks = parseJacks(d.notation).jacks.length;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to what is here', onPress: list }}
          cells={[
            {
              small: rack ? `Rack ${rack.label}` : 'Unit',
              big: known ? `Correct ${known.label}` : 'Describe a unit',
              heading: true,
            },
            ...(u !== null && rack ? [{ small: 'Sits at', big: `U${u}` }] : []),
          ]}
        />
      }
      foot={
        <TitleBlock
          rows={[
            [
              { small: 'Keep, and', big: 'Next unit', onPress: () => void keep('next') },
              {
                small: jacks > 0 ? `Keep it, ${jacks} ${jacks === 1 ? 'jack' : 'jacks'}` : 'Keep it, no jacks yet',
                big: jacks > 0 ? 'Walk its jacks' : 'Keep the unit',
                primary: true,
                share: 2,
                onPress: () => void keep(jacks > 0 ? 'walk' : 'next'),
              },
            ],
          ]}
        />
      }
    >
      {failed.value !== null && (
        <ErrorBox what="The unit was not kept." where={failed.value} todo="What you typed is still here. Try again." />
      )}
      {tried.value && trouble !== null && (
        <p class="describe-trouble" role="alert">
          {trouble}
        </p>
      )}
      <div class="desk-part">
        <Field
          label="Label on the unit"
          ident
          value={d.label}
          hint={same && !known ? `${same} is known already; jacks that it lacks are added to it.` : undefined}
          onInput={(text) => set({ label: text })}
        />
        <InlineCamera start="Scan the label" onText={(text) => set({ label: text })} />
        {view.racks.length > 0 && (
          <Choice
            legend="Where"
            value={rackId}
            options={[
              ...view.racks.map(({ id, label: text }) => ({ value: id, text })),
              { value: '', text: 'In a room' },
            ]}
            onChoose={(to) => set({ rack: to, u: '' })}
          />
        )}
        {rack ? (
          <>
            <Stepper
              label={rack.last ? `Free U below ${rack.last.label}` : 'Free U above it'}
              value={d.gap}
              least={0}
              most={rack.heightU}
              onChange={(gap) => set({ gap, u: '' })}
            />
            <Stepper
              label="Height in U"
              value={d.heightU}
              least={1}
              most={24}
              onChange={(heightU) => set({ heightU })}
            />
            <Field
              label="Lowest U it covers"
              inputMode="numeric"
              value={d.u}
              placeholder={u === null ? '' : String(u)}
              hint={
                inTheWay.length > 0
                  ? `${inTheWay.join(', ')} ${inTheWay.length === 1 ? 'is' : 'are'} there already by what is described.`
                  : 'Left blank, it follows from the steps above.'
              }
              onInput={(text) => set({ u: text })}
            />
            <Choice
              legend="Mounted at the"
              value={d.mounted}
              options={[
                { value: 'front', text: 'Front' },
                { value: 'rear', text: 'Rear' },
              ]}
              onChoose={(mounted) => set({ mounted })}
            />
          </>
        ) : (
          <Field label="Room, as it says on the door" value={d.room} onInput={(room) => set({ room })} />
        )}
      </div>
      <DescribeJacks audit={audit} draft={d} rows={draftToRows(d)} units={view.units} set={set} />
      <SectionHead title="If you like" />
      <div class="desk-part">
        <Field label="What it is" value={d.description} onInput={(description) => set({ description })} />
        <Field label="Serial number" ident value={d.serial} onInput={(serial) => set({ serial })} />
        <Field label="Hardware address" ident value={d.mac} onInput={(mac) => set({ mac })} />
        <CheckRow
          text="A through-panel"
          second="The same holes seen from both sides; from behind they are mirrored."
          checked={d.through}
          onChange={(through) => set({ through })}
        />
      </div>
    </Screen>
  );
}

/** The rack in which a unit was placed last, else the last one of the list. */
function latestRack(view: DescribedView) {
  return view.racks.findLast((rack) => rack.last !== null) ?? view.racks.at(-1);
}
