// What was recorded at the jack in hand before, by whom and when, for somebody who comes back to it; and which known labels
// a worn one fits. It shows; saying it anew is done at the thumb.
import type { WalkView } from '../../core/report/walk/walkView.ts';
import { STATE_WORDS } from '../../core/report/words/recordWords.ts';
import { useAsked, useServices } from '../context.ts';
import { list, timeToWords } from '../words.ts';
import type { WalkFlow } from './walkFlowType.ts';
import { labelToShow } from './walkState.ts';

/** The latest ones; all of them stand in the report. */
const SHOWN = 3;

export function SaidHere({ flow, view }: { flow: WalkFlow; view: WalkView }) {
  const services = useServices();
  const { looks, current } = view;
  const latest = [...looks].sort((a, b) => b.at - a.at).slice(0, SHOWN);
  if (latest.length === 0) return null;
  return (
    <section class="walk-said" aria-label={`Recorded at ${current.jack} before`}>
      {latest.map((look) => (
        <p key={look.event}>
          {current.jack}:{' '}
          {look.label === null ? (
            <strong>{STATE_WORDS[look.state].brief}</strong>
          ) : (
            <strong class="ident">{labelToShow(look.label)}</strong>
          )}
          {look.printed !== undefined && (
            <>
              {' '}
              (marked <span class="ident">{labelToShow(look.printed)}</span>)
            </>
          )}
          , {look.author === '' ? 'no name' : look.author}, {timeToWords(look.at, services.now())}
        </p>
      ))}
      {latest.some(({ state }) => state === 'illegible') && <FitsHere flow={flow} place={current.place} />}
    </section>
  );
}

function FitsHere({ flow, place }: { flow: WalkFlow; place: WalkView['current']['place'] }) {
  const asked = useAsked('fits', { audit: flow.audit, place });
  const fits = asked.type === 'ready' ? asked.value : null;
  if (fits === null) return null;
  const { pattern, labels, more } = fits;
  return (
    <p>
      <span class="ident">{labelToShow(pattern)}</span>{' '}
      {labels.length === 0 ? (
        'fits no known label.'
      ) : (
        <>
          fits <span class="ident">{list([...labels.map(labelToShow), ...(more > 0 ? [`${more} more`] : [])])}</span>.
        </>
      )}
    </p>
  );
}
