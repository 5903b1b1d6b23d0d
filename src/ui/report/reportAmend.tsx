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
    <section aria-label="Put the amendments into the plan">
      <SectionHead level={3} title="Put the amendments into the plan" right={String(changes.length)} />
      <div class="desk-part">
        {changes.length > 0 ? (
          <>
            <p>
              {count(changes.length, 'change')} of the plan in force{isWhole ? ', as listed above' : ''}. All else stays
              as it is; the plan of today is kept as its parent, and this audit stays with the plan it was walked by.
            </p>
            {shown.map((one) => (
              <p key={lineKey(one)}>
                <Changed line={one} />
              </p>
            ))}
            {!isWhole && changes.length > SHOWN && <p>And {changes.length - SHOWN} more.</p>}
          </>
        ) : (
          <p>{left.length === 0 ? 'The plan in force says it already.' : 'None of them can go into the plan yet.'}</p>
        )}
        {changes.length > 0 && done > 0 && <p>{count(done, 'change')} more: the plan in force says so already.</p>}
        {left.slice(0, SHOWN).map((one) => (
          <p key={lineKey(one)}>
            Left out: <Changed line={one} />. {one.why[0]?.toUpperCase()}
            {one.why.slice(1)}.
          </p>
        ))}
        {left.length > SHOWN && <p>And {left.length - SHOWN} more left out.</p>}
        {byHand > 0 && <p>{count(byHand, 'difference')} to be amended by hand: see above.</p>}
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
