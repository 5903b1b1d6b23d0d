// Parts of the work to do: the step in hand, rolling back, what to look at again, the list in order. Plain data in,
// touches out; no state.
import type { PlaceId } from '../../core/plan/identity.ts';
import type { FixBlockView, FixesView, FixStepView } from '../../core/report/fixesView.ts';
import { Row, SectionHead } from '../parts/rows.tsx';
import { TickSymbol } from '../parts/symbols.tsx';
import { count } from '../words.ts';
import { airToWords, servicesOf, type UnderWay, wayBack } from './fixesFlow.ts';

/** More services than this are counted, not listed, on the step. */
const LISTED = 6;

export function StepNow(props: { step: FixStepView; n: number; of: number; block: FixBlockView }) {
  const { step, n, of, block } = props;
  return (
    <section class="fix-now" aria-label="Step in hand">
      <h2>
        {of > 1 ? `Step ${n} of ${of}` : '1 step'}
        {block.waits ? ', waiting' : ''}
      </h2>
      <p class="fix-words" aria-live="polite">
        {step.words}
      </p>
      {step.why && <p>{step.why}</p>}
      {block.waits && <p>{block.waits}</p>}
      {block.onlyInWindow && (
        <p>
          <strong>Only in the maintenance window: {block.window}.</strong> Ask whoever agreed it whether it is open now.
        </p>
      )}
      {step.interrupts.length > 0 && (
        <>
          <p>
            <strong>{step.onAir ? 'Goes off the air meanwhile' : 'Goes off meanwhile'}</strong>
          </p>
          <ul class={`fix-off${step.onAir ? ' fix-air' : ''}`}>
            {step.interrupts.slice(0, LISTED).map((line) => (
              <li key={line}>{line}</li>
            ))}
            {step.interrupts.length > LISTED && (
              <li>and {count(step.interrupts.length - LISTED, 'more service', 'more services')}</li>
            )}
          </ul>
        </>
      )}
      {step.beyond.length > 0 && (
        <p>What {step.beyond.join(', ')} does with it is not known: its routes are not in the plan.</p>
      )}
    </section>
  );
}

export function BackNow({ one }: { one: UnderWay }) {
  const steps = wayBack(one);
  const at = one.back ?? 0;
  return (
    <section class="fix-now" aria-label="Rolling back">
      <h2>
        Rolling back: step {at + 1} of {steps.length}
      </h2>
      <p class="fix-words" aria-live="polite">
        {steps[at]}
      </p>
      {at + 1 < steps.length && <p>Then: {steps.slice(at + 1).join(' ')}</p>}
      <p>When it is as found, listen to the air again.</p>
    </section>
  );
}

/** @param left Places that nobody looked at since the work; null while that is being asked. */
export function Finished(props: { one: UnderWay; left: readonly PlaceId[] | null; walkTo: (place: PlaceId) => void }) {
  const { one, left, walkTo } = props;
  const { lookAgain } = one.block;
  return (
    <section aria-label="Look again">
      <div class="fix-now">
        <p class="fix-words">{left?.length === 0 ? 'Done, and every place was checked again.' : 'Done. Look again.'}</p>
        <p>
          {lookAgain.length === 0
            ? 'Nothing to look at again.'
            : left?.length === 0
              ? 'Finish it; what still differs comes back as work.'
              : 'Look at each place and record what is there now. Only that counts in the report.'}
        </p>
      </div>
      {lookAgain.map(({ placeId, words }) => (
        <Row
          key={placeId}
          symbol={left && !left.includes(placeId) ? <TickSymbol size={1.2} /> : undefined}
          title={words}
          second={left && !left.includes(placeId) ? 'Checked again' : 'Open the walk here'}
          onPress={() => walkTo(placeId)}
        />
      ))}
    </section>
  );
}

const TYPE_WORDS: Record<FixBlockView['type'], string> = { hazard: 'Hazard', look: 'Check or ask', work: '' };

/** What depends on the work, by name, behind one touch. */
export function Depends({ view }: { view: FixesView }) {
  const services = servicesOf(view);
  if (services.length === 0) return null;
  return (
    <details class="desk-fold">
      <summary>What depends on it: {count(services.length, 'service')}</summary>
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
              right={step.onAir ? 'off air' : undefined}
              onPress={props.onChoose && (() => props.onChoose?.(block.id))}
            />
          ))}
        </div>
      ))}
    </section>
  );
}

/** "21 steps, 4 plug movements. Nothing marked on-air; 10 services depend on it. Estimated time: 40 minutes." */
export function totalsToWords(view: FixesView): string {
  const { totals, waiting } = view;
  return [
    `${count(totals.steps, 'step')}, ${count(totals.movements, 'plug movement')}.`,
    airToWords(view),
    `Estimated time: ${count(totals.minutes, 'minute')}.`,
    waiting > 0 ? `${count(waiting, 'job waits and keeps its place', 'jobs wait and keep their place')}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}
