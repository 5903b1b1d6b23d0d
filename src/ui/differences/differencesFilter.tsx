// Which differences are shown: how bad, of which rack, unit or number; and what is said where none is.
import type { Signal } from '@preact/signals';
import type { Coverage } from '../../core/report/coverage.ts';
import type { DifferenceLine, DifferencesView } from '../../core/report/reconciliation.ts';
import { counted } from '../../core/report/words/plain.ts';
import { coverageToWords } from '../../core/report/words/reportSentences.ts';
import type { Severity } from '../../core/trade/kinds.ts';
import { Choice, Field } from '../parts/form.tsx';
import { Empty } from '../parts/rows.tsx';
import { countOf } from './differencesList.tsx';
import { type Only, SHORT_SEVERITY, shownToWords } from './differencesShown.ts';

/** More rows than this are shown in steps, so that a phone never draws thousands at once. */
export const STEP = 150;

export function Filter({
  wide,
  only,
  wanted,
  shown,
  listed,
  hazards,
  severities,
  shownCount,
}: {
  wide: boolean;
  only: Signal<Only>;
  wanted: Signal<string>;
  shown: DifferenceLine[];
  listed: DifferenceLine[];
  hazards: DifferenceLine[];
  severities: { severity: Severity; words: string; count: number }[];
  shownCount: Signal<number>;
}) {
  return (
    <div class="desk-part no-print">
      <details open={wide}>
        <summary>{shownToWords(only.value, wanted.value, shown.length, listed.length, hazards.length)}</summary>
        {severities.length > 1 && (
          <Choice<Only>
            legend="How bad"
            value={only.value}
            options={[
              { value: 'all', text: `All ${listed.length}` },
              ...severities.map(({ severity }) => ({
                value: severity,
                text: `${SHORT_SEVERITY[severity]} ${countOf(listed, severity)}`,
              })),
            ]}
            onChoose={(value) => {
              only.value = value;
              shownCount.value = STEP;
            }}
          />
        )}
        <Field
          label="Only rack, unit or number"
          type="search"
          ident
          value={wanted.value}
          onInput={(value) => {
            wanted.value = value;
            shownCount.value = STEP;
          }}
        />
      </details>
    </div>
  );
}

export function NoneToShow({
  view,
  coverage,
  walk,
  listed,
  shown,
  only,
  wanted,
}: {
  view: DifferencesView;
  coverage: Coverage | undefined;
  walk: () => void;
  listed: DifferenceLine[];
  shown: DifferenceLine[];
  only: Signal<Only>;
  wanted: Signal<string>;
}) {
  return (
    <>
      {view.lines.length === 0 && (
        <Empty
          what="Nothing differs so far."
          why={coverage ? coverageToWords(coverage) : undefined}
          next={{ text: 'Walk on', onPress: walk }}
        />
      )}
      {listed.length > 0 && shown.length === 0 && (
        <Empty
          what="No difference matches the filter."
          why={`${counted(listed.length, 'difference is', 'differences are')} hidden by the filter above.`}
          next={{
            text: 'Show all',
            onPress: () => {
              only.value = 'all';
              wanted.value = '';
            },
          }}
        />
      )}
    </>
  );
}
