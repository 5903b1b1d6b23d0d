// Places a unit: label, where it sits, its jacks tapped together or in one line, or copied from another one. The
// drawing follows while it is filled in. One event; corrected by another.
import { parseJacks } from '../../core/record/jackNotation.ts';
import type { DescribedView } from '../../core/report/describedView.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { useAsked } from '../context.ts';
import { UNIT } from '../drafts/describeDrafts.ts';
import { CheckRow, Choice, Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, SectionHead } from '../parts/rows.tsx';
import { Stepper } from '../parts/stepper.tsx';
import { InlineCamera } from '../photos/inlineCamera.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { count } from '../words.ts';
import type { UnitDraft } from './describeDraft.ts';
import { GoneQuestion } from './describeGone.tsx';
import { DescribeJacks } from './describeJacks.tsx';
import { KeptLine } from './describeKept.tsx';
import { unitDraftKey, useKeptDraft } from './describeStart.ts';
import { type UnitFacts, type UnitFormProps, useUnitForm } from './describeUnitForm.ts';
import { plannedToWords, takenToWords } from './describeWords.ts';

/** What is corrected starts from what was said; a draft that was being typed comes before it. */
export function DescribeUnit({ view, label }: { view: DescribedView; label: string | null }) {
  const kept = useKeptDraft(unitDraftKey(view.audit, label), UNIT);
  const like = useAsked('like', { audit: view.audit, label: label ?? '' });
  if (kept.type === 'loading') return <NoAnswer title="Describe" asked={kept} missing="" />;
  if (label !== null && like.type !== 'ready') return <NoAnswer title="Describe" asked={like} missing="" />;
  const before = label !== null && like.type === 'ready' ? (like.value?.own ?? null) : null;
  return <UnitForm view={view} label={label} before={before} kept={kept.draft} />;
}

function UnitForm(props: UnitFormProps) {
  const { view, label, before } = props;
  const form = useUnitForm(props);
  const { draft: d, set, isWaiting } = form;
  const { rack, u, known, where } = form.facts;
  const jacks = parseJacks(d.notation).jacks.length;
  const wait = where.type === 'missing' && isWaiting ? `Waiting for rack ${where.rack}` : null;
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to what is here', onPress: form.list }}
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
      above={<AboveKeys form={form} view={view} isNew={label === null} />}
      foot={
        <TitleBlock
          rows={[
            [
              {
                small: wait ?? 'Save, then',
                big: before ? 'Back to the list' : 'Next unit',
                disabled: isWaiting,
                onPress: () => void form.keep('next'),
              },
              {
                small: wait ?? (jacks > 0 ? `Save, ${count(jacks, 'jack')}` : 'Save, no jacks yet'),
                big: jacks > 0 ? 'Walk its jacks' : 'Save the unit',
                primary: true,
                share: 2,
                disabled: isWaiting,
                onPress: () => void form.keep(jacks > 0 ? 'walk' : 'next'),
              },
            ],
          ]}
        />
      }
    >
      {form.failed !== null && (
        <ErrorBox what="The unit was not saved." where={form.failed} todo="What you typed is still here. Try again." />
      )}
      <div class="desk-part">
        <Field
          label="Label on the unit"
          ident
          value={d.label}
          hint={labelHint(view.units, props, known?.said ?? 0, d.label)}
          onInput={(text) => set({ label: text })}
        />
        <InlineCamera start="Scan the label" onText={(text) => set({ label: text })} />
        {before?.at !== undefined ? (
          <p>Attached to {known?.at ?? before.at}. To change where, go to that jack.</p>
        ) : (
          <Place view={view} draft={d} facts={form.facts} isOffered={before?.rack !== rack?.id} set={set} />
        )}
      </div>
      <DescribeJacks audit={view.audit} draft={d} before={before} units={view.units} set={set} />
      <Optional draft={d} set={set} />
    </Screen>
  );
}

/** Over the keys: a question or what is missing, else what was saved before. */
function AboveKeys({
  form,
  view,
  isNew,
}: {
  form: ReturnType<typeof useUnitForm>;
  view: DescribedView;
  isNew: boolean;
}) {
  const { draft: d, asking, gone, trouble } = form;
  const { u } = form.facts;
  if (asking !== null && gone.length > 0 && u !== null && trouble === null) {
    return (
      <GoneQuestion label={d.label.trim()} u={u} planned={gone} answer={(isGone) => void form.keep(asking, isGone)} />
    );
  }
  if (trouble !== null) {
    return (
      <p class="describe-trouble" role="alert">
        {trouble}
      </p>
    );
  }
  // Once the next unit is begun the line gives way to it; the list and the walk keep the undo.
  return isNew && d.label === '' && d.notation === '' ? <KeptLine view={view} /> : null;
}

function Optional({ draft: d, set }: { draft: UnitDraft; set: (change: Partial<UnitDraft>) => void }) {
  return (
    <>
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
    </>
  );
}

/** A label that is known already, or one that leaves the old one's statements behind. */
function labelHint(
  units: readonly string[],
  { label: own, before }: UnitFormProps,
  said: number,
  label: string,
): string | undefined {
  const same = units.find((one) => nameToKey(one) === nameToKey(label) && one !== own);
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
  facts: UnitFacts;
  /** The next free U is offered; else it keeps the one it has. */
  isOffered: boolean;
  set: (change: Partial<UnitDraft>) => void;
}) {
  const { view, draft: d, facts, set } = props;
  const { where, rack, u, taken, planned } = facts;
  const chosen = where.type === 'rack' ? where.rack.id : where.type === 'missing' ? where.rack : '';
  const isOffered = rack !== null && props.isOffered;
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
            error={taken.length > 0 ? takenToWords(taken) : undefined}
            hint={
              planned.length > 0
                ? plannedToWords(planned)
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
