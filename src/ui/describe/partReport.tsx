// What the report says beside differences: what was changed meanwhile, as found and as left, what waits for a window, changes and lash-ups with their dates, cables of many
// pairs, and ends that may be one cable and are left to prove.
import { OUTCOME_WORDS } from '../../core/report/leftView.ts';
import type { Reconciliation } from '../../core/report/reconciliation.ts';
import { CableLabel, Ident } from '../parts/label.tsx';
import { Row, SectionHead } from '../parts/rows.tsx';
import { dayAndClock } from '../times.ts';
import { labelToShow } from '../walk/walkState.ts';

const SHOWN = 40;

export function ReportChanges({ report }: { report: Reconciliation }) {
  const { changes, pairs, forWindow, left, toProve } = report;
  return (
    <>
      {left.length > 0 && <SectionHead strong title="As found and as left" right={String(left.length)} />}
      {left.slice(0, SHOWN).map((one) => (
        <Row
          key={one.words}
          title={
            <>
              <Ident text={one.words} />: <Said {...one.found} /> then <Said {...one.left} />
            </>
          }
          right={OUTCOME_WORDS[one.outcome]}
          second={`Found by ${one.found.by}, ${dayAndClock(one.found.at)}. Left so by ${one.left.by}, ${dayAndClock(one.left.at)}.${one.plan === null ? '' : ` Plan: ${one.plan}.`}`}
        />
      ))}
      {left.length > SHOWN && <p class="desk-part">And {left.length - SHOWN} more; the report’s file has them.</p>}
      {forWindow.length > 0 && <SectionHead strong title="For the window" right={String(forWindow.length)} />}
      {forWindow.slice(0, SHOWN).map((one) => (
        <Row
          key={one.place}
          title={one.words}
          right={one.owed}
          second={`${one.why}. ${one.author}, ${dayAndClock(one.at)}`}
        />
      ))}
      {forWindow.length > SHOWN && (
        <p class="desk-part">And {forWindow.length - SHOWN} more; the report’s file has them.</p>
      )}
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
      {toProve.length > 0 && (
        <SectionHead strong title="Left to prove: one cable by jacket and marks" right={String(toProve.length)} />
      )}
      {toProve.slice(0, SHOWN).map(({ ends, words }) => (
        <Row key={ends} title={ends} second={words} />
      ))}
      {toProve.length > SHOWN && (
        <p class="desk-part">And {toProve.length - SHOWN} more; the report’s file has them.</p>
      )}
    </>
  );
}

function Said({ words, isLabel }: { words: string; isLabel: boolean }) {
  return isLabel ? <CableLabel text={labelToShow(words)} /> : <span>{words}</span>;
}
