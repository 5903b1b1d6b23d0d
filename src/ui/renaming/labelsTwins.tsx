// A strip of twins on paper: every number twice, side by side, as code and text. Sizes are in millimetres; it changes
// nothing in the record, and keeps on this phone which strips it printed.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { stripOf } from '../../core/report/walk/twinsView.ts';
import { useServices } from '../context.ts';
import { STRIPS } from '../drafts/deskDrafts.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { type PrintedStrip, printedBefore, STRIPS_KEY, withPrinted } from '../walk/sheets/twinStrips.ts';
import { timeToWords } from '../words.ts';
import { Qr } from './labelsQr.tsx';
import '../look/renamingLabels.css';

const MOST = 200;

export function LabelsTwins({ onBack }: { onBack: () => void }) {
  const first = useSignal('1');
  const many = useSignal('50');
  const from = Number(first.value);
  const count = Number(many.value);
  const right = Number.isInteger(from) && from > 0 && Number.isInteger(count) && count > 0 && count <= MOST;
  const strip = right ? stripOf(from, count) : [];
  const services = useServices();
  const printed = useSignal<PrintedStrip[]>([]);
  useEffect(() => {
    void services.draft(STRIPS_KEY, STRIPS).then((kept) => {
      printed.value = kept ?? [];
    });
  }, []);
  const before = right ? printedBefore(printed.value, from, count) : null;
  const toPaper = () => {
    print();
    printed.value = withPrinted(printed.value, { first: from, count, at: services.now() });
    void services.saveDraft(STRIPS_KEY, printed.value, STRIPS);
  };
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the labels of the plan', onPress: onBack }}
          cells={[
            { small: 'Labels', big: 'Temporary tags', heading: true, wide: true },
            { small: 'Pairs', big: String(strip.length) },
          ]}
        />
      }
      foot={
        right ? (
          <TitleBlock
            rows={[
              [
                {
                  small: `${strip[0]} to ${strip.at(-1)}`,
                  big: `Print ${strip.length * 2} labels`,
                  primary: true,
                  onPress: toPaper,
                },
              ],
            ]}
          />
        ) : undefined
      }
    >
      <div class="desk-part no-print">
        <p>
          Each number is printed twice: one tag for this end of a cable without a label, one for the end you have not
          found yet.
        </p>
        <Field
          label="First number"
          inputMode="numeric"
          value={first.value}
          hint="Each phone gives numbers in its own blocks of 50. Start a strip for everybody at a block nobody has started."
          onInput={(text) => {
            first.value = text;
          }}
        />
        <Field
          label="How many numbers"
          inputMode="numeric"
          value={many.value}
          error={right ? undefined : `Whole numbers from 1; at most ${MOST} at once.`}
          onInput={(text) => {
            many.value = text;
          }}
        />
        {before && (
          <>
            <p role="status">
              {stripOf(before.strip.first, 1)[0]} to {stripOf(before.strip.first + before.strip.count - 1, 1)[0]} were
              printed on this phone: {timeToWords(before.strip.at, services.now())}. A second copy would put the same
              number on two cables.
            </p>
            <PlainButton
              onPress={() => {
                first.value = String(before.next);
              }}
            >
              Start at {stripOf(before.next, 1)[0]}
            </PlainButton>
          </>
        )}
      </div>
      <ul class="strip-sheet">
        {strip.flatMap((text) =>
          [0, 1].map((half) => (
            <li key={`${text} ${half}`} class="strip-one">
              <Qr text={text} title={`Code of ${text}`} />
              <span class="strip-words">
                <span class="ident">{text}</span>
                <small>temporary</small>
              </span>
            </li>
          )),
        )}
      </ul>
      <div class="label-ruler" aria-hidden="true">
        100 mm
      </div>
      <p class="desk-note">
        Print at 100 %, without fitting to the page: the line above then measures 100 mm. The code holds only the
        number.
      </p>
    </Screen>
  );
}
