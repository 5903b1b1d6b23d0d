// A page of labels to print, or to read off this screen with another phone: QR of the plain identifier with the text
// beneath. It changes nothing in the record.
//
// Limits: Labels are printed as plain pages, not on label stock.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import { useAsked, useServices } from '../context.ts';
import { Field, PlainButton } from '../parts/form.tsx';
import { Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Empty, Row } from '../parts/rows.tsx';
import { back, NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { count } from '../words.ts';
import { Qr } from './labelsQr.tsx';
import { LabelsRenaming } from './labelsRenaming.tsx';
import { LabelsTwins } from './labelsTwins.tsx';
import '../look/desk.css';
import '../look/report.css';

/** More codes than this are drawn on demand. */
const STEP = 300;

export default function Labels({ audit }: { audit: AuditId | null }) {
  const services = useServices();
  const asked = useAsked('labels', { audit });
  const wanted = useSignal('');
  const drawn = useSignal(STEP);
  const half = useAsked('renamingHalf', { audit: audit ?? '' });
  const renaming = useSignal(false);
  const twins = useSignal(false);
  if (asked.type !== 'ready') return <NoAnswer title="Labels" asked={asked} missing="" />;
  if (audit !== null && renaming.value) {
    return (
      <LabelsRenaming
        audit={audit}
        onBack={() => {
          renaming.value = false;
        }}
      />
    );
  }
  if (twins.value) {
    return (
      <LabelsTwins
        onBack={() => {
          twins.value = false;
        }}
      />
    );
  }
  const key = wanted.value.trim().toUpperCase();
  const rows = asked.value.filter(
    ({ text, line }) => text.toUpperCase().startsWith(key) || line.toUpperCase().includes(key),
  );
  const shown = rows.slice(0, drawn.value);
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[
            { small: services.stationName.value || 'Station', big: 'Labels', heading: true },
            { small: key === '' ? 'In the plan' : 'Chosen', big: String(rows.length) },
          ]}
        />
      }
      foot={
        shown.length > 0 ? (
          <TitleBlock
            rows={[
              [
                {
                  small: shown.length === rows.length ? 'All of them' : `The first ${shown.length} of ${rows.length}`,
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
      <div class="desk-part no-print">
        <Field
          label="Only labels with"
          hint="The beginning of a number, or a unit."
          type="search"
          ident
          value={wanted.value}
          onInput={(text) => {
            wanted.value = text;
            drawn.value = STEP;
          }}
        />
      </div>
      {half.type === 'ready' && half.value.listed > 0 && (
        <div class="no-print">
          <Row
            title="Labels for the renaming list"
            second="New names in walking order: one for each end, with its jack."
            onPress={() => {
              renaming.value = true;
            }}
          />
        </div>
      )}
      <div class="no-print">
        <Row
          title="A strip of temporary tags"
          second="Temporary numbers in pairs for cables without a label: code and text."
          onPress={() => {
            twins.value = true;
          }}
        />
      </div>
      {asked.value.length === 0 ? (
        <Empty
          what="The plan has no numbered cables."
          why="Labels come from the plan in use."
          next={{ text: 'Import a schedule', onPress: () => go({ screen: 'bring-in' }) }}
        />
      ) : shown.length === 0 ? (
        <Empty what={`No label with “${wanted.value.trim().slice(0, 60)}”.`} />
      ) : (
        <>
          <ul class="label-sheet">
            {shown.map((row, i) => (
              <li key={i} class="label-one">
                <Qr text={row.text} title={`Code of ${row.text}`} />
                <span class="ident">{row.text}</span>
                <small>{row.line}</small>
              </li>
            ))}
          </ul>
          {rows.length > shown.length && (
            <div class="desk-part no-print">
              <PlainButton
                onPress={() => {
                  drawn.value += STEP;
                }}
              >
                Show {Math.min(STEP, rows.length - shown.length)} more
              </PlainButton>
            </div>
          )}
          <div class="label-ruler" aria-hidden="true">
            100 mm
          </div>
          <p class="desk-note">
            Print at 100 %, without fitting to the page: the line above then measures 100 mm. Each code holds only the
            identifier; any code reader can read it.
          </p>
        </>
      )}
    </Screen>
  );
}
