// The reconciliation of one audit on one sheet: what was checked, what differs, what was not looked at and why, by
// whom and against which plan. Files are made first and handed over on a second tap; nothing is signed here.

import { useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { AuditId } from '../../core/plan/identity.ts';
import type { ReportDocument } from '../../core/report/document/document.ts';
import { reportDocument } from '../../core/report/document/reportDocument.ts';
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { errorToWhy, useAsked, useServices } from '../context.ts';
import { type CellProps, Plate, Screen, TitleBlock } from '../parts/frame.tsx';
import { ErrorBox, Row } from '../parts/rows.tsx';
import { back, NoAnswer } from '../plan/planParts.tsx';
import { go } from '../router.ts';
import { handedToWords } from '../words.ts';
import { AmendPlan } from './reportAmend.tsx';
import { CloseAudit } from './reportClose.tsx';
import { reportFiles } from './reportFiles.ts';
import { Strokes, ToRead } from './reportParts.tsx';
import { picturesOf } from './reportPictures.ts';
import { ReportPlan } from './reportPlan.tsx';
import { ReportSheet } from './reportSheet.tsx';
import { reportName } from './reportWords.ts';
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
  const report = asked.type === 'ready' ? asked.value : null;
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
  // Made once for screen and file.
  const document = useMemo(
    () => report && reportDocument(report, { madeAt: services.now(), version: services.update.version, timeZone }),
    [report, timeZone],
  );
  if (asked.type !== 'ready' || report === null || document === null)
    return (
      <NoAnswer
        title="Report"
        asked={asked}
        missing="This audit is not on this phone, or its plan has not arrived yet."
        next="Send and receive fetches both."
      />
    );
  return <Sheet report={report} document={document} />;
}

function Sheet({ report, document }: { report: Reconciliation; document: ReportDocument }) {
  const { audit, occasion } = report;
  const home = useAsked('home', {});
  const summary = home.type === 'ready' ? home.value.audits.find(({ id }) => id === audit) : undefined;
  const files = useFiles(report, document);
  const closing = useSignal(false);
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
      foot={
        <Foot
          files={files}
          last={
            report.closedAt === null
              ? {
                  small: 'Nothing is deleted',
                  big: 'Close the audit',
                  onPress: () => {
                    closing.value = true;
                  },
                }
              : { small: 'One by one', big: 'Differences', onPress: () => go({ screen: 'differences', audit }) }
          }
        />
      }
    >
      <ReportSheet
        document={document}
        audit={audit}
        voices={report.media.voices}
        open={(target) =>
          target.type === 'differences'
            ? go({ screen: 'differences', audit })
            : go({ screen: 'renaming', audit, place: target.place })
        }
        glance={<Strokes report={report} summary={summary} />}
        acts={{ decisions: <AmendPlan audit={audit} />, media: <ToRead report={report} /> }}
        before={
          <>
            {(occasion === 'inherit' || occasion === 'build') && (
              <Row
                title="Use this record as the plan"
                second="What was found becomes the plan; what nobody knows is marked as not known. You see it first."
                onPress={() => go({ screen: 'make-plan', audit })}
              />
            )}
            <ReportPlan audit={audit} />
          </>
        }
      />
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

/** The files of a report: made on one tap, handed over on the next, and made anew once the record has changed. */
function useFiles(report: Reconciliation, document: ReportDocument) {
  const services = useServices();
  const files = useSignal<Files>({ type: 'none' });
  const make = async () => {
    const lent = reportFiles.value;
    if (!lent) {
      files.value = { type: 'failed', why: 'This page has not loaded the part that makes files.' };
      return;
    }
    files.value = { type: 'making' };
    try {
      const { documentToHtml, reportToCsv } = await lent();
      const text = documentToHtml(document, await picturesOf(services, report));
      files.value = {
        type: 'ready',
        of: stampOf(report),
        html: new File([text], reportName(report, 'html'), { type: 'text/html' }),
        csv: new File([reportToCsv(report)], reportName(report, 'csv'), { type: 'text/csv' }),
        told: null,
      };
    } catch (error) {
      files.value = { type: 'failed', why: errorToWhy(error) };
    }
  };
  const hand = async (file: File) => {
    const told = handedToWords(await services.handOver(file), file.name);
    const now = files.peek();
    if (now.type === 'ready') files.value = { ...now, told };
  };
  const made = files.value;
  // Files of an older state of the record are not handed over.
  const at: Files = made.type === 'ready' && made.of !== stampOf(report) ? { type: 'none' } : made;
  return { at, make, hand };
}

function Foot({ files, last }: { files: ReturnType<typeof useFiles>; last: CellProps }) {
  const { at, make, hand } = files;
  const paper: CellProps = { small: 'Paper', big: 'Print', onPress: () => print() };
  const cells: CellProps[] =
    at.type === 'ready'
      ? [
          { small: 'To read and print', big: 'HTML', primary: true, share: 2, onPress: () => void hand(at.html) },
          { small: 'Differences', big: 'CSV', onPress: () => void hand(at.csv) },
          paper,
        ]
      : [
          {
            small: at.type === 'making' ? 'Making them' : 'HTML and CSV',
            big: 'Make files',
            primary: true,
            share: 2,
            disabled: at.type === 'making',
            onPress: () => void make(),
          },
          paper,
          last,
        ];
  return (
    <>
      {at.type === 'ready' && (
        <p class="desk-note" role="status">
          {at.told ?? 'Both files are ready. Tap HTML or CSV to share or save it.'}
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
  );
}

function stampOf({ lastAt, closedAt, coverage, lines, remarks, media, undecided }: Reconciliation): string {
  return [lastAt, closedAt, coverage.seen, lines.length, remarks.length, media.photos.length, undecided].join(' ');
}
