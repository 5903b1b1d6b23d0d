// Labels of the plan to print, or to read off this screen with another phone: QR of the plain identifier with the text
// beneath. It changes nothing in the record.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import { useAsked, useServices } from '../context.ts';
import { Field } from '../parts/form.tsx';
import { Empty, Row, useShown } from '../parts/rows.tsx';
import { back, NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { LabelPage, shownOf } from './labelPage.tsx';
import { Qr } from './labelsQr.tsx';
import { LabelsRenaming } from './labelsRenaming.tsx';
import { LabelsTwins } from './labelsTwins.tsx';

/** More codes than this are drawn on demand. */
const STEP = 300;

export default function Labels({ audit }: { audit: AuditId | null }) {
  const page = useSignal<'plan' | 'renaming' | 'twins'>('plan');
  const onBack = () => {
    page.value = 'plan';
  };
  if (audit !== null && page.value === 'renaming') return <LabelsRenaming audit={audit} onBack={onBack} />;
  if (page.value === 'twins') return <LabelsTwins onBack={onBack} />;
  return (
    <LabelsOfPlan
      audit={audit}
      to={(next) => () => {
        page.value = next;
      }}
    />
  );
}

function LabelsOfPlan({ audit, to }: { audit: AuditId | null; to: (page: 'renaming' | 'twins') => () => void }) {
  const services = useServices();
  const asked = useAsked('labels', { audit });
  const half = useAsked('renamingHalf', { audit: audit ?? '' });
  const wanted = useSignal('');
  const key = wanted.value.trim().toUpperCase();
  const rows = (asked.type === 'ready' ? asked.value : []).filter(
    ({ text, line }) => text.toUpperCase().startsWith(key) || line.toUpperCase().includes(key),
  );
  const { shown, more, restart } = useShown(rows, STEP);
  if (asked.type !== 'ready') return <NoAnswer title="Labels" asked={asked} missing="" />;
  return (
    <LabelPage
      back={{ label: 'Back', onPress: back }}
      cells={[
        { small: services.stationName.value || 'Station', big: 'Labels', heading: true },
        { small: key === '' ? 'In the plan' : 'Chosen', big: String(rows.length) },
      ]}
      labels={shown.length}
      which={shownOf(shown.length, rows.length)}
      above={
        <div class="no-print">
          <div class="desk-part">
            <Field
              label="Only labels with"
              hint="The beginning of a number, or a unit."
              type="search"
              ident
              value={wanted.value}
              onInput={(text) => {
                wanted.value = text;
                restart();
              }}
            />
          </div>
          {half.type === 'ready' && half.value.listed > 0 && (
            <Row
              title="Labels for the renaming list"
              second="New names in walking order: one for each end, with its jack."
              onPress={to('renaming')}
            />
          )}
          <Row
            title="A strip of temporary tags"
            second="Temporary numbers in pairs for cables without a label: code and text."
            onPress={to('twins')}
          />
        </div>
      }
      empty={
        asked.value.length === 0 ? <NoCables /> : shown.length === 0 ? <NoneWith text={wanted.value} /> : undefined
      }
      note="Each code holds only the identifier; any code reader can read it."
    >
      <ul class="label-sheet">
        {shown.map((row, i) => (
          <li key={i} class="label-one">
            <Qr text={row.text} title={`Code of ${row.text}`} />
            <span class="ident">{row.text}</span>
            <small>{row.line}</small>
          </li>
        ))}
      </ul>
      {more}
    </LabelPage>
  );
}

function NoCables() {
  return (
    <Empty
      what="The plan has no numbered cables."
      why="Labels come from the plan in use."
      next={{ text: 'Import a schedule', onPress: () => go({ screen: 'bring-in' }) }}
    />
  );
}

function NoneWith({ text }: { text: string }) {
  return <Empty what={`No label with “${text.trim().slice(0, 60)}”.`} />;
}
