// Places a unit: label, where it sits, its jacks tapped together or in one line, or copied from another one. The
// drawing follows while it is filled in. One event; corrected by another.
import { useSignal } from '@preact/signals';
import { jackToPlace } from '../../core/plan/identity.ts';
import type { UnitSaid } from '../../core/record/described.ts';
import { parseJacks } from '../../core/record/jackNotation.ts';
import { type DescribedView, unitsInTheWay } from '../../core/report/describedView.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { useAsked, useServices } from '../context.ts';
import { UNIT } from '../drafts/describeDrafts.ts';
import { CheckRow, Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import { Stepper } from '../parts/stepper.tsx';
import { InlineCamera } from '../photos/inlineCamera.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { count, list } from '../words.ts';
import {
  NEW_UNIT,
  saidToDraft,
  type UnitDraft,
  unitToPayload,
  unitToU,
  unitTrouble,
  type Where,
  whereOf,
} from './describeDraft.ts';
import { GoneQuestion } from './describeGone.tsx';
import { DescribeJacks } from './describeJacks.tsx';
import { KeptLine, noteKept } from './describeKept.tsx';
import { unitDraftKey, useKeptDraft } from './describeStart.ts';

/** What is corrected starts from what was said; a draft that was being typed comes before it. */
export function DescribeUnit({ view, label }: { view: DescribedView; label: string | null }) {
  const kept = useKeptDraft(unitDraftKey(view.audit, label), UNIT);
  const like = useAsked('like', { audit: view.audit, label: label ?? '' });
  if (kept.type === 'loading') return <NoAnswer title="Describe" asked={kept} missing="" />;
  if (label !== null && like.type !== 'ready') return <NoAnswer title="Describe" asked={like} missing="" />;
  const before = label !== null && like.type === 'ready' ? (like.value?.own ?? null) : null;
  return <UnitForm view={view} label={label} before={before} kept={kept.draft} />;
}

function UnitForm(props: {
  view: DescribedView;
  label: string | null;
  before: UnitSaid | null;
  kept: UnitDraft | null;
}) {
  const { view, label, before } = props;
  const services = useServices();
  const { audit } = view;
  const key = unitDraftKey(audit, label);
  const draft = useSignal<UnitDraft>({
    ...NEW_UNIT,
    ...(before ? saidToDraft(before) : { label: label ?? '' }),
    ...props.kept,
  });
  const tried = useSignal(false);
  const saving = useSignal(false);
  const failed = useSignal<string | null>(null);
  const set = (change: Partial<UnitDraft>) => {
    draft.value = { ...draft.value, ...change };
    void services.saveDraft(key, draft.value, UNIT);
  };

  const d = draft.value;
  const units = [...view.racks, ...view.elsewhere].flatMap((group) => group.units);
  const known = before ? units.find((unit) => unit.label === label) : undefined;
  const usual = view.racks.find(({ id }) => id === view.usual) ?? view.racks.at(-1) ?? null;
  const where = whereOf(d, view, usual);
  const rack = where.type === 'rack' ? where.rack : null;
  const trouble = unitTrouble(d, where, before, known?.id ?? '');
  const u = rack && unitToU(d, rack, before);
  // A rack that was named a moment ago may not be in the answer yet: nothing is kept before it is.
  const isWaiting = saving.value || (where.type === 'missing' && before?.rack !== where.rack);
  const same = view.units.find((one) => nameToKey(one) === nameToKey(d.label) && one !== label);
  const inTheWay = rack && u !== null ? unitsInTheWay(rack, d.mounted, u, d.heightU, known?.id ?? '') : [];
  const moved = before?.rack !== rack?.id || before?.u !== u || before?.heightU !== d.heightU;
  const planned = moved ? inTheWay.filter(({ events }) => events.length === 0) : [];
  const asking = useSignal<'walk' | 'next' | null>(null);
  const list = () => go({ screen: 'describe', audit, what: null, label: null }, 'replace');
  const keep = async (then: 'walk' | 'next', gone?: boolean) => {
    tried.value = true;
    if (trouble !== null || isWaiting) return;
    asking.value = planned.length > 0 && gone === undefined ? then : null;
    if (asking.value !== null) return;
    saving.value = true;
    const ids = gone ? planned.map(({ id }) => id) : moved ? [] : undefined;
    const payload = unitToPayload(d, where, before, known?.events ?? [], ids);
    const result = await services.record('unit-described', payload, { audit });
    if (result.event === '') {
      saving.value = false;
      failed.value = result.type === 'not-saved' ? result.why : '';
      return;
    }
    failed.value = null;
    await services.dropDraft(key);
    await noteKept(services, audit, result.event, payload.label + placeToWords(where, payload));
    // The next U is counted from this unit: only an answer that knows of it may offer one.
    await services.ask('described', { audit }).catch(() => null);
    saving.value = false;
    const [jack] = payload.faces[0]?.rows[0] ?? [];
    if (then === 'walk' && jack) {
      go({ screen: 'walk', audit, place: jackToPlace(nameToKey(payload.label), jack) }, 'replace');
    } else if (label !== null) list();
    else {
      draft.value = { ...NEW_UNIT, rack: payload.rack ?? '', room: d.room, mounted: d.mounted, group: d.group };
      tried.value = false;
    }
  };
  const jacks = parseJacks(d.notation).jacks.length;
  const wait = where.type === 'missing' && isWaiting ? `Waiting for rack ${where.rack}` : null;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to what is here', onPress: list }}
          cells={[
            {
              small: rack ? `Rack ${rack.label}` : 'Unit',
              big: before ? `Correct ${before.label}` : 'Describe a unit',
              heading: true,
            },
            ...(u === null ? [] : [{ small: 'Position', big: `U${u}` }]),
          ]}
        />
      }
      above={
        asking.value !== null && planned.length > 0 && u !== null && trouble === null ? (
          <GoneQuestion
            label={d.label.trim()}
            u={u}
            planned={planned}
            answer={(gone) => void keep(asking.value ?? 'next', gone)}
          />
        ) : tried.value && trouble !== null ? (
          <p class="describe-trouble" role="alert">
            {trouble}
          </p>
        ) : (
          // Once the next unit is begun the line gives way to it; the list and the walk keep the undo.
          label === null && d.label === '' && d.notation === '' && <KeptLine view={view} />
        )
      }
      foot={
        <TitleBlock
          rows={[
            [
              {
                small: wait ?? 'Save, then',
                big: before ? 'Back to the list' : 'Next unit',
                disabled: isWaiting,
                onPress: () => void keep('next'),
              },
              {
                small: wait ?? (jacks > 0 ? `Save, ${count(jacks, 'jack')}` : 'Save, no jacks yet'),
                big: jacks > 0 ? 'Walk its jacks' : 'Save the unit',
                primary: true,
                share: 2,
                disabled: isWaiting,
                onPress: () => void keep(jacks > 0 ? 'walk' : 'next'),
              },
            ],
          ]}
        />
      }
    >
      {failed.value !== null && (
        <ErrorBox what="The unit was not saved." where={failed.value} todo="What you typed is still here. Try again." />
      )}
      <div class="desk-part">
        <Field
          label="Label on the unit"
          ident
          value={d.label}
          hint={labelHint(same, before, known?.said ?? 0, d.label)}
          onInput={(text) => set({ label: text })}
        />
        <InlineCamera start="Scan the label" onText={(text) => set({ label: text })} />
        {before?.at !== undefined ? (
          <p>Attached to {known?.at ?? before.at}. To change where, go to that jack.</p>
        ) : (
          <Place view={view} draft={d} where={where} before={before} own={known?.id ?? ''} set={set} />
        )}
      </div>
      <DescribeJacks audit={audit} draft={d} before={before} units={view.units} set={set} />
      <SectionHead title="Optional" />
      <div class="desk-part">
        <Field label="What it is" value={d.description} onInput={(description) => set({ description })} />
        <Field label="Serial number" ident value={d.serial} onInput={(serial) => set({ serial })} />
        <Field label="MAC address" ident value={d.mac} onInput={(mac) => set({ mac })} />
        <CheckRow
          text="A through-panel"
          second="The same holes from both sides; from behind they are mirrored."
          checked={d.through}
          onChange={(through) => set({ through })}
        />
      </div>
    </Screen>
  );
}

