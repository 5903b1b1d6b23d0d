// One difference opened: found and plan, on what it rests and how old that is, photos, notes, what is to be done about
// it, and the way there.

import type { AuditId } from '../../core/plan/identity.ts';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import { evidenceToWords } from '../../core/report/words/reportSentences.ts';
import { isHazard } from '../../core/trade/kinds.ts';
import { useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { go } from '../router.ts';
import { age, dayAndClock } from '../times.ts';
import { Conflict } from './differencesConflict.tsx';
import { Decide } from './differencesDecide.tsx';
import { Photo } from './differencesPhoto.tsx';

export function DifferenceDetails(props: { line: DifferenceLine; audit: AuditId; onClose?: () => void }) {
  const { line } = props;
  const { goTo } = line;
  return (
    <section class="difference-details" aria-label={`No. ${line.number}: ${line.title}`}>
      {!props.onClose && (
        <>
          <h2>
            No. {line.number}: {line.title}
          </h2>
          <p>
            <strong class={line.severity === 'undecided' ? 'blue' : 'red'}>{line.severityWords}.</strong> {line.line}
          </p>
        </>
      )}
      {line.order && !(props.onClose && isHazard(line)) && (
        <p>
          <strong>{line.order}</strong>
        </p>
      )}
      {line.conflict && <Conflict audit={props.audit} line={line} sides={line.conflict} />}
      <dl class="desk-facts desk-facts-flush">
        {line.found !== null && (
          <>
            <dt>Found</dt>
            <dd>{isLabel(line, line.found) ? <CableLabel text={line.found} /> : line.found}</dd>
          </>
        )}
        {line.plan !== null && (
          <>
            <dt>Plan</dt>
            <dd>{isLabel(line, line.plan) ? <CableLabel text={line.plan} variant="plan" /> : line.plan}</dd>
          </>
        )}
        {line.places.length > 0 && (
          <>
            <dt>Where</dt>
            <dd>
              {line.places.map((words, i) => (
                <span key={words}>
                  {i > 0 && ', '}
                  <Ident text={words} />
                </span>
              ))}
            </dd>
          </>
        )}
        {line.conflict === null && <Evidence line={line} />}
        {line.notes.length > 0 && (
          <>
            <dt>Notes</dt>
            <dd>
              {line.notes.map((note, i) => (
                <div key={i}>{note}</div>
              ))}
            </dd>
          </>
        )}
      </dl>
      {line.photos.length > 0 && (
        <div class="photo-strip">
          {line.photos.map((document) => (
            <Photo key={document} audit={props.audit} document={document} />
          ))}
        </div>
      )}
      {line.conflict === null && <Decide audit={props.audit} line={line.decision} />}
      <div class="details-foot no-print">
        {goTo && line.conflict === null && (
          <PlainButton primary onPress={() => go({ screen: 'walk', audit: props.audit, place: goTo.place })}>
            Go there: <Ident text={goTo.words} />
          </PlainButton>
        )}
        {props.onClose && <PlainButton onPress={props.onClose}>Close</PlainButton>}
      </div>
    </section>
  );
}

/** Who and when, for a hazard as for any other. */
function Evidence({ line }: { line: DifferenceLine }) {
  const services = useServices();
  return (
    <>
      <dt>Evidence</dt>
      <dd>
        {line.evidence.length === 0
          ? 'From the plan itself; nobody has to look.'
          : line.evidence.map((one, i) => (
              <div key={i}>
                {sentence(evidenceToWords(one))}, {dayAndClock(one.at)} ({age(one.at, services.now())}
                ), {one.author}
              </div>
            ))}
      </dd>
    </>
  );
}

function sentence(words: string): string {
  return `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}`;
}

function isLabel(line: DifferenceLine, text: string): boolean {
  return line.labels.includes(text);
}
