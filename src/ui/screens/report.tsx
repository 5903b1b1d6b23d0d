// The reconciliation of one audit on one sheet: what was checked, what differs, what was not looked at and why, by
// whom and against which plan. Files are made first and handed over on a second tap; nothing is signed here.
import { useSignal } from '@preact/signals';
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { useAsked, useServices } from '../context.ts';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, FactStrip } from '../parts/rows.tsx';
import { go } from '../router.ts';
import { day, dayAndClock } from '../times.ts';
import { back, NoAnswer } from './planParts.tsx';
import { reportFiles } from './reportFiles.ts';
import { Lead, NotLooked, Racks, Strokes, Worst } from './reportParts.tsx';
import { occasionToWords, permissionToWords, reportName } from './reportWords.ts';
import '../look/desk.css';
import '../look/report.css';

type Files =
  | { type: 'none' }
  | { type: 'making' }
  | { type: 'ready'; html: File; csv: File; told: string | null }
  | { type: 'failed'; why: string };

export default function Report({ audit }: { audit: string }) {
  const services = useServices();
  const asked = useAsked('report', { audit });
  const home = useAsked('home', {});
  const files = useSignal<Files>({ type: 'none' });
  if (asked.type !== 'ready' || asked.value === null)
    return (
      <NoAnswer
        title="Report"
        asked={asked}
        missing="This audit is not on this phone, or its plan has not arrived yet."
        next="Send and receive fetches both."
      />
    );
  const report = asked.value;
  const summary = home.type === 'ready' ? home.value.audits.find(({ id }) => id === audit) : undefined;

  async function make(): Promise<void> {
    const lent = reportFiles.value;
    if (!lent) {
      files.value = { type: 'failed', why: 'The makers of files are not loaded.' };
      return;
    }
    files.value = { type: 'making' };
    try {
      const { html, csv } = await lent();
      const text = html(report, { madeAt: services.now(), version: services.update.version });
      files.value = {
        type: 'ready',
        html: new File([text], reportName(report, 'html'), { type: 'text/html' }),
        csv: new File([csv(report)], reportName(report, 'csv'), { type: 'text/csv' }),
        told: null,
      };
    } catch (error) {
      files.value = { type: 'failed', why: error instanceof Error ? error.message : String(error) };
    }
  }

  async function hand(file: File): Promise<void> {
    const how = await services.handOver(file);
    const now = files.peek();
    if (now.type === 'ready')
      files.value = {
        ...now,
        told:
          how === 'cancelled'
            ? 'Not handed over; it is still ready.'
            : `${file.name} ${how === 'shared' ? 'was shared' : 'was saved'}.`,
      };
  }

  const at = files.value;
  const cells: CellProps[] =
    at.type === 'ready'
      ? [
          { small: 'To read and print', big: 'HTML', primary: true, share: 2, onPress: () => void hand(at.html) },
          { small: 'Differences', big: 'CSV', onPress: () => void hand(at.csv) },
          { small: 'Paper', big: 'Print', onPress: () => print() },
        ]
      : [
          {
            small: at.type === 'making' ? 'Making them' : 'HTML and CSV',
            big: 'Prepare files',
            primary: true,
            share: 2,
            disabled: at.type === 'making',
            onPress: () => void make(),
          },
          { small: 'Paper', big: 'Print', onPress: () => print() },
          { small: 'Details', big: 'Differences', onPress: () => go({ screen: 'differences', audit }) },
        ];
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[
            { small: report.station || 'Station', big: 'Report', heading: true },
            { small: 'State', big: report.closedAt === null ? 'audit open' : `closed ${day(report.closedAt)}` },
          ]}
        />
      }
      aside={
        <>
          <Racks report={report} />
          <NotLooked report={report} />
        </>
      }
      asideAt="right"
      foot={
        <>
          {at.type === 'ready' && (
            <p class="desk-note" role="status">
              {at.told ?? 'Both files are ready: hand them over with a second tap.'}
            </p>
          )}
          {at.type === 'failed' && (
            <ErrorBox
              what="The files could not be made."
              where={at.why}
              todo="Print the page instead, or reload the app and try again. The record is untouched."
            />
          )}
          <TitleBlock rows={[cells]} />
        </>
      }
    >
      <Lead report={report} />
      <Strokes report={report} summary={summary} />
      <Worst report={report} onAll={() => go({ screen: 'differences', audit })} />
      <Facts report={report} />
    </Screen>
  );
}

function Facts({ report }: { report: Reconciliation }) {
  return (
    <>
      <FactStrip
        facts={[
          { small: 'Walked', big: report.people.join(', ') || 'nobody named' },
          {
            small: 'Plan',
            big: report.plan.revision ? <span class="ident">{report.plan.revision.slice(0, 8)}</span> : 'none',
          },
          { small: 'As found', big: report.startedAt ? span(report.startedAt, report.lastAt) : 'not begun' },
          { small: 'Allowed', big: permissionToWords(report.permission) },
          { small: 'Photos', big: String(report.photoCount) },
        ]}
      />
      <p class="desk-note">
        {occasionToWords(report.occasion)}. {report.plan.source ? `Plan read from ${report.plan.source}. ` : ''}
        Names are typed, not proven. Last statement {dayAndClock(report.lastAt)}.
      </p>
    </>
  );
}

function span(from: number, to: number): string {
  return day(from) === day(to) ? day(from) : `${day(from)} to ${day(to)}`;
}
