// "Jacket and metre mark" at the jack in hand: what is printed along the cable and the running length nearest to its
// end. Both are written down as printed; which other end they fit is the record's to say, not this sheet's.
import { useSignal } from '@preact/signals';
import { textToMark } from '../../../core/rules/jackets.ts';
import { useAsked, useServices } from '../../context.ts';
import { useDraftText } from '../../drafts/useDraft.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Choice, Field } from '../../parts/form.tsx';
import { Row } from '../../parts/rows.tsx';
import { timeToWords } from '../../words.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { labelToShow } from '../walkState.ts';
import { placeOf } from './walkSheetsText.tsx';

export function JacketSheet({ flow, close }: SheetProps) {
  const services = useServices();
  const at = placeOf(flow);
  const key = `${flow.audit}:${at?.place ?? ''}`;
  const print = useDraftText(`jacket:${key}`);
  const mark = useDraftText(`mark:${key}`);
  const note = useDraftText(`jacket-note:${key}`);
  const chosen = useSignal<'m' | 'ft' | null>(null);
  const asked = useAsked('marks', { audit: flow.audit, places: at ? [at.place] : [] });
  const view = flow.view.value;
  if (!at || !view || view === 'loading') return null;
  const marks = asked.type === 'ready' ? asked.value : null;
  const before = marks?.here.find(({ end }) => end.place === at.place)?.readings ?? [];
  const prints = marks?.prints ?? [];
  // Jackets of one site nearly always count in one unit.
  const unit = chosen.value ?? prints[0]?.unit ?? 'm';
  const number = textToMark(mark.text);
  const keep = async () => {
    close();
    const payload = {
      place: at.place,
      upon: view.looks.map(({ event }) => event),
      print: print.text.trim(),
      unit,
      ...(typeof number === 'number' ? { mark: number } : {}),
      ...(note.text.trim() === '' ? {} : { note: note.text.trim() }),
      ...(before.length === 0 ? {} : { corrects: before.map(({ event }) => event) }),
    };
    const result = await services.record('jacket-read', payload, { audit: flow.audit });
    if (result.event === '') {
      flow.line.value = `Not saved: ${result.type === 'not-saved' ? result.why : ''}`;
      return;
    }
    for (const draft of [print, mark, note]) draft.drop();
    const words = `jacket and mark at ${at.words}`;
    const kept = result.type === 'saved' ? 'saved' : `not on disk yet: ${result.why}`;
    await flow.acted({ event: result.event, place: at.place, words, line: `Jacket and mark at ${at.words} ${kept}.` });
  };
  return (
    <Dialog
      title={`What is printed on the cable at ${at.words}?`}
      onClose={close}
      rows={[
        [
          { small: 'Don’t record', big: 'Cancel', onPress: close },
          {
            small: number === null ? 'Without a mark' : 'Jacket and mark',
            big: 'Save',
            primary: true,
            share: 2,
            disabled: print.text.trim() === '' || number === 'wrong',
            onPress: () => void keep(),
          },
        ],
      ]}
    >
      {before.map((one) => (
        <p key={one.event}>
          Recorded here: <strong>{labelToShow(one.print)}</strong>,{' '}
          {one.mark === null ? 'no mark' : `${one.mark} ${one.unit}`}, {one.author},{' '}
          {timeToWords(one.at, services.now())}.{one.note && ` ${one.note}.`} What you save replaces it.
        </p>
      ))}
      <Field
        label="Text along the jacket"
        ident
        value={print.text}
        hint="As printed, without the running number."
        onInput={print.set}
      />
      {prints
        .filter((one) => one.print !== print.text)
        .map((one) => (
          <Row
            key={one.print}
            title={<span class="ident">{one.print}</span>}
            second="Already used in this audit."
            onPress={() => {
              print.set(one.print);
              chosen.value = one.unit;
            }}
          />
        ))}
      <Field
        label="Running number nearest to this end"
        ident
        inputMode="decimal"
        value={mark.text}
        hint="Leave it blank if you cannot read it."
        error={number === 'wrong' ? 'Digits only, as printed: 0212 or 212.5.' : undefined}
        onInput={mark.set}
      />
      <Choice
        legend="It counts in"
        options={[
          { value: 'm', text: 'Metres' },
          { value: 'ft', text: 'Feet' },
        ]}
        value={unit}
        onChoose={(value) => {
          chosen.value = value;
        }}
      />
      <Field label="Note" value={note.text} onInput={note.set} />
    </Dialog>
  );
}
