// A strip of twins on paper: every number twice, side by side, as code and text. Sizes are in millimetres; it changes
// nothing in the record.
import { useSignal } from '@preact/signals';
import { stripOf } from '../../core/report/twinsView.ts';
import { Field } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
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
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the labels of the plan', onPress: onBack }}
          cells={[
            { small: 'Labels', big: 'Twins', heading: true, wide: true },
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
                  onPress: () => print(),
                },
              ],
            ]}
          />
        ) : undefined
      }
    >
      <div class="desk-part no-print">
        <p>
          Each number stands twice: one for this end of a cable that bears nothing, one for the end you do not know yet.
        </p>
        <Field
          label="First number"
          inputMode="numeric"
          value={first.value}
          hint="A phone gives its own numbers in blocks of 50. A strip printed for everybody begins where no block has begun."
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
      </div>
      <ul class="strip-sheet">
        {strip.flatMap((text) =>
          [0, 1].map((half) => (
            <li key={`${text} ${half}`} class="strip-one">
              <Qr text={text} title={`Code of ${text}`} />
              <span class="strip-words">
                <span class="ident">{text}</span>
                <small>twin</small>
              </span>
            </li>
          )),
        )}
      </ul>
      <div class="label-ruler" aria-hidden="true">
        100 mm
      </div>
      <p class="desk-note">
        Print at 100 %, without fitting to the page: the line above then measures 100 mm. The code holds the number
        alone.
      </p>
    </Screen>
  );
}
