// The differences one beneath the other, by how bad they are, each with its details where they were opened.
import type { ComponentChildren } from 'preact';
import type { AuditId } from '../../core/plan/identity.ts';
import type { DifferenceLine } from '../../core/report/reconciliation.ts';
import type { Severity } from '../../core/trade/kinds.ts';
import { DifferenceRow, SectionHead } from '../parts/rows.tsx';
import { count } from '../words.ts';
import { DifferenceDetails } from './differencesDetails.tsx';
import { decidedShort } from './differencesShown.ts';

export function BySeverity({
  severities,
  drawn,
  shown,
  of,
  open,
  press,
}: {
  severities: { severity: Severity; words: string; count: number }[];
  drawn: DifferenceLine[];
  shown: DifferenceLine[];
  of: Opening;
  open: DifferenceLine | undefined;
  press: (line: DifferenceLine) => () => void;
}) {
  return (
    <>
      {severities.map(({ severity, words }) => {
        const list = drawn.filter((line) => line.severity === severity);
        return (
          list.length > 0 && (
            <section key={severity} aria-label={words}>
              <SectionHead
                title={words}
                right={count(shown.filter((line) => line.severity === severity).length, 'difference')}
              />
              {list.map((line) => (
                <WithDetails key={line.id} line={line} of={of}>
                  <DifferenceRow
                    mark={line.severity === 'undecided' ? 'undecided' : 'differs'}
                    title={line.title}
                    severity={`No. ${line.number}.${decidedShort(line.decision)}`}
                    second={line.line}
                    current={open?.id === line.id}
                    onPress={press(line)}
                  />
                </WithDetails>
              ))}
            </section>
          )
        );
      })}
    </>
  );
}

export function countOf(lines: readonly DifferenceLine[], severity: Severity): string {
  return String(lines.filter((line) => line.severity === severity).length);
}

export type Opening = {
  audit: AuditId;
  wide: boolean;
  open: DifferenceLine | undefined;
  press: (line: DifferenceLine) => () => void;
  close: () => void;
};

export function Details({ line, of: { audit, wide, close } }: { line: DifferenceLine; of: Opening }) {
  return <DifferenceDetails line={line} audit={audit} {...(wide ? {} : { onClose: close })} />;
}

export function WithDetails({
  line,
  of,
  children,
}: {
  line: DifferenceLine;
  of: Opening;
  children: ComponentChildren;
}) {
  return (
    <div>
      {children}
      {!of.wide && of.open?.id === line.id && <Details line={line} of={of} />}
    </div>
  );
}
