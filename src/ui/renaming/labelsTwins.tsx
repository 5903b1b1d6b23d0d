// A strip of twins on paper: every number twice, side by side, as code and text. It keeps on this phone which strips it
// printed.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { stripOf } from '../../core/report/walk/twinsView.ts';
import { useServices } from '../context.ts';
import { STRIPS } from '../drafts/deskDrafts.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { type PrintedStrip, printedBefore, STRIPS_KEY, withPrinted } from '../walk/sheets/twinStrips.ts';
import { timeToWords } from '../words.ts';
import { LabelPage, StripLabel } from './labelPage.tsx';
import { printedToWords } from './renamingWords.ts';

const MOST = 200;

export function LabelsTwins({ onBack }: { onBack: () => void }) {
  const first = useSignal('1');
  const many = useSignal('50');
  const from = Number(first.value);
  const count = Number(many.value);
  const right = Number.isInteger(from) && from > 0 && Number.isInteger(count) && count > 0 && count <= MOST;
  const strip = right ? stripOf(from, count) : [];
  const printed = usePrinted();
  return (
    <LabelPage
      back={{ label: 'Back to the labels of the plan', onPress: onBack }}
      cells={[
        { small: 'Labels', big: 'Temporary tags', heading: true, wide: true },
        { small: 'Pairs', big: String(strip.length) },
      ]}
      labels={strip.length * 2}
      which={`${strip[0]} to ${strip.at(-1)}`}
      onPrint={() => {
        print();
        printed.add(from, count);
      }}
      above={
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
          <Before
            before={right ? printed.before(from, count) : null}
            startAt={(next) => {
              first.value = String(next);
            }}
          />
        </div>
      }
      note="The code holds only the number."
    >
      <ul class="strip-sheet">
        {strip.flatMap((text) =>
          [0, 1].map((half) => <StripLabel key={`${text} ${half}`} text={text} small={['temporary']} />),
        )}
      </ul>
    </LabelPage>
  );
}

/** The strips that this phone printed. */
function usePrinted() {
  const services = useServices();
  const printed = useSignal<PrintedStrip[]>([]);
  useEffect(() => {
    void services.draft(STRIPS_KEY, STRIPS).then((kept) => {
      printed.value = kept ?? [];
    });
  }, []);
  return {
    before: (first: number, count: number) => printedBefore(printed.value, first, count),
    add: (first: number, count: number) => {
      printed.value = withPrinted(printed.value, { first, count, at: services.now() });
      void services.saveDraft(STRIPS_KEY, printed.value, STRIPS);
    },
  };
}

/** Numbers of the strip that are on paper already, and the first that are not. */
function Before(props: { before: ReturnType<typeof printedBefore>; startAt: (next: number) => void }) {
  const now = useServices().now();
  if (!props.before) return null;
  const { strip, next } = props.before;
  const label = (number: number) => stripOf(number, 1)[0] ?? '';
  return (
    <>
      <p role="status">
        {printedToWords(label(strip.first), label(strip.first + strip.count - 1), timeToWords(strip.at, now))}
      </p>
      <PlainButton onPress={() => props.startAt(next)}>Start at {label(next)}</PlainButton>
    </>
  );
}
