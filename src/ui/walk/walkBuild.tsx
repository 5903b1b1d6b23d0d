// The build occasion in the walk: landing and recording in one tap, the stages of an end, what is left to build, and
// why something was put against the plan. Landing is offered only where a plug may be moved.

import { useSignal } from '@preact/signals';
import { isJack, type PlaceId } from '../../core/plan/identity.ts';
import type { WorkStage } from '../../core/record/events.ts';
import { takesWires } from '../../core/record/jackWords.ts';
import type { WalkView } from '../../core/report/walk/walkView.ts';
import type { EndOfWork } from '../../core/report/workView.ts';
import { useAsked, useServices } from '../context.ts';
import { useDraftText } from '../drafts/useDraft.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field, PlainButton } from '../parts/form.tsx';
import type { CellProps } from '../parts/frame.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { count, timeToWords } from '../words.ts';
import { placeOf } from './sheets/walkSheetsText.tsx';
import { actAtToWords, BUILD_WORDS, endLeftToWords, failedAct, nextToWords, STAGES } from './walkBuildWords.ts';
import type { WalkFlow } from './walkFlowType.ts';
import type { SheetProps } from './walkSheetProps.ts';
import { labelToShow } from './walkState.ts';
import { notSavedToWords } from './walkWords.ts';

/** The primary cell of a build: the planned plug goes in, its label stands, and both are said by one tap. */
export function landingCell(flow: WalkFlow, view: WalkView): CellProps | null {
  const { plan, jack } = view.current;
  if (view.occasion !== 'build' || view.permission !== 'disconnect' || plan === null || view.blind) return null;
  const { connector } = view.face.rows.flat().find(({ place }) => place === view.current.place) ?? {};
  const word = STAGES.landed(takesWires(connector)).title;
  return {
    small: <Ident text={jack} />,
    big: (
      <>
        {word} <CableLabel text={labelToShow(plan)} />
      </>
    ),
    after: 'as planned',
    primary: true,
    name: `${jack} ${word} ${labelToShow(plan)}, as planned`,
    onPress: () => void flow.sayLabel(plan, 'tapped'),
  };
}

/** One line after a label that the plan has elsewhere: why it is here, asked and never in the way of the next one. */
export function ChangeOffer({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const verdict = flow.verdict.value;
  const answered = useSignal<string | null>(null);
  if (view.occasion !== 'build' || verdict?.variant !== 'differs' || verdict.label === null) return null;
  const { place, jack, label } = verdict;
  const key = `${place} ${label}`;
  if (answered.value === key || !isJack(place)) return null;
  return (
    <div class="walk-ask">
      <p>
        {jack} has <span class="ident">{labelToShow(label)}</span> which is not planned. On purpose?
      </p>
      <PlainButton
        onPress={() => {
          answered.value = key;
          flow.sheet.value = { type: 'change', place, jack, label };
        }}
      >
        Yes, give the reason
      </PlainButton>
      <PlainButton
        onPress={() => {
          answered.value = key;
        }}
      >
        No, it is a mistake
      </PlainButton>
    </div>
  );
}

const REASONS = ['The planned jack is taken', 'The plan was changed on site', 'The planned jack is faulty'];

export function ChangeSheet({
  flow,
  close,
  place,
  jack,
  label,
}: SheetProps & { place: PlaceId; jack: string; label: string }) {
  const view = flow.view.value;
  const reason = useDraftText(`change:${flow.audit}`);
  const until = useDraftText(`change-until:${flow.audit}`);
  const unit = view && view !== 'loading' ? view.unit.label : '';
  const say = (why: string) => {
    close();
    const end = until.text.trim();
    const said = flow.say({
      places: [{ place, words: `${unit} ${jack}` }],
      state: 'label',
      plugs: [{ labels: [{ text: label }] }],
      by: 'tapped',
      change: { reason: why, ...(end ? { until: end } : {}) },
    });
    void said.then(reason.drop).then(until.drop);
  };
  return (
    <Dialog
      title={`Why is ${labelToShow(label)} in ${jack}?`}
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          { big: 'Record my reason', disabled: reason.text.trim() === '', onPress: () => say(reason.text.trim()) },
        ],
      ]}
    >
      <Field
        label="Temporary until"
        hint="For a lash-up: a day, or what it waits for. It stays in the list until then."
        value={until.text}
        onInput={until.set}
      />
      {REASONS.map((one) => (
        <Row key={one} title={one} onPress={() => say(one)} />
      ))}
      <Field label="Another reason" value={reason.text} onInput={reason.set} />
    </Dialog>
  );
}

