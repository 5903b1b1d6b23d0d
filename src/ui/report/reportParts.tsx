// Parts of the report's sheet: lead, strokes with their counts, the worst, racks, and what was not looked at.

import type { Reconciliation } from '../../core/report/reconciliation.ts';
import type { AuditSummary } from '../../core/report/walk/homeView.ts';
import {
  coverageToWords,
  notLookedByReason,
  partToWords,
  wholeToWords,
} from '../../core/report/words/reportSentences.ts';
import { isHazard } from '../../core/trade/kinds.ts';
import { ReportChanges } from '../describe/partReport.tsx';
import { CableStrokes, JackStrokes } from '../parts/cable-strokes.tsx';
import { scrolledByKeys } from '../parts/frame.tsx';
import { HazardFrame, HazardRow } from '../parts/hazard.tsx';
import { CableLabel, Ident } from '../parts/label.tsx';
import { DifferenceRow, Row, SectionHead } from '../parts/rows.tsx';
import { CouldNotSeeSymbol, DiffersSymbol, MarkSymbol, NotSeenSymbol, TickSymbol } from '../parts/symbols.tsx';
import { dayAndClock } from '../times.ts';

export function Lead({ report }: { report: Reconciliation }) {
  const lead = wholeToWords(report);
  return (
    <div class="report-head">
      <h2>{report.name}</h2>
      <p>
        {lead.before} <strong>{lead.main}</strong> {lead.after}
      </p>
      <p>{coverageToWords(report.coverage)}</p>
    </div>
  );
}

export function Strokes({ report, summary }: { report: Reconciliation; summary: AuditSummary | undefined }) {
  const { coverage: c } = report;
  const said = `${c.bothEnds} as planned, ${c.differ} differ, ${c.oneEnd} seen at one end, ${c.notSeen} not seen`;
  return (
    <section class="report-strokes" aria-label="Cables at a glance">
      {summary && summary.strokes.length > 0 && <CableStrokes label={said} cables={summary.strokes} />}
      {summary && summary.jacks.length > 0 && (
        <JackStrokes label={`${c.seen} of ${c.places} jacks looked at`} jacks={summary.jacks} />
      )}
      <ul class="report-counts">
        <li>
          <TickSymbol /> <strong>{c.bothEnds}</strong> as planned
        </li>
        <li>
          <DiffersSymbol /> <strong>{c.differ}</strong> {c.differ === 1 ? 'differs' : 'differ'}
        </li>
        <li>
          <NotSeenSymbol /> <strong>{c.oneEnd}</strong> one end seen
        </li>
        <li>
          <NotSeenSymbol /> <strong>{c.notSeen}</strong> not seen
        </li>
        <li>
          <CouldNotSeeSymbol /> <strong>{c.cablesNotVerified}</strong> could not be seen
        </li>
      </ul>
    </section>
  );
}

const SHOWN = 3;

export function Worst({ report, onAll }: { report: Reconciliation; onAll: () => void }) {
  const { lines } = report;
  const hazards = lines.filter(isHazard);
  const others = lines.filter((line) => !isHazard(line)).slice(0, Math.max(0, SHOWN - hazards.length));
  const [worst, ...further] = hazards;
  return (
    <>
      <SectionHead strong title={lines.length === 0 ? 'Differences' : 'The worst'} right={`${lines.length} in all`} />
      {lines.length === 0 && (
        <p class="desk-note">Nothing differs so far; of what was not looked at nothing can be said.</p>
      )}
      {worst && (
        <HazardFrame title={worst.title} line={<strong>{worst.severityWords}.</strong>} onPress={onAll}>
          {worst.line} <strong>{worst.order}</strong>
        </HazardFrame>
      )}
      {further.map((line) => (
        <HazardRow key={line.id} title={line.title} line={<strong>{line.severityWords}.</strong>} onPress={onAll}>
          {line.line} <strong>{line.order}</strong>
        </HazardRow>
      ))}
      {others.map((line) => (
        <DifferenceRow
          key={line.id}
          mark={line.severity === 'undecided' ? 'undecided' : 'differs'}
          title={line.title}
          severity={`${line.severityWords}.`}
          second={line.line}
          onPress={onAll}
        />
      ))}
    </>
  );
}

/** A report is read on paper too; what does not fit a page or two is in the file. */
const ALL_AT_MOST = 120;

