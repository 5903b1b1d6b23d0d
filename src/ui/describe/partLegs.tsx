// The legs of a part that is put together: each a socket or a tail with its plug, and where a tail's plug sits.

import { CONNECTOR_NAMES } from '../../core/record/jackWords.ts';
import type { PartLeg } from '../../core/report/walk/partPayloads.ts';
import { nameToKey } from '../../core/trade/names.ts';
import { Choice, Field, PlainButton } from '../parts/form.tsx';
import { SectionHead } from '../parts/rows.tsx';

export interface LegDraft extends PartLeg {
  /** Where a tail goes, as typed. */
  into: string;
}

export function LegRows({ legs, set }: { legs: readonly LegDraft[]; set: (legs: LegDraft[]) => void }) {
  const change = (i: number, by: Partial<LegDraft>) => set(legs.map((leg, n) => (n === i ? { ...leg, ...by } : leg)));
  const add = (kind: LegDraft['kind']) => () => {
    const last = legs.at(-1);
    set([...legs, { kind, label: nextName(legs), connector: last?.connector ?? '', into: '' }]);
  };
  return (
    <>
      <SectionHead strong title="Legs" right={String(legs.length)} />
      {legs.map((leg, i) => (
        <div key={i} class="desk-part">
          <Field label={`Leg ${i + 1}`} ident value={leg.label} onInput={(label) => change(i, { label })} />
          <Choice
            legend={`Leg ${i + 1} is`}
            value={leg.kind}
            options={[
              { value: 'socket' as const, text: 'A socket' },
              { value: 'tail' as const, text: 'A tail with a plug' },
            ]}
            onChoose={(kind) => change(i, { kind })}
          />
          <Field
            label={`Connector of leg ${leg.label || i + 1}`}
            value={leg.connector}
            suggestions={CONNECTOR_NAMES}
            onInput={(connector) => change(i, { connector })}
          />
          {leg.kind === 'tail' && (
            <Field
              label={`Tail ${leg.label || i + 1} goes into`}
              ident
              value={leg.into}
              hint="Unit and jack, such as SAT1 OUT L. Leave blank if not known."
              onInput={(into) => change(i, { into })}
            />
          )}
          <PlainButton onPress={() => set(legs.filter((_, n) => n !== i))}>Remove leg {leg.label || i + 1}</PlainButton>
        </div>
      ))}
      <div class="desk-part">
        <PlainButton onPress={add('socket')}>Add a socket</PlainButton>
        <PlainButton onPress={add('tail')}>Add a tail</PlainButton>
      </div>
    </>
  );
}

/** L, then R; any further leg counts on. */
function nextName(legs: readonly LegDraft[]): string {
  const taken = new Set(legs.map(({ label }) => nameToKey(label)));
  return ['L', 'R', ...Array.from({ length: 32 }, (_, i) => String(i + 1))].find((name) => !taken.has(name)) ?? '';
}
