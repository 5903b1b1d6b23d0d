// Sheets that are typed into: a label, the characters of a worn one, a note, a setting off the unit's page. Every one
// keeps a draft as typed, and none corrects what was typed.
import type { PlaceId, UnitId } from '../../../core/plan/identity.ts';
import { useAsked } from '../../context.ts';
import { useDraftText } from '../../drafts/useDraft.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Field, PlainButton } from '../../parts/form.tsx';
import { Row } from '../../parts/rows.tsx';
import type { WalkFlow } from '../walkFlowType.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { labelToShow } from '../walkState.ts';

export function placeOf(flow: WalkFlow): { place: PlaceId; words: string; unit: UnitId; unitLabel: string } | null {
  const view = flow.view.value;
  if (!view || view === 'loading') return null;
  return {
    place: view.current.place,
    words: `${view.unit.label} ${view.current.jack}`,
    unit: view.unit.id,
    unitLabel: view.unit.label,
  };
}

/** Labels are printed in capitals; phones are told so, and told to leave the rest alone. */
function LabelInput(props: {
  label: string;
  value: string;
  onInput: (v: string) => void;
  onEnter: () => void;
  id: string;
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

export function TypeSheet({ flow, close }: SheetProps) {
  const at = placeOf(flow);
  const draft = useDraftText(`typed:${flow.audit}:${at?.place ?? ''}`);
  const offers = useAsked('suggest', { audit: flow.audit, place: at?.place ?? null, text: draft.text });
  const say = (text: string) => {
    if (text.trim() === '') return;
    close();
    void flow.readText(text.trim(), 'typed').then(draft.drop);
  };
  return (
    <Dialog
      title={`What does the label in ${at?.words ?? 'this jack'} read?`}
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          {
            big: 'Record',
            primary: true,
            share: 2,
            disabled: draft.text.trim() === '',
            onPress: () => say(draft.text),
          },
        ],
      ]}
    >
      <LabelInput
        id="walk-typed"
        label="Label, as printed"
        value={draft.text}
        onInput={draft.set}
        onEnter={() => say(draft.text)}
      />
      {offers.type === 'ready' &&
        offers.value.map((offer) => (
          <Row
            key={`${offer.label} ${offer.line}`}
            title={<span class="ident">{labelToShow(offer.label)}</span>}
            second={offer.line}
            onPress={() => say(offer.label)}
          />
        ))}
    </Dialog>
  );
}

/** A worn label: what can be read, and `?` for each character that cannot. */
export function PatternSheet({ flow, close }: SheetProps) {
  const at = placeOf(flow);
  const draft = useDraftText(`pattern:${flow.audit}:${at?.place ?? ''}`);
  const say = (pattern: string) => {
    close();
    const plug = pattern === '' ? { labels: [] } : { labels: [], pattern };
    void flow.sayState('illegible', { plugs: [plug] }).then(draft.drop);
  };
  return (
    <Dialog
      title={`What can be read at ${at?.words ?? 'this jack'}?`}
      onClose={close}
      rows={[
        [
          { small: 'Don’t record', big: 'Cancel', onPress: close },
          { small: 'No character', big: 'Nothing readable', onPress: () => say('') },
          {
            small: 'As far as it goes',
            big: draft.text.trim() === '' ? 'Record' : `Record ${labelToShow(draft.text)}`,
            primary: true,
            disabled: draft.text.trim() === '',
            onPress: () => say(draft.text.trim()),
          },
        ],
      ]}
    >
      <LabelInput
        id="walk-pattern"
        label="Put ? for each character that you cannot read"
        value={draft.text}
        onInput={draft.set}
        onEnter={() => draft.text.trim() !== '' && say(draft.text.trim())}
      />
      <div class="walk-key-row">
        <PlainButton onPress={() => draft.set(`${draft.text}?`)}>?</PlainButton>
        <PlainButton onPress={() => draft.set(draft.text.slice(0, -1))}>
          <span class="only-spoken">Delete the last character</span>
          <span aria-hidden="true">⌫</span>
        </PlainButton>
      </div>
    </Dialog>
  );
}

export function NoteSheet({ flow, close, place, words }: SheetProps & { place: PlaceId | null; words: string }) {
  const draft = useDraftText(`note:${flow.audit}:${place ?? ''}`);
  return (
    <Dialog
      title={`Note at ${words}`}
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          {
            big: 'Save the note',
            primary: true,
            share: 2,
            disabled: draft.text.trim() === '',
            onPress: () => {
              close();
              void flow.note(place, draft.text.trim()).then(draft.drop);
            },
          },
        ],
      ]}
    >
      <Field label="What you see, in your words" lines={4} value={draft.text} onInput={draft.set} autoFocus />
    </Dialog>
  );
}
