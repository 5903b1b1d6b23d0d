// The report's part on decisions: signed, with their reasons, what waits for one, and what is to be amended in the
// record. It shows them; nothing is signed here.
import { decidedRows, decidedToWords, saidToWords } from '../../core/report/decisionsView.ts';
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { Row, SectionHead } from '../parts/rows.tsx';
import { dayAndClock } from '../times.ts';
import { AmendPlan, Changed } from './reportAmend.tsx';

/** More than this belongs into the file. */
const LISTED_AT_MOST = 60;

export function ReportDecisions({ report, onAll }: { report: Reconciliation; onAll: () => void }) {
  const rows = decidedRows(report.lines);
  const { ends, byHand } = report.amendments;
  const { refused } = report.explained;
  if (report.lines.length === 0 && report.past.length === 0) return null;
  const numbers = new Map(report.lines.map(({ id, number }) => [id, number]));
  return (
    <section class="report-decisions" aria-label="Decisions">
      <SectionHead strong title="Decisions" right={`${report.undecided} open`} />
      <p class="desk-note">{decidedToWords(report.lines, report.undecided)}</p>
      {rows.slice(0, LISTED_AT_MOST).map((one) => (
        <Row
          key={one.event}
          title={`No. ${one.numbers.join(', ')}: ${one.words.toLowerCase()}${one.disputed ? ' (not agreed)' : ''}`}
          second={`${one.by}, ${dayAndClock(one.at)}${one.reason ? `: ${one.reason}` : '.'}`}
          onPress={onAll}
        />
      ))}
      {rows.length > LISTED_AT_MOST && <p class="desk-note">{rows.length - LISTED_AT_MOST} more are in the file.</p>}
      {report.explained.causes
        .filter(({ judging }) => judging.said.length > 0)
        .map((cause) => (
          <Row
            key={cause.id}
            title={`${cause.title}${cause.judging.disputed ? ' (not agreed)' : ''}`}
            second={cause.judging.said.map((one) => saidToWords(one, dayAndClock(one.at))).join(' ')}
            onPress={onAll}
          />
        ))}
      {report.explained.reopened.map((one) => (
        <Row key={one.event} title={one.why} second={saidToWords(one, dayAndClock(one.at))} onPress={onAll} />
      ))}
      {refused.map((one) => (
        <Row key={one.event} title={one.words} second={saidToWords(one, dayAndClock(one.at))} onPress={onAll} />
      ))}
      {report.past.length > 0 && (
        <>
          <SectionHead level={3} title="Decided, and no longer different" right={String(report.past.length)} />
          {report.past.slice(0, LISTED_AT_MOST).map((one) => (
            <Row key={one.event} title={one.about} second={saidToWords(one, dayAndClock(one.at))} />
          ))}
        </>
      )}
      {ends.length + byHand.length > 0 && (
        <>
          <SectionHead level={3} title="To be amended in the record" right={String(ends.length + byHand.length)} />
          {ends.slice(0, LISTED_AT_MOST).map((one) => (
            <Row
              key={`${one.label} ${one.end}`}
              title={<Changed line={one} />}
              second={[one.by, one.reason].filter(Boolean).join(': ')}
            />
          ))}
          {byHand.slice(0, LISTED_AT_MOST).map((one) => (
            <Row
              key={one.difference}
              title={`No. ${numbers.get(one.difference) ?? ''}, by hand: ${one.why}`}
              second={[one.by, one.reason].filter(Boolean).join(': ')}
            />
          ))}
          <AmendPlan audit={report.audit} />
        </>
      )}
    </section>
  );
}
