// "Jacket and metre mark" at the jack in hand: what is printed along the cable and the running length nearest to its
// end. Both are written down as printed; which other end they fit is the record's to say, not this sheet's.
import { useSignal } from '@preact/signals';
import type { MarkUnit } from '../../../core/record/events.ts';
import { type JacketReading, textToMark } from '../../../core/rules/jackets.ts';
import { useAsked, useServices } from '../../context.ts';
import { useDraftText } from '../../drafts/useDraft.ts';
import { Dialog } from '../../parts/dialog.tsx';
import { Choice, Field } from '../../parts/form.tsx';
import { Row } from '../../parts/rows.tsx';
import { timeToWords } from '../../words.ts';
import type { SheetProps } from '../walkSheetProps.ts';
import { labelToShow } from '../walkState.ts';
import { notSavedToWords } from '../walkWords.ts';
import { placeOf } from './walkSheetsText.tsx';

const JACKET_WORDS = {
  title: (place: string) => `What is printed on the cable at ${place}?`,
  act: (place: string) => `jacket and mark at ${place}`,
  saved: (place: string) => `Jacket and mark at ${place} saved.`,
  notOnDisk: (place: string, why: string) => `Jacket and mark at ${place} not on disk yet: ${why}.`,
};

/** What is typed, and the unit that the marks count in, kept until it is recorded. */
function useJacket({ flow, close }: SheetProps) {
  const services = useServices();
  const at = placeOf(flow);
  const key = `${flow.audit}:${at?.place ?? ''}`;
  const print = useDraftText(`jacket:${key}`);
  const mark = useDraftText(`mark:${key}`);
  const note = useDraftText(`jacket-note:${key}`);
  const chosen = useSignal<MarkUnit | null>(null);
  const asked = useAsked('marks', { audit: flow.audit, places: at ? [at.place] : [] });
  const marks = asked.type === 'ready' ? asked.value : null;
  const before = marks?.here.find(({ end }) => end.place === at?.place)?.readings ?? [];
  const prints = marks?.prints ?? [];
  // Jackets of one site nearly always count in one unit.
  const unit = chosen.value ?? prints[0]?.unit ?? 'm';
  const number = textToMark(mark.text);
  const keep = async () => {
    const view = flow.view.value;
    if (!at || !view || view === 'loading') return;
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
      flow.line.value = notSavedToWords(result);
      return;
    }
    for (const draft of [print, mark, note]) draft.drop();
    const words = JACKET_WORDS.act(at.words);
    const line = result.type === 'saved' ? JACKET_WORDS.saved(at.words) : JACKET_WORDS.notOnDisk(at.words, result.why);
    await flow.acted({ event: result.event, place: at.place, words, line });
  };
  return { at, print, mark, note, chosen, before, prints, unit, number, keep };
}

export function JacketSheet(props: SheetProps) {
  const { close } = props;
  const { at, print, mark, note, chosen, before, prints, unit, number, keep } = useJacket(props);
  if (!at) return null;
  return (
    <Dialog
      title={JACKET_WORDS.title(at.words)}
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
        <Before key={one.event} reading={one} />
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

function Before({ reading }: { reading: JacketReading }) {
  const { now } = useServices();
  const { print, mark, unit, author, at, note } = reading;
  return (
    <p>
      Recorded here: <strong>{labelToShow(print)}</strong>, {mark === null ? 'no mark' : `${mark} ${unit}`}, {author},{' '}
      {timeToWords(at, now())}.{note && ` ${note}.`} What you save replaces it.
    </p>
  );
}
