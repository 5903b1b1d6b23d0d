// Entries that contradict each other, side by side: what each says, who and when, and its pictures. Nothing is fixed,
// amended or left from here; somebody checks again first.
import type { AuditId } from '../../core/plan/identity.ts';
import type { ConflictSide } from '../../core/report/evidenceView.ts';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import { evidenceToWords } from '../../core/report/words/reportSentences.ts';
import { useServices } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { go } from '../router.ts';
import { age, dayAndClock } from '../times.ts';
import { SaidList } from './differencesDecide.tsx';
import { Photo } from './differencesPhoto.tsx';

export function Conflict(props: { audit: AuditId; line: DifferenceLine; sides: readonly ConflictSide[] }) {
  const { audit, line, sides } = props;
  const services = useServices();
  const { goTo } = line;
  const { said } = line.decision;
  return (
    <section class="conflict" aria-label="Entries that contradict each other">
      <div class="conflict-sides">
        {sides.map((side) => (
          <div key={side.event} class="conflict-side">
            <p class="conflict-value">{side.isLabel ? <CableLabel text={side.words} /> : side.words}</p>
            <p>
              <strong>{side.by}</strong>, {dayAndClock(side.at)} ({age(side.at, services.now())}),{' '}
              {evidenceToWords(side)}
            </p>
            {side.photos.length > 0 && (
              <div class="photo-strip">
                {side.photos.map((document) => (
                  <Photo key={document} audit={audit} document={document} />
                ))}
              </div>
            )}
          </div>
        ))}
      </div>
      {goTo && (
        <div class="details-foot no-print">
          <PlainButton primary onPress={() => go({ screen: 'walk', audit, place: goTo.place })}>
            Check again: <Ident text={goTo.words} />
          </PlainButton>
        </div>
      )}
      <p class="decide-note">Check it again before anything is decided or moved.</p>
      {said.length > 0 && <SaidList audit={audit} said={said} />}
    </section>
  );
}
