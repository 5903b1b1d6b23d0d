// Sheets about what is not a jack: a loose end at a place in words, a unit's label at a rack position, and the photo
// of the phone's own camera app for when the viewfinder is off.
import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import { looseToPlace, slotToPlace } from '../../../core/plan/identity.ts';
import { useAsked, useServices } from '../../context.ts';
import { FLAG } from '../../drafts/draftKind.ts';
import { useDraftText } from '../../drafts/useDraft.ts';
import { PHOTO_AT } from '../../drafts/walkDrafts.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Field } from '../../parts/form.tsx';
import { cautionKey, keepPhoto, photoDraft } from '../walkPhoto.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import type { PhotoAt } from './walkSheet.ts';
import { PhotoCaution } from './walkSheetsPhotos.tsx';

export function LooseSheet({ flow, close }: SheetProps) {
  const where = useDraftText(`loose-where:${flow.audit}`);
  const label = useDraftText(`loose-label:${flow.audit}`);
  const view = flow.view.value;
  const near = view && view !== 'loading' ? (view.rack ?? view.room) : null;
  const say = () => {
    const words = where.text.trim();
    const text = label.text.trim();
    close();
    const said = flow.say({
      places: [{ place: looseToPlace(words), words: `loose: ${words}` }],
      state: text === '' ? 'unlabelled' : 'label',
      plugs: [{ labels: text === '' ? [] : [{ text }] }],
      by: 'typed',
    });
    void said.then(where.drop).then(label.drop);
  };
  return (
    <Dialog
      title="An end that is in no jack"
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          { big: 'Record', primary: true, share: 2, disabled: where.text.trim() === '', onPress: say },
        ],
      ]}
    >
      <Field
        label="Where it is"
        value={where.text}
        onInput={where.set}
        suggestions={near ? [`tray of ${near}`, `behind ${near}`] : []}
        hint="In words: tray of R2, coil above the door."
      />
      <Field label="Its label" value={label.text} onInput={label.set} ident hint="Leave blank if it has none." />
    </Dialog>
  );
}

export function UnitHereSheet({ flow, close }: SheetProps) {
  const view = flow.view.value;
  const now = view && view !== 'loading' ? view : null;
  const asked = useAsked('scope', {});
  const u = useSignal(String(now?.unit.u ?? ''));
  const label = useDraftText(`unit-here:${flow.audit}`);
  const rack = asked.type === 'ready' ? asked.value.racks.find((one) => one.label === now?.rack) : undefined;
  const number = Number(u.value);
  const whole = rack !== undefined && Number.isInteger(number) && number > 0;
  const say = (state: 'label' | 'empty') => {
    if (!rack) return;
    const text = label.text.trim();
    close();
    const said = flow.say({
      places: [{ place: slotToPlace(rack.id, number), words: `${rack.label} U${number}` }],
      state,
      plugs: state === 'label' ? [{ labels: [{ text }] }] : [],
      by: 'typed',
    });
    void said.then(label.drop);
  };
  return (
    <Dialog
      title={now?.rack ? `Which unit is in ${now.rack}?` : 'This unit is not in a rack.'}
      onClose={close}
      rows={[
        [
          { big: 'Cancel', onPress: close },
          { big: 'No unit there', disabled: !whole, onPress: () => say('empty') },
          { big: 'Record', primary: true, disabled: !whole || label.text.trim() === '', onPress: () => say('label') },
        ],
      ]}
    >
      {now?.rack && (
        <>
          <Field
            label="Lowest U it takes up"
            value={u.value}
            inputMode="numeric"
            onInput={(text) => {
              u.value = text;
            }}
          />
          <Field label="Label on the unit" value={label.text} onInput={label.set} ident />
        </>
      )}
    </Dialog>
  );
}

/** The page may be killed for memory while the camera app is open, so what was wanted is written down first. */
export function PhotoSheet({ flow, close, at }: SheetProps & { at: PhotoAt }) {
  const services = useServices();
  const input = useRef<HTMLInputElement>(null);
  const wrong = useSignal<string | null>(null);
  const { place, words, whole, caution } = at;
  useEffect(() => {
    void services.saveDraft(photoDraft(flow.audit), { place, words, ...(whole ? { whole } : {}) }, PHOTO_AT);
  }, []);
  const told = () => {
    if (caution) void services.saveDraft(cautionKey(flow.audit), true, FLAG);
  };
  const drop = () => void services.dropDraft(photoDraft(flow.audit));
  const take = async (file: File | undefined) => {
    if (!file) return;
    told();
    wrong.value = await keepPhoto(services, flow, file, { place, words, whole });
    if (wrong.value !== null) return;
    drop();
    // A whole unit goes on to its pins in a sheet of its own.
    if (flow.sheet.peek()?.type === 'photo') close();
  };
  const leave = () => {
    drop();
    close();
  };
  return (
    <Dialog
      title={whole ? `Photo of ${words}` : `Photo at ${words}`}
      onClose={leave}
      rows={[
        [
          { big: 'Cancel', onPress: leave },
          {
            ...(caution ? { small: 'Shown once in each audit' } : {}),
            big: 'Open the camera app',
            primary: true,
            share: 2,
            onPress: () => {
              told();
              input.current?.click();
            },
          },
        ],
      ]}
    >
      <p>
        The viewfinder is off, so the phone’s own camera takes it.
        {caution ? '' : ' No flash near smoke heads or cameras on air.'}
      </p>
      {caution && <PhotoCaution />}
      {wrong.value && <p role="alert">{wrong.value}</p>}
      <input
        ref={input}
        class="only-spoken"
        type="file"
        accept="image/*"
        capture="environment"
        aria-label="Photo file"
        onChange={(e) => void take(e.currentTarget.files?.[0])}
      />
    </Dialog>
  );
}