/** A label that is known already, or one that leaves the old one's statements behind. */
function labelHint(same: string | undefined, before: UnitSaid | null, said: number, label: string): string | undefined {
  if (same !== undefined)
    return before
      ? `${same} is another unit in the record; saving makes the two one.`
      : `${same} is already in the record; jacks it does not have yet are added to it.`;
  if (!before || said === 0 || nameToKey(label) === nameToKey(before.label)) return undefined;
  return `Entries at ${count(said, 'jack')} of it stay under ${before.label}.`;
}

/** Where it stands: a rack with its U and side, or a room. */
function Place(props: {
  view: DescribedView;
  draft: UnitDraft;
  where: Where;
  before: UnitSaid | null;
  own: string;
  set: (change: Partial<UnitDraft>) => void;
}) {
  const { view, draft: d, where, before, own, set } = props;
  const rack = where.type === 'rack' ? where.rack : null;
  const u = rack && unitToU(d, rack, before);
  const chosen = where.type === 'rack' ? where.rack.id : where.type === 'missing' ? where.rack : '';
  const inTheWay = rack && u !== null ? unitsInTheWay(rack, d.mounted, u, d.heightU, own) : [];
  const taken = inTheWay.filter(({ events }) => events.length > 0).map(({ label }) => label);
  const planned = inTheWay.filter(({ events }) => events.length === 0).map(({ label }) => label);
  const isOffered = rack !== null && before?.rack !== rack.id;
  const words = (labels: readonly string[]) => `${list(labels)} ${labels.length === 1 ? 'is' : 'are'} there`;
  return (
    <>
      {(view.racks.length > 0 || where.type === 'missing') && (
        <Choice
          legend="Where"
          value={chosen}
          options={[
            ...view.racks.map(({ id, label: text }) => ({ value: id, text })),
            ...(where.type === 'missing' ? [{ value: where.rack, text: `${where.rack}, not named yet` }] : []),
            { value: '', text: 'In a room' },
          ]}
          onChoose={(to) => set({ rack: to, u: '' })}
        />
      )}
      {where.type === 'room' && <Field label="Room, as on the door" value={d.room} onInput={(room) => set({ room })} />}
      {isOffered && (
        <Stepper
          label={rack.last ? `U left free below ${rack.last.label}` : 'U left free above it'}
          value={d.gap}
          least={0}
          most={rack.heightU}
          onChange={(gap) => set({ gap, u: '' })}
        />
      )}
      {where.type !== 'room' && (
        <Stepper label="Height in U" value={d.heightU} least={1} most={24} onChange={(heightU) => set({ heightU })} />
      )}
      {rack && (
        <>
          <Field
            label="Lowest U it takes up"
            inputMode="numeric"
            value={d.u}
            placeholder={u === null ? '' : String(u)}
            error={
              taken.length > 0
                ? `${words(taken)} already, as described. Only one unit fits in a U on each side.`
                : undefined
            }
            hint={
              planned.length > 0
                ? `In the plan ${words(planned)}; what you see counts.`
                : isOffered
                  ? 'Left blank: the next free U, by the steps above.'
                  : 'Left blank: no U is recorded.'
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
      )}
    </>
  );
}

/** " at U30", " in R 9", " in Studio 3": where it was kept, in words. */
function placeToWords(where: Where, { u, room, at }: Pick<UnitSaid, 'u' | 'room' | 'at'>): string {
  if (at !== undefined) return '';
  if (u !== undefined) return ` at U${u}`;
  if (where.type === 'rack') return ` in ${where.rack.label}`;
  if (where.type === 'missing') return ` in ${where.rack}`;
  return room ? ` in ${room}` : ' in a room';
}
