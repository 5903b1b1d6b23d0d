// The reconciliation of one audit on one sheet: what was checked, what differs, what was not looked at and why, by
// whom and against which plan. Files are made first and handed over on a second tap; nothing is signed here.

import { useSignal } from '@preact/signals';
import type { AuditId } from '../../core/plan/identity.ts';
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { PERMISSION_WORDS } from '../../core/report/words/recordWords.ts';
import { CLOSING_WORDS, movesToWords, planToWords } from '../../core/report/words/reportSentences.ts';
import { useAsked, useServices } from '../context.ts';
import { useWide } from '../differences/differencesShown.ts';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { Ident } from '../parts/label.tsx';
import { ErrorBox, FactStrip, Row } from '../parts/rows.tsx';
import { back, NoAnswer } from '../plan/planParts.tsx';
import { RenamingReport } from '../renaming/renamingReport.tsx';
import { go } from '../router.ts';
import { day, dayAndClock } from '../times.ts';
import { CloseAudit } from './reportClose.tsx';
import { ReportDecisions } from './reportDecisions.tsx';
import { reportFiles } from './reportFiles.ts';
import { AllDifferences, Lead, NotLooked, Racks, Strokes, Worst } from './reportParts.tsx';
import { ReportPhotos } from './reportPhotos.tsx';
import { picturesOf } from './reportPictures.ts';
import { ReportPlan } from './reportPlan.tsx';
import { occasionToWords, reportName } from './reportWords.ts';
import '../look/desk.css';
import '../look/report.css';

type Files =
  | { type: 'none' }
  | { type: 'making' }
  | { type: 'ready'; of: string; html: File; csv: File; told: string | null }
  | { type: 'failed'; why: string };

export default function Report({ audit }: { audit: AuditId }) {
  const services = useServices();
  const asked = useAsked('report', { audit });
  const home = useAsked('home', {});
  const files = useSignal<Files>({ type: 'none' });
  const closing = useSignal(false);
  const wide = useWide();
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
      const { reportToHtml, reportToCsv } = await lent();
      const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
      const pictures = await picturesOf(services, report);
      const about = { madeAt: services.now(), version: services.update.version, timeZone, pictures };
      const text = reportToHtml(report, about);
      files.value = {
        type: 'ready',
        of: stampOf(report),
        html: new File([text], reportName(report, 'html'), { type: 'text/html' }),
        csv: new File([reportToCsv(report)], reportName(report, 'csv'), { type: 'text/csv' }),
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

  // Files of an older state of the record are not handed over.
  const made = files.value;
  const at: Files = made.type === 'ready' && made.of !== stampOf(report) ? { type: 'none' } : made;
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
            big: 'Make file',
            primary: true,
            share: 2,
            disabled: at.type === 'making',
            onPress: () => void make(),
          },
          { small: 'Paper', big: 'Print', onPress: () => print() },
          report.closedAt === null
            ? {
                small: 'Nothing is deleted',
                big: 'Close the audit',
                onPress: () => {
                  closing.value = true;
                },
              }
            : { small: 'One by one', big: 'Differences', onPress: () => go({ screen: 'differences', audit }) },
        ];
  const checked = (
    <>
      <Racks report={report} />
      <NotLooked report={report} />
    </>
  );
  return (
    <Screen
      plate={
        <Plate
          back={{ label: 'Back', onPress: back }}
          cells={[
            { small: report.station || 'Station', big: 'Report', heading: true },
            { small: 'State', big: report.closedAt === null ? 'open' : 'closed' },
          ]}
        />
      }
      aside={wide ? checked : undefined}
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
      <AllDifferences report={report} onAll={() => go({ screen: 'differences', audit })} />
      <ReportDecisions report={report} onAll={() => go({ screen: 'differences', audit })} />
      <RenamingReport audit={audit} />
      {(report.occasion === 'inherit' || report.occasion === 'build') && (
        <Row
          title="Make this record the plan"
          second="What was found, with what nobody knows marked as not known. You see it before it counts."
          onPress={() => go({ screen: 'make-plan', audit })}
        />
      )}
      <ReportPlan audit={audit} />
      {!wide && checked}
      <ReportPhotos report={report} />
      <Facts report={report} />
      {closing.value && (
        <CloseAudit
          report={report}
          onClose={() => {
            closing.value = false;
          }}
        />
      )}
    </Screen>
  );
}

function Facts({ report }: { report: Reconciliation }) {
  const plan = planToWords(report.plan);
  return (
    <>
      <FactStrip
        facts={[
          { small: 'Walked by', big: report.people.join(', ') || 'nobody named' },
          {
            small: 'Plan',
            big: (
              <>
                {plan.name} <Ident text={plan.hash} />
              </>
            ),
          },
          { small: 'As found', big: report.startedAt ? span(report.startedAt, report.lastAt) : 'not begun' },
          { small: 'Allowed', big: PERMISSION_WORDS[report.permission].all },
          { small: 'Photos', big: String(report.photoCount) },
          { small: 'State', big: report.closedAt === null ? 'open' : `closed ${dayAndClock(report.closedAt)}` },
        ]}
      />
      <p class="desk-note">
        {occasionToWords(report.occasion)}. {report.plan.source ? `Plan read from ${report.plan.source}. ` : ''}
        {report.plan.moves.length > 0 && `${movesToWords(report.plan, dayAndClock)} `}
        Names are typed, not proven. Last statement {dayAndClock(report.lastAt)}.
      </p>
      <p class="report-closing">{CLOSING_WORDS}</p>
    </>
  );
}

function stampOf({ lastAt, closedAt, coverage, lines, remarks, media, undecided }: Reconciliation): string {
  return [lastAt, closedAt, coverage.seen, lines.length, remarks.length, media.photos.length, undecided].join(' ');
}

function span(from: number, to: number): string {
  return day(from) === day(to) ? day(from) : `${day(from)} to ${day(to)}`;
}
