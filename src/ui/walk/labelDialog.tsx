// Typing a label: the field that leaves it as typed, and the names that it may be, each one touch away. It records nothing.
import type { ComponentChildren } from 'preact';
import type { AuditId, PlaceId } from '../../core/plan/identity.ts';
import { useAsked } from '../context.ts';
import { Dialog } from '../parts/dialog.tsx';
import { Row } from '../parts/rows.tsx';
import { labelToShow } from './walkState.ts';

export function LabelDialog(props: {
  title: string;
  at: { audit: AuditId; place: PlaceId | null };
  text: string;
  onInput: (text: string) => void;
  /** The text as typed, or the label that was offered. */
  onSay: (text: string) => void;
  onClose: () => void;
  children?: ComponentChildren;
}) {
  const { text, onSay, onClose } = props;
  const offers = useAsked('suggest', { ...props.at, text });
  return (
    <Dialog
      title={props.title}
      onClose={onClose}
      rows={[
        [
          { big: 'Cancel', onPress: onClose },
          { big: 'Record', primary: true, share: 2, disabled: text.trim() === '', onPress: () => onSay(text) },
        ],
      ]}
    >
      <LabelInput
        id="walk-typed"
        label="Label, as printed"
        value={text}
        onInput={props.onInput}
        onEnter={() => onSay(text)}
      />
      {props.children}
      {offers.type === 'ready' &&
        offers.value.map((offer) => (
          <Row
            key={`${offer.label} ${offer.line}`}
            title={<span class="ident">{labelToShow(offer.label)}</span>}
            second={offer.line}
            onPress={() => onSay(offer.label)}
          />
        ))}
    </Dialog>
  );
}

/** Labels are printed in capitals; phones are told so, and told to leave the rest alone. */
export function LabelInput(props: {
  id: string;
  label: string;
  value: string;
  onInput: (text: string) => void;
  onEnter: () => void;
}) {
  return (
    <div class="field">
      <label class="field-label" for={props.id}>
        {props.label}
      </label>
      <input
        id={props.id}
        autofocus
        class="field-input ident"
        value={props.value}
        type="text"
        inputMode="text"
        autocomplete="off"
        autocapitalize="characters"
        autocorrect="off"
        spellcheck={false}
        enterkeyhint="done"
        onInput={(e) => props.onInput(e.currentTarget.value)}
        onKeyDown={(e) => {
          if (e.key !== 'Enter') return;
          e.preventDefault();
          props.onEnter();
        }}
      />
    </div>
  );
}
