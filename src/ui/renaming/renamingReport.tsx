// The renaming in the report: how far it is, what is half done and who was told. Nothing where no list was brought in.
import type { AuditId } from '../../core/plan/identity.ts';
import { useAsked } from '../context.ts';
import { Row, SectionHead } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { Pair } from './renamingPair.tsx';
import '../look/renaming.css';

export function RenamingReport({ audit }: { audit: AuditId }) {
  const asked = useAsked('renaming', { audit, from: null });
  const view = asked.type === 'ready' ? asked.value : null;
  if (!view || view.counts.all === 0) return null;
  const { all, done, half, untouched } = view.counts;
  return (
    <section aria-label="Renaming">
      <SectionHead title="Renaming" right={`${done} of ${all} done`} strong />
      <p class="desk-note">
        {half} half done, {untouched} not begun. Only a name that both ends bear goes into the plan.
      </p>
      {view.half.map((line) => (
        <Row
          key={`${line.cable} ${line.new}`}
          title={<Pair old={line.old} fresh={line.new} />}
          second={
            <>
              {line.todo.join(' ')} {line.handedOver === null ? 'Nobody was told.' : `Handed over: ${line.handedOver}`}
            </>
          }
          onPress={() => go({ screen: 'renaming', audit, place: line.place })}
        />
      ))}
    </section>
  );
}
