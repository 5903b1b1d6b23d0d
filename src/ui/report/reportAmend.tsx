// Puts what was decided to amend into the plan: shows every change first, then stores one new document. The plan before
// it stays on record as its parent, and the audit stays with the plan it was walked by.
import type { AuditId } from '../../core/plan/identity.ts';
import type { AmendmentLine } from '../../core/report/decisionsView.ts';
import { useAsked } from '../context.ts';
import { CableLabel, Ident } from '../parts/label.tsx';
import { SectionHead } from '../parts/rows.tsx';
import { useAdoption } from '../plan/planAdoption.tsx';
import { labelToShow } from '../walk/walkState.ts';
import { count } from '../words.ts';

const SHOWN = 30;

export function AmendPlan({ audit }: { audit: AuditId }) {
  const asked = useAsked('amendedPlan', { audit, whole: false });
  const changed = asked.type === 'ready' ? (asked.value?.changes.length ?? 0) : 0;
  const adoption = useAdoption('amendedPlan', audit, changed);
  if (asked.type !== 'ready' || asked.value === null) return null;
  const { changes, done, left, byHand } = asked.value;
  if (changes.length + done + left.length === 0) return null;
  // Where all of them go in, the list above is the list.
  const isWhole = done + left.length === 0;
  const shown = isWhole ? [] : changes.slice(0, SHOWN);
  return (
    <section aria-label="Update the plan">
      <SectionHead level={3} title="Update the plan" right={count(changes.length, 'change')} />
      <div class="desk-part">
        {changes.length > 0 ? (
          <>
            <p>
              {count(changes.length, 'change')} to the plan in force{isWhole ? ', as listed above' : ''}. Everything
              else stays. Today’s plan is kept, and this audit stays on the plan it was walked with.
            </p>
            {shown.map((one) => (
              <p key={lineKey(one)}>
                <Changed line={one} />
              </p>
            ))}
            {!isWhole && changes.length > SHOWN && (
              <p>And {count(changes.length - SHOWN, 'more change', 'more changes')}.</p>
            )}
          </>
        ) : (
          <p>
            {left.length === 0 ? 'The plan in force already has all of it.' : 'None of it can go into the plan yet.'}
          </p>
        )}
        {changes.length > 0 && done > 0 && (
          <p>{count(done, 'more change is', 'more changes are')} in the plan already.</p>
        )}
        {left.slice(0, SHOWN).map((one) => (
          <p key={lineKey(one)}>
            Left out: <Changed line={one} />. {one.why[0]?.toUpperCase()}
            {one.why.slice(1)}.
          </p>
        ))}
        {left.length > SHOWN && <p>And {count(left.length - SHOWN, 'more change', 'more changes')} left out.</p>}
        {byHand > 0 && <p>{count(byHand, 'difference')} to update by hand: see above.</p>}
        {adoption.button}
      </div>
      {adoption.failed}
    </section>
  );
}

const lineKey = ({ label, end, to }: AmendmentLine) => `${label} ${end} ${to}`;

/** What changes of what, from where to where. */
export function Changed({ line }: { line: AmendmentLine }) {
  const { label, isCable, end, from, to } = line;
  return (
    <>
      {isCable ? <CableLabel text={labelToShow(label)} variant="plan" /> : <Ident text={label} />} {end}
      {from === null ? (
        ' at '
      ) : (
        <>
          : <Ident text={from} /> to{' '}
        </>
      )}
      <Ident text={to} />
    </>
  );
}
