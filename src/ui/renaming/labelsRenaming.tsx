// The labels of a renaming list on paper: those that are not on yet, in walking order, one per end, each with its jack
// in small type.
import type { AuditId } from '../../core/plan/identity.ts';
import type { RenamingLabel } from '../../core/report/renamingView.ts';
import { useAsked } from '../context.ts';
import { Empty, useShown } from '../parts/rows.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { LabelPage, StripLabel, shownOf } from './labelPage.tsx';

/** More codes than this are drawn on demand. */
const STEP = 240;

export function LabelsRenaming({ audit, onBack }: { audit: AuditId; onBack: () => void }) {
  const asked = useAsked('renamingLabels', { audit });
  const labels = asked.type === 'ready' ? asked.value : [];
  const { shown, more } = useShown(labels, STEP);
  if (asked.type !== 'ready') return <NoAnswer title="Labels" asked={asked} missing="" />;
  return (
    <LabelPage
      back={{ label: 'Back to the labels of the plan', onPress: onBack }}
      cells={[
        { small: 'Labels', big: 'Renaming list', heading: true, wide: true },
        { small: 'To put on', big: String(labels.length) },
      ]}
      labels={shown.length}
      which={shownOf(shown.length, labels.length)}
      above={
        labels.length > 0 && (
          <p class="desk-note no-print">
            In walking order, one for each end. Take some blanks along: expect to spoil about one in ten.
          </p>
        )
      }
      empty={labels.length === 0 ? <Empty what="No renaming list has a label left to put on." /> : undefined}
      note="A label is 60 by 16 mm. The code holds only the new name. The small type tells where the label goes: cut it off or leave it."
    >
      {byRack(shown).map(([where, group]) => (
        <section key={where} class="strip-group" aria-label={where}>
          <h2 class="strip-rack">{where}</h2>
          <ul class="strip-sheet">
            {group.map((one, i) => (
              <StripLabel key={i} text={one.text} small={[one.at, `was ${one.old}`]} />
            ))}
          </ul>
        </section>
      ))}
      {more}
    </LabelPage>
  );
}

/** Neighbours of one rack or room together, in the order given. */
function byRack(labels: readonly RenamingLabel[]): [string, RenamingLabel[]][] {
  const groups: [string, RenamingLabel[]][] = [];
  for (const one of labels) {
    const last = groups.at(-1);
    if (last?.[0] === one.where) last[1].push(one);
    else groups.push([one.where, [one]]);
  }
  return groups;
}
