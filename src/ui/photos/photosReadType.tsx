// Typing the label that a photo shows. A text that fits several cables is asked about; one that names a unit, a rack
// or a jack says nothing about the plug.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import { MAX_LABEL } from '../../core/record/events.ts';
import type { ReadingView } from '../../core/walk/reading.ts';
import { useServices } from '../context.ts';
import { useDraftText } from '../drafts/useDraft.ts';
import { Dialog } from '../parts/dialog.tsx';
import { PlainButton } from '../parts/form.tsx';
import { Row } from '../parts/rows.tsx';
import { LabelDialog } from '../walk/labelDialog.tsx';
import { labelToShow } from '../walk/walkState.ts';
import type { ReadLabel, ReadStop } from './photosReadState.ts';

export function ReadType(props: {
  audit: AuditId;
  stop: ReadStop;
  onClose: () => void;
  onSay: (label: ReadLabel) => void;
}) {
  const { audit, onClose } = props;
  const { place, words } = props.stop.pin;
  const services = useServices();
  const draft = useDraftText(`photo-typed:${audit}:${place}`);
  const asked = useSignal<Extract<ReadingView, { type: 'ask' }> | null>(null);
  const wrong = useSignal<string | null>(null);
  const keep = (label: ReadLabel) => {
    draft.drop();
    props.onSay(label);
  };
  const say = async (given: string) => {
    const text = given.trim().slice(0, MAX_LABEL);
    if (text === '') return;
    const found = await services.ask('reading', { audit, place, text });
    if (found.type === 'ask') asked.value = found;
    else if (found.type === 'cable' || found.type === 'unknown') keep({ text });
    else
      wrong.value = `That is the label of ${found.type} ${labelToShow(found.label)}, not of a cable. Nothing is recorded.`;
  };
  if (asked.value) {
    return (
      <Dialog
        title={`“${labelToShow(draft.text)}” fits more than one. Which is it?`}
        onClose={onClose}
        rows={[[{ big: 'None of these: read it again', onPress: onClose }]]}
      >
        {asked.value.candidates
          .filter(({ type }) => type === undefined || type === 'cable')
          .map((one) => (
            <Row
              key={`${one.id} ${one.line}`}
              title={<span class="ident">{labelToShow(one.label)}</span>}
              second={one.line}
              onPress={() => keep({ text: draft.text.trim(), means: one.id })}
            />
          ))}
      </Dialog>
    );
  }
  return (
    <LabelDialog
      title={`Which label does the photo show in ${words}?`}
      at={{ audit, place }}
      text={draft.text}
      onInput={(text) => {
        wrong.value = null;
        draft.set(text);
      }}
      onSay={(text) => void say(text)}
      onClose={onClose}
    >
      {wrong.value && <p role="alert">{wrong.value}</p>}
      {wrong.value && (
        <PlainButton onPress={() => keep({ text: draft.text.trim(), own: true })}>
          No, it is cable {labelToShow(draft.text.trim())}
        </PlainButton>
      )}
    </LabelDialog>
  );
}
