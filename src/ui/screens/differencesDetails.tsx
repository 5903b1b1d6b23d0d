// One difference opened: found and plan, on what it rests and how old that is, photos, notes, and the way there.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import { evidenceToWords, isHazard } from '../../core/report/reportSentences.ts';
import { useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { go } from '../router.ts';
import { age, dayAndClock } from '../times.ts';

export function DifferenceDetails(props: { line: DifferenceLine; audit: string; onClose?: () => void }) {
  const { line } = props;
  const services = useServices();
  const at = line.placeIds.findIndex((place) => place.includes('/'));
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
        <div class="desk-photos">
          {line.photos.map((document) => (
            <Photo key={document} document={document} />
          ))}
        </div>
      )}
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

/** A thumb; the whole picture when pressed. A photo of another phone may still be on its way. */
function Photo({ document }: { document: string }) {
  const services = useServices();
  const large = useSignal(false);
  const url = useSignal<string | null | undefined>(undefined);
  useEffect(() => {
    let live = true;
    let made: string | null = null;
    void services.photoUrl(document, large.value ? 'full' : 'thumb').then((found) => {
      made = found;
      if (live) url.value = found;
      else if (found) URL.revokeObjectURL(found);
    });
    return () => {
      live = false;
      if (made) URL.revokeObjectURL(made);
    };
  }, [document, large.value, services.changed.value]);
  if (url.value === null) return <p class="quiet">Photo is not on this phone yet; it comes with the next exchange.</p>;
  if (url.value === undefined) return <p class="quiet">Opening the photo.</p>;
  return (
    <button
      type="button"
      class={large.value ? 'desk-photo desk-photo-large' : 'desk-photo'}
      aria-pressed={large.value}
      onClick={() => {
        large.value = !large.value;
      }}
    >
      <img
        src={url.value}
        alt={large.value ? 'Photo of this place' : 'Photo of this place, small; press for the whole'}
      />
    </button>
  );
}
