// What the report says beside differences: changes and lash-ups with their dates, and cables of many pairs.
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { CableLabel } from '../parts/label.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { dayAndClock } from '../times.ts';
import { labelToShow } from '../walkState.ts';

export function ReportChanges({ report }: { report: Reconciliation }) {
  const { changes, pairs } = report;
  return (
    <>
      {changes.length > 0 && (
        <SectionHead strong title="Against the plan on purpose, and lash-ups" right={String(changes.length)} />
      )}
      {changes.map((one) => (
        <Row
          key={`${one.place} ${one.at}`}
          title={
            <>
              {one.place}: <CableLabel text={labelToShow(one.label)} />
            </>
          }
          right={one.until === null ? undefined : `until ${one.until}`}
          second={`${one.reason}. ${one.author}, ${dayAndClock(one.at)}`}
        />
      ))}
      {pairs.length > 0 && <SectionHead strong title="Cables of many pairs" right={String(pairs.length)} />}
      {pairs.map(({ label, words }) => (
        <Row key={label} title={<CableLabel text={labelToShow(label)} variant="plan" />} second={words} />
      ))}
    </>
  );
}
