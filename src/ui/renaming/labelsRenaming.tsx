// The labels of a renaming list on paper: those that are not on yet, in walking order, one per end, each with its jack
// in small type. Sizes are in millimetres; it changes nothing in the record.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import type { RenamingLabel } from '../../core/report/renamingView.ts';
import { useAsked } from '../context.ts';
import { PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Empty } from '../parts/rows.tsx';
import { NoAnswer } from '../plan/planParts.tsx';
import { count } from '../words.ts';
import { Qr } from './labelsQr.tsx';
import '../look/renamingLabels.css';

/** More codes than this are drawn on demand. */
const STEP = 240;

export function LabelsRenaming({ audit, onBack }: { audit: AuditId; onBack: () => void }) {
  const asked = useAsked('renamingLabels', { audit });
  const drawn = useSignal(STEP);
  if (asked.type !== 'ready') return <NoAnswer title="Labels" asked={asked} missing="" />;
  const labels = asked.value;
  const shown = labels.slice(0, drawn.value);
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back to the labels of the plan', onPress: onBack }}
          cells={[
            { small: 'Labels', big: 'Renaming list', heading: true, wide: true },
            { small: 'To put on', big: String(labels.length) },
          ]}
        />
      }
      foot={
        shown.length > 0 ? (
          <TitleBlock
            rows={[
              [
                {
                  small:
                    shown.length === labels.length ? 'All of them' : `The first ${shown.length} of ${labels.length}`,
                  big: `Print ${count(shown.length, 'label')}`,
                  primary: true,
                  onPress: () => print(),
                },
              ],
            ]}
          />
        ) : undefined
      }
    >
      {labels.length === 0 ? (
        <Empty what="No renaming list has a label left to put on." />
      ) : (
        <>
          <p class="desk-note no-print">
            In walking order, one for each end. Take some blanks along: expect to spoil about one in ten.
          </p>
          {byRack(shown).map(([where, group]) => (
            <section key={where} class="strip-group" aria-label={where}>
              <h2 class="strip-rack">{where}</h2>
              <ul class="strip-sheet">
                {group.map((one, i) => (
                  <li key={i} class="strip-one">
                    <Qr text={one.text} title={`Code of ${one.text}`} />
                    <span class="strip-words">
                      <span class="ident">{one.text}</span>
                      <small>{one.at}</small>
                      <small>was {one.old}</small>
                    </span>
                  </li>
                ))}
              </ul>
            </section>
          ))}
          {labels.length > shown.length && (
            <div class="desk-part no-print">
              <PlainButton
                onPress={() => {
                  drawn.value += STEP;
                }}
              >
                Show {Math.min(STEP, labels.length - shown.length)} more
              </PlainButton>
            </div>
          )}
          <div class="label-ruler" aria-hidden="true">
            100 mm
          </div>
          <p class="desk-note">
            Print at 100 %, without fitting to the page: the line above then measures 100 mm, a label 60 by 16 mm. The
            code holds only the new name. The small type tells where the label goes: cut it off or leave it.
          </p>
        </>
      )}
    </Screen>
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
