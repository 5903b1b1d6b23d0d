// Parts of the work to do: the step in hand, rolling back, what to look at again, the list in order. Plain data in,
// touches out; no state.
import type { PlaceId } from '../../core/plan/identity.ts';
import type { FixBlockView, FixesView, FixStepView } from '../../core/report/fixesView.ts';
import { beyondToWords } from '../../core/report/words/reportSentences.ts';
import { TriedLines } from '../differences/differencesCheck.tsx';
import { FirstOf } from '../parts/fold.tsx';
import { PlainButton } from '../parts/form.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { TickSymbol } from '../parts/symbols.tsx';
import { count } from '../words.ts';
import { servicesOf, type UnderWay, wayBack } from './fixesFlow.ts';
import {
  dependsOnIt,
  FIX_WORDS,
  moreServices,
  onlyIn,
  recordTestAt,
  rollingBackOf,
  stepOf,
  TYPE_WORDS,
  thenToWords,
} from './fixesWords.ts';

/** So many services stand on the step; the others are one touch away. */
const LISTED = 6;

/** @param toTest Opens the form in which a test of this end is recorded. */
export function StepNow(props: {
  step: FixStepView;
  n: number;
  of: number;
  block: FixBlockView;
  toTest: (place: PlaceId) => void;
}) {
  const { step, n, of, block, toTest } = props;
  const tested = step.tests && block.waits === null ? step.placeId : null;
  return (
    <section class="fix-now" aria-label={FIX_WORDS.stepInHand}>
      <h2>{stepOf(n, of, block.waits !== null)}</h2>
      <p class="fix-words" aria-live="polite">
        {step.words}
      </p>
      {step.why && <p>{step.why}</p>}
      {step.tried && <TriedLines tried={step.tried} />}
      {block.waits && <p>{block.waits}</p>}
      {block.onlyInWindow && (
        <p>
          <strong>{onlyIn(block.window ?? '')}</strong> Ask whoever agreed it whether it is open now.
        </p>
      )}
      {step.interrupts.length > 0 && (
        <>
          <p>
            <strong>{step.onAir ? FIX_WORDS.airMeanwhile : FIX_WORDS.offMeanwhile}</strong>
          </p>
          <FirstOf
            of={step.interrupts}
            first={LISTED}
            rest={moreServices}
            class={`fix-off${step.onAir ? ' fix-air' : ''}`}
          >
            {(line) => line}
          </FirstOf>
        </>
      )}
      {tested !== null && (
        <PlainButton onPress={() => toTest(tested)}>{recordTestAt(step.to ?? step.from ?? '')}</PlainButton>
      )}
      {step.beyond.length > 0 && <p>{beyondToWords(step.beyond)}</p>}
    </section>
  );
}

export function BackNow({ one }: { one: UnderWay }) {
  const steps = wayBack(one);
  const at = one.back ?? 0;
  return (
    <section class="fix-now" aria-label={FIX_WORDS.rollingBack}>
      <h2>{rollingBackOf(at + 1, steps.length)}</h2>
      <p class="fix-words" aria-live="polite">
        {steps[at]}
      </p>
      {at + 1 < steps.length && <p>{thenToWords(steps.slice(at + 1))}</p>}
      <p>{FIX_WORDS.listenAgain}</p>
    </section>
  );
}

/** @param left Places that nobody looked at since the work; null while that is being asked. */
export function Finished(props: { one: UnderWay; left: readonly PlaceId[] | null; walkTo: (place: PlaceId) => void }) {
  const { one, left, walkTo } = props;
  const { lookAgain } = one.block;
  return (
    <section aria-label={FIX_WORDS.lookAgain}>
      <div class="fix-now">
        <p class="fix-words">{left?.length === 0 ? FIX_WORDS.allChecked : FIX_WORDS.doneLook}</p>
        <p>
          {lookAgain.length === 0
            ? FIX_WORDS.nothingToLook
            : left?.length === 0
              ? FIX_WORDS.finishIt
              : FIX_WORDS.recordIt}
        </p>
      </div>
      {lookAgain.map(({ placeId, words }) => (
        <Row
          key={placeId}
          symbol={left && !left.includes(placeId) ? <TickSymbol size={1.2} /> : undefined}
          title={words}
          second={left && !left.includes(placeId) ? FIX_WORDS.checkedAgain : FIX_WORDS.openWalk}
          onPress={() => walkTo(placeId)}
        />
      ))}
    </section>
  );
}

/** What depends on the work, by name, behind one touch. */
export function Depends({ view }: { view: FixesView }) {
  const services = servicesOf(view);
  if (services.length === 0) return null;
  return (
    <details class="desk-fold">
      <summary>{dependsOnIt(services.length)}</summary>
      <ul class="desk-changes">
        {services.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  );
}

export function WorkList(props: {
  title: string;
  blocks: readonly FixBlockView[];
  chosen: string | null;
  /** Steps done of the only block. */
  done?: number;
  onChoose?: (id: string) => void;
}) {
  return (
    <section aria-label={props.title}>
      <SectionHead title={props.title} right={count(props.blocks.flatMap(({ steps }) => steps).length, 'step')} />
      {props.blocks.map((block) => (
        <div
          key={block.id}
          class="fix-piece"
          data-chosen={String(block.id === props.chosen)}
          data-waits={String(block.waits !== null)}
        >
          {block.waits && <p class="fix-waits">{block.waits}</p>}
          {block.steps.map((step, i) => (
            <Row
              key={step.n}
              symbol={i < (props.done ?? 0) ? <TickSymbol size={1.2} /> : String(step.n)}
              title={step.words}
              second={(i === 0 && [TYPE_WORDS[block.type], block.window].filter(Boolean).join(', ')) || undefined}
              right={step.onAir ? FIX_WORDS.offAirShort : undefined}
              onPress={props.onChoose && (() => props.onChoose?.(block.id))}
            />
          ))}
        </div>
      ))}
    </section>
  );
}
