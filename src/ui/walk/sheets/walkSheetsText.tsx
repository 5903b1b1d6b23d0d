// Sheets that are typed into: a label, the characters of a worn one, a note, a setting off the unit's page. Every one
// keeps a draft as typed, and none corrects what was typed.
import type { PlaceId, UnitId } from '../../../core/plan/identity.ts';
import { useDraftText } from '../../drafts/useDraft.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Field, PlainButton } from '../../parts/form.tsx';
import { LabelDialog, LabelInput } from '../labelDialog.tsx';
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

export function TypeSheet({ flow, close }: SheetProps) {
  const at = placeOf(flow);
  const draft = useDraftText(`typed:${flow.audit}:${at?.place ?? ''}`);
  const say = (text: string) => {
    if (text.trim() === '') return;
    close();
    void flow.readText(text.trim(), 'typed').then(draft.drop);
  };
  return (
    <LabelDialog
      title={`What does the label in ${at?.words ?? 'this jack'} read?`}
      at={{ audit: flow.audit, place: at?.place ?? null }}
      text={draft.text}
      onInput={draft.set}
      onSay={say}
      onClose={close}
    />
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
