// A helper at the far end, by radio: one question at a time, big enough to be read out, the answer recorded as told and
// by whose mouth. It suggests nothing to a hand at either end.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { FarQuestion } from '../../core/report/walk/windowList.ts';
import type { Said } from '../../core/walk/memory.ts';
import { useAsked, useServices } from '../context.ts';
import { TEXT } from '../drafts/draftKind.ts';
import { useDraftText } from '../drafts/useDraft.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field, PlainButton } from '../parts/form.tsx';
import { CableLabel } from '../parts/label.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { count, timeToWords } from '../words.ts';
import type { WalkFlow } from './walkFlowType.ts';
import type { SheetProps } from './walkSheetProps.ts';
import { labelToShow } from './walkState.ts';

const RADIO_WORDS = {
  which: (helper: string, place: string) => `Ask ${helper}: which label is in ${place}?`,
  nothingLeft: (helper: string) => `Nothing is left to ask ${helper}.`,
};

export function RadioSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const key = `radio:${flow.audit}` as const;
  const helper = useSignal<string | null>(null);
  useEffect(() => {
    void services.draft(key, TEXT).then((kept) => {
      if (kept) helper.value = kept;
    });
  }, [key]);
  if (helper.value === null)
    return (
      <WhoHelps
        close={close}
        onNamed={(name) => {
          helper.value = name;
          void services.saveDraft(key, name, TEXT);
        }}
      />
    );
  return (
    <AskHelper
      flow={flow}
      close={close}
      helper={helper.value}
      onOther={() => {
        helper.value = null;
        void services.dropDraft(key);
      }}
    />
  );
}

function WhoHelps({ close, onNamed }: { close: () => void; onNamed: (name: string) => void }) {
  const name = useSignal('');
  const named = name.value.trim();
  return (
    <Dialog
      title="Who is at the far end?"
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          { big: 'Start asking', primary: true, share: 2, disabled: named === '', onPress: () => onNamed(named) },
        ],
      ]}
    >
      <Field
        label="Name of the helper"
        value={name.value}
        hint="It is recorded with every answer."
        onInput={(text) => {
          name.value = text;
        }}
      />
    </Dialog>
  );
}

function AskHelper(props: { flow: WalkFlow; close: () => void; helper: string; onOther: () => void }) {
  const { flow, close, helper, onOther } = props;
  const skipped = useSignal<string[]>([]);
  const asked = useAsked('farQuestion', {
    audit: flow.audit,
    place: flow.memory.value.place,
    skipped: skipped.value,
  });
  const question = asked.type === 'ready' ? asked.value : null;
  return (
    <Dialog
      title={question ? RADIO_WORDS.which(helper, question.words) : RADIO_WORDS.nothingLeft(helper)}
      onClose={close}
      rows={[
        [
          { big: 'Stop asking', onPress: close },
          { big: 'Another helper', onPress: onOther },
        ],
      ]}
    >
      {asked.type === 'ready' && !question && <p>Every far end in scope has an entry, or was skipped.</p>}
      {question && (
        <Answers
          flow={flow}
          helper={helper}
          question={question}
          onSkip={() => {
            skipped.value = [...skipped.value, question.place];
          }}
        />
      )}
    </Dialog>
  );
}

function Answers(props: { flow: WalkFlow; helper: string; question: FarQuestion; onSkip: () => void }) {
  const { flow, helper, question, onSkip } = props;
  const { plan } = question;
  const other = useDraftText(`radio-label:${flow.audit}`);
  const told =
    (said: Pick<Said, 'state' | 'plugs'>, by: Said['by'] = 'tapped') =>
    () =>
      void flow
        .tell({
          places: [{ place: question.place, words: question.words }],
          by,
          basis: 'told',
          teller: helper,
          ...said,
        })
        .then(other.drop);
  const label = (text: string, by?: Said['by']) => told({ state: 'label', plugs: [{ labels: [{ text }] }] }, by);
  return (
    <>
      {plan !== null && (
        <PlainButton primary onPress={label(plan)}>
          Reads <CableLabel text={labelToShow(plan)} />
        </PlainButton>
      )}
      <Row title="Empty" onPress={told({ state: 'empty' })} />
      <Row title="No label" onPress={told({ state: 'unlabelled', plugs: [{ labels: [] }] })} />
      <Row title="Cannot be seen from there" onPress={told({ state: 'not-visible' })} />
      <Field label="Another label" ident value={other.text} onInput={other.set} />
      <PlainButton disabled={other.text.trim() === ''} onPress={label(other.text.trim(), 'typed')}>
        Record that label
      </PlainButton>
      <Row title="Skip to the next one" onPress={onSkip} />
    </>
  );
}

/** What waits for a window, with why, for whoever may touch. */
export function WindowSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const asked = useAsked('window', { audit: flow.audit });
  if (asked.type !== 'ready') return null;
  const items = asked.value;
  return (
    <Dialog title="For the maintenance window" onClose={close} rows={[[{ big: 'Cancel', onPress: close }]]}>
      <p>
        What needs hands on, a key or another time. Agree the window with whoever is responsible for what is on air.
      </p>
      {items.length === 0 && <p>Nothing is waiting yet.</p>}
      {items.length > 0 && <SectionHead title="By place" right={String(items.length)} />}
      {items.slice(0, 100).map((item) => (
        <Row
          key={item.place}
          title={item.words}
          right={item.owed}
          second={`${item.why}. ${item.author}, ${timeToWords(item.at, services.now())}.`}
          onPress={() => {
            close();
            void flow.moveTo(item.place);
          }}
        />
      ))}
      {items.length > 100 && <p>And {count(items.length - 100, 'place')} more.</p>}
    </Dialog>
  );
}
