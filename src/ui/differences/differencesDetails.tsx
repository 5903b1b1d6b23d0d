// One difference opened: found and plan, on what it rests and how old that is, photos, notes, what is to be done about
// it, and the way there.

import { useSignal } from '@preact/signals';
import { type AuditId, isJack } from '../../core/plan/identity.ts';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import { evidenceToWords, isHazard } from '../../core/report/words/reportSentences.ts';
import { useAsked, useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { PhotoThumb } from '../photos/photoThumb.tsx';
import { PhotoViewer } from '../photos/photoViewer.tsx';
import { go } from '../router.ts';
import { age, dayAndClock } from '../times.ts';
import { Decide } from './differencesDecide.tsx';

export function DifferenceDetails(props: { line: DifferenceLine; audit: AuditId; onClose?: () => void }) {
  const { line } = props;
  const services = useServices();
  const at = line.placeIds.findIndex(isJack);
  const place = line.placeIds[at];
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
        <dt>Evidence</dt>
        <dd>
          {line.evidence.length === 0
            ? 'From the plan itself; no look is needed to see it.'
            : line.evidence.map((one, i) => (
                <div key={i}>
                  {sentence(evidenceToWords(one))}, {dayAndClock(one.at)} ({age(one.at, services.now())}
                  ), {one.author}
                </div>
              ))}
        </dd>
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
      <Decide audit={props.audit} line={line.decision} />
      <div class="details-foot no-print">
        {place !== undefined && (
          <PlainButton primary onPress={() => go({ screen: 'walk', audit: props.audit, place })}>
            Go there: <Ident text={line.places[at] ?? place} />
          </PlainButton>
        )}
        {props.onClose && <PlainButton onPress={props.onClose}>Close</PlainButton>}
      </div>
    </section>
  );
}

function sentence(words: string): string {
  return `${words[0]?.toUpperCase() ?? ''}${words.slice(1)}`;
}

function isLabel(line: DifferenceLine, text: string): boolean {
  return line.labels.includes(text);
}

/** A photo small; over the whole screen when pressed. One of another phone may still be on its way. */
function Photo({ audit, document }: { audit: AuditId; document: string }) {
  const asked = useAsked('photo', { audit, document });
  const open = useSignal(false);
  const photo = asked.type === 'ready' ? asked.value?.photo : null;
  if (!photo) return null;
  return (
    <>
      <button
        type="button"
        aria-label={`Photo of ${photo.words}, ${dayAndClock(photo.at)}`}
        onClick={() => {
          open.value = true;
        }}
      >
        <PhotoThumb photo={photo} />
      </button>
      {open.value && (
        <PhotoViewer
          audit={audit}
          document={document}
          onClose={() => {
            open.value = false;
          }}
        />
      )}
    </>
  );
}
