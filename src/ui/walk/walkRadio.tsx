// A helper at the far end, by radio: one question at a time, big enough to be read out, the answer recorded as told and
// by whose mouth. It suggests nothing to a hand at either end.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { Said } from '../../core/walk/memory.ts';
import { useAsked, useServices } from '../context.ts';
import { TEXT } from '../drafts/draftKind.ts';
import { useDraftText } from '../drafts/useDraft.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Field, PlainButton } from '../parts/form.tsx';
import { CableLabel } from '../parts/label.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { count, timeToWords } from '../words.ts';
import type { SheetProps } from './walkSheetProps.ts';
import { labelToShow } from './walkState.ts';

export function RadioSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const key = `radio:${flow.audit}` as const;
  const helper = useSignal<string | null>(null);
  const name = useSignal('');
  const skipped = useSignal<string[]>([]);
  const other = useDraftText(`radio-label:${flow.audit}`);
  useEffect(() => {
    void services.draft(key, TEXT).then((kept) => {
      if (kept) helper.value = kept;
    });
  }, [key]);
  const ask = { audit: flow.audit, place: flow.memory.value.place, skipped: skipped.value };
  const asked = useAsked('farQuestion', ask);
  if (helper.value === null) {
    const named = name.value.trim();
    return (
      <Dialog
        title="Who is at the far end?"
        onClose={close}
        rows={[
          [
            { big: 'Cancel', onPress: close },
            {
              big: 'Start asking',
              primary: true,
              share: 2,
              disabled: named === '',
              onPress: () => {
                helper.value = named;
                void services.saveDraft(key, named, TEXT);
              },
            },
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
  const question = asked.type === 'ready' ? asked.value : null;
  const told = (said: Pick<Said, 'state' | 'plugs'>) => {
    if (!question) return;
    void flow
      .tell({
        places: [{ place: question.place, words: question.words }],
        by: 'tapped',
        basis: 'told',
        teller: helper.value ?? '',
        ...said,
      })
      .then(other.drop);
  };
  return (
    <Dialog
      title={
        question
          ? `Ask ${helper.value}: which label is in ${question.words}?`
          : `Nothing is left to ask ${helper.value}.`
      }
      onClose={close}
      rows={[
        [
          { big: 'Stop asking', onPress: close },
          {
            big: 'Another helper',
            onPress: () => {
              helper.value = null;
              void services.dropDraft(key);
            },
          },
        ],
      ]}
    >
      {asked.type === 'ready' && !question && <p>Every far end in scope has an entry, or was skipped.</p>}
      {question && (
        <>
          {question.plan !== null && (
            <PlainButton
              primary
              onPress={() => told({ state: 'label', plugs: [{ labels: [{ text: question.plan ?? '' }] }] })}
            >
              Reads <CableLabel text={labelToShow(question.plan)} />
            </PlainButton>
          )}
          <Row title="Empty" onPress={() => told({ state: 'empty' })} />
          <Row title="No label" onPress={() => told({ state: 'unlabelled', plugs: [{ labels: [] }] })} />
          <Row title="Cannot be seen from there" onPress={() => told({ state: 'not-visible' })} />
          <Field label="Another label" ident value={other.text} onInput={other.set} />
          <PlainButton
            disabled={other.text.trim() === ''}
            onPress={() => told({ state: 'label', plugs: [{ labels: [{ text: other.text.trim() }] }] })}
          >
            Record that label
          </PlainButton>
          <Row
            title="Skip to the next one"
            onPress={() => {
              skipped.value = [...skipped.value, question.place];
            }}
          />
        </>
      )}
    </Dialog>
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