/** Stages of the ends planned at this jack. A test is pass or fail in words; the last one counts. */
export function WorkSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const at = placeOf(flow);
  const asked = useAsked('work', { audit: flow.audit, place: at?.place ?? null });
  const words = useDraftText(`tested:${flow.audit}:${at?.place ?? ''}`);
  const view = flow.view.value;
  if (asked.type !== 'ready' || !asked.value || !at || !view || view === 'loading') return null;
  const { here } = asked.value;
  const mayTouch = view.permission !== 'look';
  const done = async (work: EndOfWork, stage: WorkStage, result?: 'pass' | 'fail') => {
    const { label: cable, wires } = work;
    const told = words.text.trim();
    const payload = {
      cable,
      place: at.place,
      stage,
      ...(result ? { result } : {}),
      ...(stage === 'tested' && told ? { words: told } : {}),
    };
    const recorded = await services.record('worked', payload, { audit: flow.audit });
    const { event } = recorded;
    if (event === '') {
      flow.line.value = notSavedToWords(recorded);
      return;
    }
    if (stage === 'tested') words.drop();
    const what = result === 'fail' ? failedAct(cable) : STAGES[stage](wires).act(cable);
    await flow.acted({ event, place: at.place, words: what, line: actAtToWords(at.words, what) });
  };
  return (
    <Dialog title={`Work at ${at.words}`} onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      {here.length === 0 && <p>The plan has no cable here.</p>}
      {!mayTouch && <p>You may only look here, so you cannot record work. What others did is below.</p>}
      {here.map((work) => (
        <section key={work.cable} aria-label={`Cable ${work.label}`}>
          <SectionHead
            title={<CableLabel text={work.label} variant="plan" />}
            right={nextToWords(work) ?? BUILD_WORDS.done}
          />
          {(['pulled', 'landed', 'labelled'] as const).map((stage) => (
            <Row
              key={stage}
              title={STAGES[stage](work.wires).title}
              right={work.done.includes(stage) ? 'done' : mayTouch ? 'record' : 'not yet'}
              {...(mayTouch && !work.done.includes(stage) ? { onPress: () => void done(work, stage) } : {})}
            />
          ))}
          <Row
            title="Tested"
            right={work.test ? (work.test.result === 'pass' ? 'passed' : 'failed') : 'not yet'}
            second={work.test?.words ?? undefined}
          />
          {mayTouch && (
            <>
              <Field label="What the tester says" value={words.text} onInput={words.set} />
              <PlainButton onPress={() => void done(work, 'tested', 'pass')}>{work.label} passed</PlainButton>
              <PlainButton onPress={() => void done(work, 'tested', 'fail')}>{work.label} failed</PlainButton>
            </>
          )}
        </section>
      ))}
    </Dialog>
  );
}

/** What is left to build, nearest first, and what was put against the plan. */
export function LeftToBuildSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const asked = useAsked('work', { audit: flow.audit, place: flow.memory.value.place });
  if (asked.type !== 'ready' || !asked.value) return null;
  const { left, leftCount, changes } = asked.value;
  const to = (place: PlaceId) => () => {
    close();
    void flow.moveTo(place);
  };
  return (
    <Dialog title="What is left to build?" onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      {changes.length > 0 && <SectionHead title="Not as planned, on purpose" right={String(changes.length)} />}
      {changes.map((one) => (
        <Row
          key={`${one.place} ${one.at}`}
          title={
            <>
              {one.words}: <span class="ident">{labelToShow(one.label)}</span>
            </>
          }
          right={one.until === null ? undefined : `until ${one.until}`}
          second={`${one.reason}. ${one.author}, ${timeToWords(one.at, services.now())}.`}
          onPress={to(one.place)}
        />
      ))}
      <SectionHead title="Ends still to do, nearest first" right={String(leftCount)} />
      {leftCount === 0 && <p>Every planned end is plugged or landed, labelled and tested.</p>}
      {left.map((one) => (
        <Row
          key={`${one.cable} ${one.end}`}
          title={<span class="ident">{labelToShow(one.label)}</span>}
          right={nextToWords(one) ?? undefined}
          second={endLeftToWords(one)}
          onPress={to(one.place)}
        />
      ))}
      {leftCount > left.length && <p>And {count(leftCount - left.length, 'end')} more, further away.</p>}
    </Dialog>
  );
}