/** Every difference in one line each, worst first, with the count of each severity. */
export function AllDifferences({ report, onAll }: { report: Reconciliation; onAll: () => void }) {
  const listed = report.lines.slice(0, ALL_AT_MOST);
  const left = report.lines.length - listed.length;
  if (report.lines.length === 0) return null;
  return (
    <>
      <SectionHead strong title="All differences" right={String(report.lines.length)} />
      {report.counts.map(({ severity, words, count: n }) => (
        <section key={severity} aria-label={words}>
          <SectionHead level={3} title={words} right={String(n)} />
          <ul class="report-all">
            {listed
              .filter((line) => line.severity === severity)
              .map((line) => (
                <li key={line.id}>
                  <MarkSymbol mark={isHazard(line) ? 'hazard' : severity === 'undecided' ? 'undecided' : 'differs'} />
                  <span>
                    No. {line.number}: {line.line}
                  </span>
                </li>
              ))}
          </ul>
        </section>
      ))}
      <Row
        title={left > 0 ? `${left} more` : 'One by one'}
        second="With evidence, photos and notes, under Differences."
        onPress={onAll}
      />
    </>
  );
}

function Table(props: { head?: string[]; rows: string[][]; sum?: string[] }) {
  return (
    <div class="desk-scroll" ref={scrolledByKeys}>
      <table class="desk-table">
        {props.head && (
          <thead>
            <tr>
              {props.head.map((cell, i) => (
                <th key={cell} scope="col" class={i > 0 ? 'number' : undefined}>
                  {cell}
                </th>
              ))}
            </tr>
          </thead>
        )}
        <tbody>
          {props.rows.map((row, i) => (
            <tr key={i}>
              {row.map((cell, j) => (
                <td key={j} class={j > 0 ? 'number' : undefined}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
          {props.sum && (
            <tr class="desk-sum">
              {props.sum.map((cell, j) => (
                <td key={j} class={j > 0 ? 'number' : undefined}>
                  {cell}
                </td>
              ))}
            </tr>
          )}
        </tbody>
      </table>
    </div>
  );
}

export function Racks({ report }: { report: Reconciliation }) {
  const { coverage: c } = report;
  return (
    <>
      <SectionHead strong title="Rack by rack" right="jacks" />
      <Table
        head={['Where', 'In scope', 'Looked at', 'Differ']}
        rows={report.byRack.map((row) => [row.label, String(row.places), String(row.seen), String(row.differ)])}
        sum={['All', String(c.places), String(c.seen), String(report.byRack.reduce((sum, row) => sum + row.differ, 0))]}
      />
    </>
  );
}

/** Long lists are folded: a report of a thousand open jacks must stay readable. */
const LIST = 40;

export function NotLooked({ report }: { report: Reconciliation }) {
  return (
    <>
      <SectionHead strong title="Not looked at, and why" right={String(report.notLooked.length)} />
      <div class="desk-part">
        {report.notLooked.length === 0 && <p>Every jack in scope was looked at.</p>}
        {notLookedByReason(report.notLooked).map(({ reason, places }) => (
          <Places
            key={reason}
            title={`${reason[0]?.toUpperCase()}${reason.slice(1)}: ${places.length}.`}
            places={places}
          />
        ))}
        {report.oneEnd.length > 0 && (
          <Places
            title={`One end only: ${report.oneEnd.length}.`}
            places={report.oneEnd.map(({ label, missing }) => `${label} (${missing})`)}
          />
        )}
        {report.notSeen.length > 0 && (
          <p>
            Cables not seen: {report.notSeen.length}.{' '}
            {report.notSeen.slice(0, LIST).map((label) => (
              <span key={label}>
                <CableLabel text={label} variant="plan" />{' '}
              </span>
            ))}
            {report.notSeen.length > LIST && `and ${report.notSeen.length - LIST} more.`}
          </p>
        )}
      </div>
      {report.exclusions.length > 0 && (
        <>
          <SectionHead strong title="Left out on purpose" right={String(report.exclusions.length)} />
          {report.exclusions.map(({ label, reason }, i) => (
            <Row key={i} title={<Ident text={label} />} second={reason || 'no reason given'} />
          ))}
        </>
      )}
      {report.added.length > 0 && (
        <>
          <SectionHead strong title="Added during the audit" right={String(report.added.length)} />
          {report.added.map(({ event, parts, author, at }) => (
            <Row key={event} title={parts.map(partToWords).join(', ')} second={`${author}, ${dayAndClock(at)}`} />
          ))}
        </>
      )}
      <ReportChanges report={report} />
      {report.remarks.length > 0 && (
        <>
          <SectionHead strong title="Remarks" right={String(report.remarks.length)} />
          {report.remarks.map((one, i) => (
            <Row
              key={i}
              title={one.text}
              second={`${one.place ? `${one.place}, ` : ''}${one.author}, ${dayAndClock(one.at)}`}
            />
          ))}
        </>
      )}
    </>
  );
}

function Places({ title, places }: { title: string; places: readonly string[] }) {
  return (
    <p>
      {title}{' '}
      {places.slice(0, LIST).map((place, i) => (
        <span key={place}>
          {i > 0 && ', '}
          <Ident text={place} />
        </span>
      ))}
      {places.length > LIST && ` and ${places.length - LIST} more.`}
    </p>
  );
}
