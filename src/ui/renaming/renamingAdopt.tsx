// Makes finished renames the plan: shows every change first, then stores one new document. What is not done on the
// floor stays as it is in the plan.
import type { AuditId } from '../../core/plan/identity.ts';
import { useAsked } from '../context.ts';
import { SectionHead } from '../parts/rows.tsx';
import { useAdoption } from '../plan/planAdoption.tsx';
import { labelToShow } from '../walk/walkState.ts';
import { Pair } from './renamingPair.tsx';
import { adoptToWords } from './renamingWords.ts';

const SHOWN = 30;

export function Adopt({ audit }: { audit: AuditId }) {
  const asked = useAsked('renamingPlan', { audit, whole: false });
  const changed = asked.type === 'ready' ? (asked.value?.cables.length ?? 0) : 0;
  const adoption = useAdoption('renamingPlan', audit, changed);
  if (asked.type !== 'ready' || asked.value === null) return null;
  const { cables, settings, left } = asked.value;
  return (
    <section aria-label="Make the new names the plan">
      <SectionHead title="Make the new names the plan" right={String(cables.length)} />
      <div class="desk-part">
        {cables.length === 0 ? (
          <p>{left.length === 0 ? 'The plan has the new names.' : 'No finished name can go into the plan yet.'}</p>
        ) : (
          <>
            <p>
              {adoptToWords(cables.length, settings.length)} All others stay as they are. The plan in use now is kept as
              the revision before.
            </p>
            {cables.slice(0, SHOWN).map((one) => (
              <p key={one.id}>
                <Pair old={one.old} fresh={one.new} done />
              </p>
            ))}
            {cables.length > SHOWN && <p>And {cables.length - SHOWN} more.</p>}
            {settings.slice(0, SHOWN).map((one) => (
              <p key={`${one.place ?? one.unit} ${one.name}`}>
                {one.unit} {one.name}: {labelToShow(one.old)} becomes {labelToShow(one.new)}
              </p>
            ))}
          </>
        )}
        {left.map((one) => (
          <p key={one.id}>
            Left out: {labelToShow(one.old)}, {one.why}.
          </p>
        ))}
        {adoption.button}
      </div>
      {adoption.failed}
    </section>
  );
}
